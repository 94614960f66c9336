#include "voltwright/tables/tables.hpp"

#include <algorithm>

namespace voltwright {

namespace {

template <class Rows, class Wanted>
auto find_row(const Rows& rows, Wanted wanted) -> decltype(rows.data()) {
    const auto row = std::find_if(rows.begin(), rows.end(), wanted);
    return row == rows.end() ? nullptr : &*row;
}

/// How far an area lies outside a row's range; nothing inside.
Area outside(const JointRow& row, Area area) {
    return area < row.from ? row.from - area : area > row.to ? area - row.to : Area{};
}

/// Is `word` one of the words that bars separate?
bool among(std::string_view words, std::string_view word) {
    while (!words.empty()) {
        const std::size_t bar = words.find('|');
        if (words.substr(0, bar) == word) return true;
        if (bar == std::string_view::npos) return false;
        words.remove_prefix(bar + 1);
    }
    return false;
}

}  // namespace

const ConductorRow* find_conductor(const Tables& tables, Gauge gauge) {
    return find_row(tables.conductors, [&](const ConductorRow& row) { return row.gauge == gauge; });
}

const TradeSizeRow* find_trade_size(const Tables& tables, Gauge gauge) {
    return find_row(tables.trade_sizes, [&](const TradeSizeRow& row) { return row.gauge == gauge; });
}

const AmpacityBasisRow* find_ampacity_basis(const Tables& tables, std::string_view basis) {
    return find_row(tables.ampacity_bases, [&](const AmpacityBasisRow& row) { return row.basis == basis; });
}

const AmpacityRow* find_ampacity(const Tables& tables, std::string_view basis, Gauge gauge, Temperature insulation) {
    const AmpacityRow* best = nullptr;
    for (const AmpacityRow& row : tables.ampacities)
        if (row.gauge == gauge && row.insulation <= insulation && row.basis == basis &&
            (!best || row.insulation > best->insulation))
            best = &row;
    return best;
}

const GroupingRow* find_grouping(const Tables& tables, std::string_view basis, int loaded) {
    return find_row(tables.groupings, [&](const GroupingRow& row) {
        return row.basis == basis && loaded >= row.from && (!row.to || loaded <= *row.to);
    });
}

const JointRow* find_joint(const Tables& tables, std::string_view name, Area area) {
    const JointRow* nearest = nullptr;
    for (const JointRow& row : tables.joints)
        if (row.name == name && (!nearest || outside(row, area) < outside(*nearest, area))) nearest = &row;
    return nearest;
}

const JointRow* find_joint(const Tables& tables, std::string_view name) {
    return find_row(tables.joints, [&](const JointRow& row) { return row.name == name; });
}

std::optional<JointKind> joint_kind(const Tables& tables, std::string_view name) {
    const JointRow* row = find_joint(tables, name);
    return row ? std::optional(row->kind) : std::nullopt;
}

const FuseFamilyRow* find_fuse_family(const Tables& tables, std::string_view typed) {
    return find_row(tables.fuse_families,
                    [&](const FuseFamilyRow& row) { return row.family == typed || among(row.also, typed); });
}

const BreakingCapacityRow* find_breaking_capacity(const Tables& tables, std::string_view family, Voltage voltage) {
    const BreakingCapacityRow* best = nullptr;
    for (const BreakingCapacityRow& row : tables.breaking_capacities)
        if (row.family == family && row.voltage >= voltage && (!best || row.voltage < best->voltage)) best = &row;
    return best;
}

const PulseShareRow* find_pulse_share(const Tables& tables, int pulses) {
    return find_row(tables.pulse_shares, [&](const PulseShareRow& row) { return pulses <= row.pulses; });
}

const ShortCircuitLimitRow* find_short_circuit_limit(const Tables& tables, Temperature rated,
                                                     std::string_view material) {
    const ShortCircuitLimitRow* found = nullptr;
    for (const ShortCircuitLimitRow& row : tables.short_circuit_limits)
        if (row.material == material && (!found || found->rated_to < rated)) found = &row;
    return found || material.empty() ? found : find_short_circuit_limit(tables, rated);
}

const InsulationMarkRow* find_insulation_mark(const Tables& tables, std::string_view mark) {
    const auto same = [](char a, char b) {
        return a == b || (a >= 'A' && a <= 'Z' && a - 'A' + 'a' == b) || (b >= 'A' && b <= 'Z' && b - 'A' + 'a' == a);
    };
    return find_row(tables.insulation_marks, [&](const InsulationMarkRow& row) {
        return std::equal(row.mark.begin(), row.mark.end(), mark.begin(), mark.end(), same);
    });
}

const SurroundingsRow* find_surroundings(const Tables& tables, std::string_view place) {
    return find_row(tables.surroundings, [&](const SurroundingsRow& row) { return row.place == place; });
}

const ChemistryRow* find_chemistry(const Tables& tables, std::string_view chemistry) {
    return find_row(tables.chemistries, [&](const ChemistryRow& row) { return row.chemistry == chemistry; });
}

const StarterUseRow* find_starter_use(const Tables& tables, std::string_view alternator) {
    return find_row(tables.starter_uses, [&](const StarterUseRow& row) { return row.alternator == alternator; });
}

const FridgeGuardRow* find_fridge_guard(const Tables& tables, std::string_view setting) {
    return find_row(tables.fridge_guards, [&](const FridgeGuardRow& row) { return row.setting == setting; });
}

const LagRow* find_lag(const Tables& tables, std::string_view thing) {
    return find_row(tables.lags, [&](const LagRow& row) { return row.thing == thing; });
}

const RegulatorRow* find_regulator(const Tables& tables, std::string_view regulator) {
    return find_row(tables.regulators, [&](const RegulatorRow& row) { return row.regulator == regulator; });
}

const ClearnessIndexRow* find_clearness_index(const Tables& tables, Angle latitude, int month) {
    const bool south = latitude < Angle{};
    const Angle north = south ? -latitude : latitude;
    const int season = south ? (month + 5) % 12 + 1 : month;
    const auto away = [&](const ClearnessIndexRow& row) {
        return std::max({row.from - north, north - row.to, Angle{}});
    };
    const ClearnessIndexRow* nearest = nullptr;
    for (const ClearnessIndexRow& row : tables.clearness_indices)
        if (row.month == season && (!nearest || away(row) < away(*nearest))) nearest = &row;
    return nearest;
}

const FillRow* find_fill(const Tables& tables, int cables) {
    return find_row(tables.fills,
                    [&](const FillRow& row) { return cables >= row.from && (!row.to || cables <= *row.to); });
}

const SupportSpacingRow* find_support_spacing(const Tables& tables, std::string_view cable) {
    return find_row(tables.support_spacings, [&](const SupportSpacingRow& row) { return row.cable == cable; });
}

const StudRow* find_stud(const Tables& tables, Length diameter) {
    return find_row(tables.studs, [&](const StudRow& row) { return diameter <= row.hole; });
}

const LugRow* find_lug(const Tables& tables, Area area) {
    return find_row(tables.lugs, [&](const LugRow& row) { return area > row.over && area <= row.to; });
}

const PrintedTable* find_printed_table(const Tables& tables, std::string_view name) {
    return find_row(tables.printed, [&](const PrintedTable& table) { return table.name == name; });
}

}  // namespace voltwright
