#include "testing.hpp"
#include "voltwright/units/literals.hpp"
#include "voltwright/units/parse.hpp"

using namespace voltwright;
using namespace voltwright::literals;

TEST_CASE("cable sizes as they are printed and spoken") {
    struct Row {
        std::string_view text;
        Gauge expected;
        std::string_view shown;
    };
    for (const Row& row : {
             Row{"8 AWG", awg(8), "8 AWG"},
             Row{"8AWG", awg(8), "8 AWG"},
             Row{"8 awg", awg(8), "8 AWG"},
             Row{"AWG 8", awg(8), "8 AWG"},
             Row{"AWG8", awg(8), "8 AWG"},
             Row{"#8 AWG", awg(8), "8 AWG"},
             Row{"AWG #8", awg(8), "8 AWG"},
             Row{"8 B&S", awg(8), "8 AWG"},
             Row{"8 b & s", awg(8), "8 AWG"},
             Row{"B&S 8", awg(8), "8 AWG"},
             Row{"40 AWG", awg(40), "40 AWG"},
             Row{"1 AWG", awg(1), "1 AWG"},
             Row{"0 AWG", awg(0), "1/0 AWG"},
             Row{"1/0 AWG", awg(0), "1/0 AWG"},
             Row{"1/0", awg(0), "1/0 AWG"},
             Row{"2/0 AWG", awg(-1), "2/0 AWG"},
             Row{"2/0AWG", awg(-1), "2/0 AWG"},
             Row{"00", awg(-1), "2/0 AWG"},
             Row{"00 AWG", awg(-1), "2/0 AWG"},
             Row{"000 AWG", awg(-2), "3/0 AWG"},
             Row{"3/0", awg(-2), "3/0 AWG"},
             Row{"0000 AWG", awg(-3), "4/0 AWG"},
             Row{"4/0 AWG", awg(-3), "4/0 AWG"},
             Row{"AWG 4/0", awg(-3), "4/0 AWG"},
             Row{"10 mm2", metric(10), "10 mm2"},
             Row{"10mm2", metric(10), "10 mm2"},
             Row{"10 mm\u00b2", metric(10), "10 mm2"},
             Row{"10 mm^2", metric(10), "10 mm2"},
             Row{"10 sq mm", metric(10), "10 mm2"},
             Row{"10 sqmm", metric(10), "10 mm2"},
             Row{"10 MM2", metric(10), "10 mm2"},
             Row{"2.5 mm2", metric(2.5), "2.5 mm2"},
             Row{"0.05 mm2", metric(0.05), "0.05 mm2"},
             Row{"1000 mm2", metric(1000), "1000 mm2"},
             Row{" 16\u00a0mm2 ", metric(16), "16 mm2"},
             Row{"6 mm auto", trade(6), "6 mm auto"},
             Row{"6mm Auto", trade(6), "6 mm auto"},
             Row{"2.5 mm  auto", trade(2.5), "2.5 mm auto"},
         }) {
        CAPTURE(row.text);
        const auto read = parse_gauge(row.text);
        REQUIRE(read);
        CHECK((*read == row.expected));
        CHECK(show(*read) == row.shown);
        CHECK((*parse_gauge(show(*read)) == row.expected));
    }
}

TEST_CASE("a size without its system is asked back") {
    struct Row {
        std::string_view text, why, hint;
    };
    for (const Row& row : {
             Row{"8", "the bare number '8' is no cable size: AWG or mm2?", "\"8 AWG\" or \"8 mm2\""},
             Row{"0", "the bare number '0' is no cable size: AWG or mm2?", "\"0 AWG\" or \"0 mm2\""},
             Row{"#8", "'#8' does not say in which system: AWG or mm2?", "\"8 AWG\" or \"8 mm2\""},
             Row{"8 gauge", "'8 gauge' does not say in which system: AWG or mm2?", "\"8 AWG\" or \"8 mm2\""},
             Row{"8 ga", "'8 ga' does not say in which system: AWG or mm2?", "\"8 AWG\" or \"8 mm2\""},
             Row{"16 mm", "'16 mm' is a length: the copper's cross-section, or the outside diameter of auto cable?",
                 "\"16 mm2\" or \"16 mm auto\""},
             Row{"2,5 mm2", "'2,5': write the decimal with a point", "\"2.5 mm2\""},
             Row{"41 AWG", "'41 AWG' is no size of AWG", "AWG is read from 4/0 to 40: \"8 AWG\", \"4/0 AWG\""},
             Row{"-1 AWG", "'-1 AWG' is no size of AWG", "AWG is read from 4/0 to 40: \"8 AWG\", \"4/0 AWG\""},
             Row{"8.5 AWG", "'8.5 AWG' is no size of AWG", "AWG is read from 4/0 to 40: \"8 AWG\", \"4/0 AWG\""},
             Row{"5/0", "'5/0' is no size of AWG", "AWG is read from 4/0 to 40: \"8 AWG\", \"4/0 AWG\""},
             Row{"AWG", "'AWG' is no size of AWG", "AWG is read from 4/0 to 40: \"8 AWG\", \"4/0 AWG\""},
             Row{"0.04 mm2", "'0.04 mm2' is no cable size",
                 "cross-sections are read from 0.05 to 1000 mm2: \"10 mm2\""},
             Row{"1001 mm2", "'1001 mm2' is no cable size",
                 "cross-sections are read from 0.05 to 1000 mm2: \"10 mm2\""},
             Row{"-10 mm2", "'-10 mm2' is no cable size", "cross-sections are read from 0.05 to 1000 mm2: \"10 mm2\""},
             Row{"13 mm auto", "'13 mm auto' is no size of auto cable",
                 "auto cable is read from 1 to 12 mm outside: \"6 mm auto\""},
             Row{"8 AWG copper", "'copper' behind the size is not understood", "\"8 AWG\""},
             Row{"16  mm2 tinned copper", "'tinned copper' behind the size is not understood", "\"16 mm2\""},
             Row{"AWG 8 2 m", "'2 m' behind the size is not understood", "\"8 AWG\""},
             Row{"2/0 / 3/0", "'/ 3/0' behind the size is not understood", "\"2/0 AWG\""},
             Row{"1 cm2", "'1 cm2' is no cable size", "\"8 AWG\", \"10 mm2\" or \"6 mm auto\""},
             Row{"8 SWG", "'8 SWG' is no cable size", "\"8 AWG\", \"10 mm2\" or \"6 mm auto\""},
             Row{"thick", "'thick' is no cable size", "\"8 AWG\", \"10 mm2\" or \"6 mm auto\""},
             Row{"", "this text is empty; a cable size is wanted", "\"8 AWG\" or \"10 mm2\""},
             Row{"\x07 8", "'? 8' is no cable size", "\"8 AWG\", \"10 mm2\" or \"6 mm auto\""},
         }) {
        CAPTURE(row.text);
        const auto read = parse_gauge(row.text);
        REQUIRE(!read);
        CHECK(read.wrong().why == row.why);
        CHECK(read.wrong().hint == row.hint);
    }
}

TEST_CASE("aluminium and copper-clad aluminium are refused, however they are called") {
    for (const std::string_view text :
         {"16 mm2 aluminium", "16 mm2 Aluminum", "8 AWG CCA", "8 AWG (cca)", "16 mm2 copper-clad", "16 mm2 copper clad",
          "16 mm2 Al", "2/0 AL", "16 mm2, alu", "aluminium 16 mm2"}) {
        CAPTURE(text);
        const auto read = parse_gauge(text);
        REQUIRE(!read);
        CHECK(read.wrong().why ==
              "aluminium and copper-clad aluminium are not planned with: every size here is of copper");
        CHECK(read.wrong().hint == "the size of a copper cable: \"8 AWG\", \"10 mm2\"");
    }
    CHECK(parse_gauge("8 AWG called").wrong().why == "'called' behind the size is not understood");
}

TEST_CASE("the same number in two systems is not the same size") {
    CHECK(!(awg(8) == metric(8)));
    CHECK(!(metric(6) == trade(6)));
}
