#include "cli/verb.hpp"
#include "voltwright/report/key_reference.hpp"
#include "voltwright/report/schema.hpp"
#include "voltwright/report/tables_json.hpp"
#include "voltwright/report/tables_text.hpp"

namespace voltwright::cli {

namespace {

int run_tables(const Call& call) {
    const Tables& tables = built_in_tables();
    if (!call.given("NAME"))
        return call.answer(call.json() ? list_tables_json(tables) : list_tables(tables, call.style));

    const std::string name = call.text("NAME");
    if (name == "keys") return call.answer(call.json() ? profile_schema() : key_reference(false));
    if (const PrintedTable* table = find_printed_table(tables, name))
        return call.answer(call.json() ? show_table_json(*table) : show_table(*table, call.style));

    std::vector<std::string_view> known = {"keys"};
    for (const PrintedTable& table : tables.printed) known.push_back(table.name);
    const std::string near = did_you_mean(name, known);
    return call.complain("there is no table \"" + name + "\"" +
                         (near.empty() ? " (voltwright tables lists them)" : near));
}

std::vector<std::string> names() {
    std::vector<std::string> names = {"keys"};
    for (const PrintedTable& table : built_in_tables().printed) names.emplace_back(table.name);
    return names;
}

constexpr Argument tables_arguments[] = {
    {"NAME", "one table; keys is the reference of the profile's keys", false, names}};

}  // namespace

extern const Verb tables_verb;
constinit const Verb tables_verb = {
    .name = "tables",
    .group = Group::look,
    .line = "the built-in tables and where they come from; the keys of a profile",
    .arguments = tables_arguments,
    .formats = text_or_json,
    .run = run_tables,
};

}  // namespace voltwright::cli
