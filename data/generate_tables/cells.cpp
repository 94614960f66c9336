#include "cells.hpp"

#include "units.hpp"

#include <charconv>
#include <cmath>
#include <map>
#include <utility>

namespace voltwright::generate_tables {

namespace {

/// The words that stand for the enumerators of a C++ type, and are spelled like them.
const std::map<std::string_view, std::set<std::string_view>> enumerations = {
    {"FuseForm", {"blade", "bolted", "post", "breaker"}},
    {"JointKind", {"lug", "battery_clamp", "ferrule", "plug", "socket", "other"}},
    {"PracticeVoltage",
     {"starter_least", "rested_starter", "charging_house", "fed_least", "loads_sag", "dead_below", "alive_from",
      "as_good_as_open", "no_joint_any_more", "dead_most", "rest_strays", "battery_is_off", "least_at_rest",
      "most_at_rest", "above_full_at_rest", "input_margin", "least_while_cranking", "hot_idle"}},
    {"PracticeShare",
     {"house_least",        "house_when_tested",     "well_charged",         "idle_charger",       "idle_load",
      "length_is_off",      "maker_is_off",          "given_is_off",         "charge_is_off",      "load_is_off",
      "losses_are_off",     "charge_is_off_driving", "charge_is_off_idling", "load_may_be_off",    "losses_may_be_off",
      "charger_gives_more", "load_takes_more",       "aged_battery",         "short_time",         "bright_sun",
      "lasting_sun",        "string_fuse_least",     "string_fuse_most",     "breaking_tolerance", "behind_main",
      "bank_uneven",        "worn_capacity"}},
    {"PracticeLength",
     {"assumed_output", "assumed_fridge", "assumed_inverter", "assumed_panel", "assumed_regulator", "body_tail",
      "bank_link", "main_lead"}}};

constexpr std::int64_t most_counted = 1'000'000;
constexpr double absolute_zero = -273.15;
/// No table of ours goes beyond the temperatures of wiring.
constexpr double hottest = 1000;

/// The shortest digits that read back as the same number, always a double.
std::string digits(double value) {
    char buffer[64];
    std::string text(buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr);
    if (text.find_first_of(".e") == std::string::npos) text += ".0";
    return text;
}

// ---- quantities -----------------------------------------------------------------------------------------------------

void check_range(const TableFile& table, const toml::node& node, double value, const Unit& unit, bool in_percent,
                 const Member& member) {
    const std::string name = quoted(member.called());
    if (!std::isfinite(value)) table.fail(node, name + " is to be a finite number");
    if (unit.dimension == "Temperature") {
        if (!(value > absolute_zero && value < hottest)) table.fail(node, name + " is no temperature to be met");
        return;
    }
    const bool above_zero = member.range == Range::positive || member.range == Range::beyond_one;
    if (above_zero && !(value > 0)) table.fail(node, name + " is to be more than nothing");
    if (member.range == Range::zero_too && !(value >= 0)) table.fail(node, name + " is not to be negative");
    if (unit.dimension == "Ratio" && member.range != Range::beyond_one && value > (in_percent ? 100 : 1))
        table.fail(node, name + " is a share of a whole, not more than " + (in_percent ? "100 %" : "1"));
}

// ---- sizes ----------------------------------------------------------------------------------------------------------

std::optional<double> number_before(std::string_view text, std::string_view end) {
    if (!text.ends_with(end)) return {};
    double number = 0;
    const char* last = text.data() + (text.size() - end.size());
    const auto [stop, error] = std::from_chars(text.data(), last, number);
    return error == std::errc{} && stop == last && number > 0 && std::isfinite(number) ? std::optional(number)
                                                                                       : std::nullopt;
}

bool is_whole(const std::optional<double>& number, double most) {
    return number && *number == std::floor(*number) && *number <= most;
}

Cell gauge_cell(const TableFile& table, const toml::node& node) {
    const auto* value = node.as_string();
    if (!value) table.fail(node, "'gauge' is to be a text such as \"8 AWG\"");
    const std::string& text = value->get();
    const auto awg = [](double number) {
        return Cell{"awg(" + std::to_string(static_cast<int>(number)) + ")", -number};
    };
    if (const auto n = number_before(text, "/0 AWG"); is_whole(n, 4)) return awg(1 - *n);
    if (const auto n = number_before(text, " AWG"); is_whole(n, 40)) return awg(*n);
    if (const auto n = number_before(text, " mm2")) return {"metric(" + digits(*n) + ")", *n};
    if (const auto n = number_before(text, " mm auto")) return {"trade(" + digits(*n) + ")", *n};
    table.fail(node, quoted(text) +
                         " is no conductor size; one of the forms \"8 AWG\", \"2/0 AWG\", \"10 mm2\", \"6 mm auto\"");
}

// ---- words and counts -----------------------------------------------------------------------------------------------

std::string word_in(const TableFile& table, const Member& member, const toml::node& node) {
    const auto* value = node.as_string();
    if (!value || value->get().empty()) table.fail(node, quoted(member.called()) + " is to be a text");
    return value->get();
}

Cell enumerator_cell(const TableFile& table, const Member& member, const toml::node& node) {
    const std::string word = word_in(table, member, node);
    const std::set<std::string_view>& known = enumerations.at(member.dimension);
    if (!known.contains(word)) table.fail(node, quoted(member.called()) + " is to be one of " + list_of(known));
    return {std::string(member.dimension) + "::" + word};
}

Cell count_cell(const TableFile& table, const Member& member, const toml::node& node) {
    const auto* value = node.as_integer();
    if (!value || value->get() < 1 || value->get() > most_counted)
        table.fail(node, quoted(member.called()) + " is to be a whole number from 1");
    return {std::to_string(value->get()), static_cast<double>(value->get())};
}

Cell yes_no_cell(const TableFile& table, const Member& member, const toml::node& node) {
    const auto* value = node.as_boolean();
    if (!value) table.fail(node, quoted(member.called()) + " is to be true or false");
    return {value->get() ? "true" : "false"};
}

}  // namespace

std::string literal(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') out += '\\';
        if (c == '\n')
            out += "\\n";
        else if (c == '\t')
            out += "\\t";
        else
            out += c;
    }
    return out + '"';
}

Cell quantity_cell(const TableFile& table, const toml::node& given, std::string unit, const Member& member) {
    const toml::node* node = &given;
    if (const toml::table* own = given.as_table()) {
        unit = text_in(table, *own, "unit", quoted(member.called()));
        node = own->get("value");
        if (!node) table.fail(given, quoted(member.called()) + " has no 'value'");
    }
    const Unit& known = unit_of(table.file, given, unit, member.dimension, member.called());
    if (!node->is_number()) table.fail(*node, quoted(member.called()) + " is to be a number");
    const double value = *node->value<double>();
    check_range(table, *node, value, known, unit == "%", member);
    // A cell in a unit of its own takes no part in the order of its column.
    return {std::string(known.maker) + "(" + digits(value) + ")", node == &given ? std::optional(value) : std::nullopt};
}

Cell cell_of(const TableFile& table, const Member& member, const std::string& unit, const toml::node& node) {
    switch (member.holds) {
        case Holds::gauge: return gauge_cell(table, node);
        case Holds::quantity: return quantity_cell(table, node, unit, member);
        case Holds::count: return count_cell(table, member, node);
        case Holds::yes_no: return yes_no_cell(table, member, node);
        case Holds::text: return {literal(word_in(table, member, node))};
        case Holds::one_of: return enumerator_cell(table, member, node);
        case Holds::source:
        case Holds::its_source:
        case Holds::class_:
        case Holds::class_cell: break;
    }
    throw std::logic_error("no such cell");
}

Cell constant_cell(const TableFile& table, const Member& member) {
    const std::string whose = quoted(member.called());
    const toml::node* node = table.constants->get(member.called());
    if (!node) table.fail(*table.constants, "[constants] has no " + whose);
    if (member.holds == Holds::text) return cell_of(table, member, {}, *node);
    const toml::table* own = node->as_table();
    if (!own) table.fail(*node, whose + " is to be a table with 'value' and 'unit'");
    allow_only(table, *own, {"value", "unit", "id", "cite", "status"}, "a constant");
    if (member.holds == Holds::quantity) return quantity_cell(table, *node, {}, member);
    return {"Source{" + literal(text_in(table, *own, "id", whose)) + ", " +
            literal(text_in(table, *own, "cite", whose)) + ", " + standing_in(table, *own, whose) + ", " +
            literal(table.name) + ", " + std::to_string(own->source().begin.line) + ", \"\"}"};
}

Cell source_cell(const TableFile& table, const toml::table& row) {
    const auto own = [&](std::string_view key) {
        return row.contains(key) ? text_in(table, row, key, "this row")
                                 : text_in(table, *table.source, key, "[source]");
    };
    return {
        "Source{" + literal(own("id")) + ", " + literal(own("cite")) + ", " +
        (row.contains("status") ? standing_in(table, row, "this row") : standing_in(table, *table.source, "[source]")) +
        ", " + literal(table.name) + ", " + std::to_string(row.source().begin.line) + ", " +
        literal(row.contains("note") ? text_in(table, row, "note", "this row") : "") + "}"};
}

}  // namespace voltwright::generate_tables
