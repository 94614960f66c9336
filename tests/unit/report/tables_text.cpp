#include "testing.hpp"

#include "voltwright/report/tables_json.hpp"
#include "voltwright/report/tables_text.hpp"

namespace voltwright {

namespace {

constexpr PrintedTable::Column columns[] = {{"width", "mm"}, {"to_air", "K/W"}, {"kind", ""}};
constexpr std::string_view cells[] = {"20", "3.4", "bare", "120", "", "±"};
constexpr std::string_view notes[] = {"", "the 2nd edition prints 4.3"};
constexpr PrintedTable straps = {
    "straps",       "Straps on edge", "30 degC air", {"book", "A Book, 2019, p. 143", Standing::memory},
    "figures only", "from the page",  columns,       cells,
    notes};

}  // namespace

TEST_CASE("a table is shown as printed, with its source, a gap as a gap and its notes below") {
    CHECK(show_table(straps, {}) ==
          "Straps on edge\n"
          "applies   30 degC air\n"
          "source    A Book, 2019, p. 143\n"
          "known     from memory\n"
          "terms     figures only\n"
          "entered   from the page\n"
          "\n"
          "width  to_air  kind\n"
          "   mm     K/W\n"
          "   20     3.4  bare\n"
          "  120          ±     (1)\n"
          "\n"
          "(1) the 2nd edition prints 4.3\n");
}

TEST_CASE("a table that is wider than the page is written row by row, a line for each column") {
    const std::string text = show_table(straps, {.width = 16});
    CHECK(text.substr(text.find("\n\n") + 2) ==
          "width: 20 mm\n"
          "to_air: 3.4 K/W\n"
          "kind: bare\n"
          "\n"
          "width: 120 mm\n"
          "kind: ±\n"
          "note: the 2nd\n"
          "    edition\n"
          "    prints 4.3\n");
}

TEST_CASE("the list of tables says of each how its source is known") {
    Tables tables = {};
    tables.printed = {&straps, 1};
    CHECK(list_tables(tables, {}).find("straps  Straps on edge (from memory)\n") == 0);
    CHECK(list_tables_json(tables).find("\"standing\": \"from memory\"") != std::string::npos);
}

TEST_CASE("a gap of a table is null in JSON, and a cell is text as printed") {
    const std::string json = show_table_json(straps);
    std::string dense;
    for (const char c : json)
        if (c != ' ' && c != '\n') dense += c;
    CHECK(dense.find(R"("rows":[["20","3.4","bare"],["120",null,"±"]],"notes":[null,"the2ndeditionprints4.3"])") !=
          std::string::npos);
}

}  // namespace voltwright
