// Types the tables: reads data/**/*.toml, checks them, and writes one C++ source of constexpr rows.
//
//     voltwright_generate_tables OUTPUT.cpp TABLE.toml …
//
// A bad table stops the build. The output is written last and whole, so a failing run leaves nothing that looks up to
// date. A new kind of table is told in kinds.hpp; a new unit is a line of units.cpp.

#include "printed.hpp"
#include "rows.hpp"

#include <algorithm>
#include <cstdio>
#include <exception>
#include <fstream>
#include <string>
#include <vector>

namespace voltwright::generate_tables {

namespace {

std::string compose(const std::vector<std::string>& files) {
    TypedRows typed;
    PrintedTables printed;
    for (const std::string& file : files) {
        const TableFile table(file);
        type_rows(table, typed);
        print(table, printed);
    }
    check_references(typed);

    std::string out =
        "// Written by voltwright_generate_tables from data/. Do not edit: edit the tables.\n"
        "#include \"voltwright/tables/tables.hpp\"\n\nnamespace voltwright {\n\nnamespace {\n\n";
    for (const auto& [name, kind] : kinds()) {
        const std::vector<std::string>& rows = typed.rows[kind.span];
        if (rows.empty()) continue;
        out += "constexpr " + std::string(kind.row) + " " + std::string(kind.span) + "[] = {\n";
        for (const std::string& row : rows) out += "    " + row + ",\n";
        out += "};\n\n";
    }
    out += printed.arrays + "constexpr PrintedTable printed[] = {\n" + printed.list + "};\n\n}  // namespace\n\n" +
           "const Tables& built_in_tables() {\n    static constexpr Tables tables{\n";
    for (const std::string_view span : spans())
        out += "        ." + std::string(span) + " = " + (typed.rows[span].empty() ? "{}" : std::string(span)) + ",\n";
    return out + "        .printed = printed,\n    };\n    return tables;\n}\n\n}  // namespace voltwright\n";
}

void write_file(const std::string& file, const std::string& text) {
    std::ofstream out(file, std::ios::binary);
    out << text;
    if (!out.flush()) throw BadTable(file + ": error: this file cannot be written");
}

}  // namespace

}  // namespace voltwright::generate_tables

int main(int count, char** words) {
    if (count < 3) {
        std::fputs("usage: voltwright_generate_tables OUTPUT.cpp TABLE.toml ...\n", stderr);
        return 2;
    }
    try {
        using namespace voltwright::generate_tables;
        std::vector<std::string> files(words + 2, words + count);
        std::sort(files.begin(), files.end());
        write_file(words[1], compose(files));
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
