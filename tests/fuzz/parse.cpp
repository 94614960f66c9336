// Any text at all as a quantity and as a cable size: no crash, no exception, nothing that is not finite, and a reason
// that can be printed.
//
//     clang++ -std=c++20 -O1 -g -fsanitize=fuzzer,address,undefined -Ilib tests/fuzz/parse.cpp lib/voltwright/units/*.cpp
//     ./parse_fuzz -max_len=220 -max_total_time=60 corpus
//
// With VOLTWRIGHT_REPLAY defined it is a plain program that reads the files it is given, once each.

#include "harness.hpp"

#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>
#include <type_traits>
#include <vector>

namespace {

using namespace voltwright;
using fuzz::demand;

void check(const Unreadable& reason, std::string_view text) {
    demand(!reason.why.empty(), "refused without a reason");
    demand(reason.at <= text.size(), "a place outside the text");
    for (const std::string& words : {reason.why, reason.hint})
        for (const char c : words)
            demand(static_cast<unsigned char>(c) >= ' ' && c != '\x7f', "a control character in a message");
}

template <class Q>
void read_as(std::string_view text) {
    const auto read = parse<Q>(text);
    if (!read) return check(read.wrong(), text);
    demand(dimension_of(text) == dimension<Q>(), "read as what it is not");
    demand(std::isfinite(read->value.value()) && std::isfinite(read->half_width.value()), "not finite");
    demand(read->half_width.value() >= 0.0, "a negative half width");
    const auto again = parse<Q>(write(*read));
    demand(static_cast<bool>(again), "what was written is refused");
    // A ratio may lose its last bit, and near the ends of the range of a double nothing is promised.
    const double size = std::abs(read->value.value()), width = read->half_width.value();
    const std::string shown = show(read->value);
    demand(shown.find("inf") == std::string::npos && shown.find("nan") == std::string::npos, "shown as no number");
    const auto ordinary = [](double x) { return x == 0.0 || (x > 1e-290 && x < 1e290); };
    if (ordinary(size)) demand(shown != "?", "a number shown as none");
    if (!std::is_same_v<Q, Ratio> && ordinary(size) && ordinary(width))
        demand(*again == *read, "what was written reads as another");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(data, data + size);
    read_as<Current>(text);
    read_as<Voltage>(text);
    read_as<Resistance>(text);
    read_as<Power>(text);
    read_as<Energy>(text);
    read_as<Charge>(text);
    read_as<Length>(text);
    read_as<Area>(text);
    read_as<Volume>(text);
    read_as<Duration>(text);
    read_as<Mass>(text);
    read_as<Angle>(text);
    read_as<Ratio>(text);
    read_as<Temperature>(text);
    read_as<TemperatureRise>(text);

    const auto gauge = parse_gauge(text);
    if (!gauge) {
        check(gauge.wrong(), text);
        return 0;
    }
    const auto again = parse_gauge(show(*gauge));
    demand(again && *again == *gauge, "a size that was shown reads as another");
    return 0;
}
