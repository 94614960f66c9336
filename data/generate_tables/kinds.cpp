#include "kinds.hpp"

namespace voltwright::generate_tables {

Member column(std::string_view name, std::string_view dimension, Range range) {
    return {.name = name, .dimension = dimension, .range = range};
}

Member column(std::string_view name, Holds holds) { return {.name = name, .holds = holds}; }

Member one_of(std::string_view enumeration, std::string_view name) {
    return {.name = name, .holds = Holds::one_of, .dimension = enumeration};
}

Member optional(Member member) {
    member.where = Where::optional_column;
    return member;
}

Member constant(Member member) {
    member.where = Where::constant;
    return member;
}

Member unprinted(Member member) {
    member.printed = false;
    return member;
}

Member called(std::string_view key, Member member) {
    member.key = key;
    return member;
}

Member source() { return {.name = "source", .holds = Holds::source}; }

const Kinds& kinds() {
    static const Kinds all = [] {
        Kinds kinds = wiring_kinds();
        kinds.merge(energy_kinds());
        kinds.merge(fitting_kinds());
        kinds.merge(practice_kinds());
        return kinds;
    }();
    return all;
}

const Names& spans() {
    static const Names all = {"conductors",
                              "trade_sizes",
                              "ampacity_bases",
                              "ampacities",
                              "groupings",
                              "engine_spaces",
                              "joints",
                              "body_returns",
                              "fuse_families",
                              "breaking_capacities",
                              "fuses",
                              "time_limits",
                              "pulse_shares",
                              "short_circuit_limits",
                              "insulation_marks",
                              "surroundings",
                              "chemistries",
                              "electrolyte_freezing",
                              "clearness_indices",
                              "dull_days",
                              "rest_voltages",
                              "cell_size_factors",
                              "capacity_shares",
                              "cold_charge_limits",
                              "battery_heaters",
                              "cranking",
                              "starter_uses",
                              "fridges",
                              "fridge_guards",
                              "lags",
                              "panels",
                              "panel_plates",
                              "regulators",
                              "fills",
                              "tubes",
                              "support_spacings",
                              "studs",
                              "lugs",
                              "shrink_tubes",
                              "cable_masses",
                              "practice_voltages",
                              "practice_shares",
                              "practice_lengths"};
    return all;
}

}  // namespace voltwright::generate_tables
