#pragma once

#include "voltwright/tables/ampacity.hpp"
#include "voltwright/tables/chemistries.hpp"
#include "voltwright/tables/conductors.hpp"
#include "voltwright/tables/fitting.hpp"
#include "voltwright/tables/fridges.hpp"
#include "voltwright/tables/fuses.hpp"
#include "voltwright/tables/insulation_marks.hpp"
#include "voltwright/tables/joints.hpp"
#include "voltwright/tables/panels.hpp"
#include "voltwright/tables/practice_rows.hpp"
#include "voltwright/tables/surroundings.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace voltwright {

/// A table as somebody who holds the publication would want to see it: cells as printed, in the printed unit.
struct PrintedTable {
    struct Column {
        std::string_view name, unit;  ///< the unit is empty for words
    };
    std::string_view name;  ///< path below data/ without its ending: `ampacity/us-33-cfr-183`
    std::string_view title, applies;
    Source source;
    std::string_view terms, entered;
    std::span<const Column> columns;
    std::span<const std::string_view> cells;  ///< row after row; an empty cell is a gap
    std::span<const std::string_view>
        notes;  ///< one a row, empty where there is none: source, standing and note of a row that has its own
};

/// Every published number that voltwright computes with. Built from data/ when the program is built; a caller may
/// hand in tables of their own.
struct Tables {
    std::span<const ConductorRow> conductors;
    std::span<const TradeSizeRow> trade_sizes;
    std::span<const AmpacityBasisRow> ampacity_bases;
    std::span<const AmpacityRow> ampacities;
    std::span<const GroupingRow> groupings;
    std::span<const EngineSpaceRow> engine_spaces;
    std::span<const JointRow> joints;
    std::span<const BodyReturnRow> body_returns;
    std::span<const FuseFamilyRow> fuse_families;
    std::span<const BreakingCapacityRow> breaking_capacities;
    std::span<const FuseRow> fuses;
    std::span<const TimeLimitRow> time_limits;
    std::span<const PulseShareRow> pulse_shares;
    std::span<const ShortCircuitLimitRow> short_circuit_limits;
    std::span<const InsulationMarkRow> insulation_marks;
    std::span<const SurroundingsRow> surroundings;
    std::span<const ChemistryRow> chemistries;
    std::span<const ElectrolyteFreezingRow> electrolyte_freezing;
    std::span<const ClearnessIndexRow> clearness_indices;
    std::span<const DullDayRow> dull_days;
    std::span<const RestVoltageRow> rest_voltages;
    std::span<const CellSizeFactorRow> cell_size_factors;
    std::span<const CapacityShareRow> capacity_shares;
    std::span<const ColdChargeLimitRow> cold_charge_limits;
    std::span<const BatteryHeaterRow> battery_heaters;
    std::span<const CrankingRow> cranking;
    std::span<const StarterUseRow> starter_uses;
    std::span<const FridgeRow> fridges;
    std::span<const FridgeGuardRow> fridge_guards;
    std::span<const LagRow> lags;
    std::span<const PanelRow> panels;
    std::span<const PanelPlateRow> panel_plates;
    std::span<const RegulatorRow> regulators;
    std::span<const FillRow> fills;
    std::span<const TubeRow> tubes;
    std::span<const SupportSpacingRow> support_spacings;
    std::span<const StudRow> studs;
    std::span<const LugRow> lugs;
    std::span<const ShrinkTubeRow> shrink_tubes;
    std::span<const CableMassRow> cable_masses;
    std::span<const PracticeVoltageRow> practice_voltages;
    std::span<const PracticeShareRow> practice_shares;
    std::span<const PracticeLengthRow> practice_lengths;
    std::span<const PrintedTable> printed;
};

/// The tables of data/.
const Tables& built_in_tables();

// Look-ups answer nullptr when there is no such row.

const ConductorRow* find_conductor(const Tables& tables, Gauge gauge);
const TradeSizeRow* find_trade_size(const Tables& tables, Gauge gauge);
const AmpacityBasisRow* find_ampacity_basis(const Tables& tables, std::string_view basis);
/// The row of the highest insulation class not above `insulation` ("105 degC" wire in a basis that prints 90 and 125 takes 90).
const AmpacityRow* find_ampacity(const Tables& tables, std::string_view basis, Gauge gauge, Temperature insulation);
/// The grouping row for this many loaded conductors, or nullptr when so few need none.
const GroupingRow* find_grouping(const Tables& tables, std::string_view basis, int loaded);
/// The joint of that name for a conductor of this area; when the area lies outside all its rows, the nearest row.
const JointRow* find_joint(const Tables& tables, std::string_view name, Area area);
/// The first row of that name, whatever area it is for.
const JointRow* find_joint(const Tables& tables, std::string_view name);
/// Empty for what has no row, such as a joint that is given as a resistance.
std::optional<JointKind> joint_kind(const Tables& tables, std::string_view name);
/// By its printed name or another spelling of it.
const FuseFamilyRow* find_fuse_family(const Tables& tables, std::string_view typed);
/// The row with the least voltage that is not below `voltage`; nullptr when the family is not made for so much.
const BreakingCapacityRow* find_breaking_capacity(const Tables& tables, std::string_view family, Voltage voltage);
/// The row for this many pulses or the next more; nullptr for more than any.
const PulseShareRow* find_pulse_share(const Tables& tables, int pulses);
/// Of the rows of this material, the first whose insulation is rated as high or higher; the last beyond it. Of a material
/// without rows nothing is known but its rating.
const ShortCircuitLimitRow* find_short_circuit_limit(const Tables& tables, Temperature rated,
                                                     std::string_view material = {});
/// By the mark, whatever its capitals.
const InsulationMarkRow* find_insulation_mark(const Tables& tables, std::string_view mark);
const SurroundingsRow* find_surroundings(const Tables& tables, std::string_view place);
const ChemistryRow* find_chemistry(const Tables& tables, std::string_view chemistry);
const StarterUseRow* find_starter_use(const Tables& tables, std::string_view alternator);
const FridgeGuardRow* find_fridge_guard(const Tables& tables, std::string_view setting);
const LagRow* find_lag(const Tables& tables, std::string_view thing);
const RegulatorRow* find_regulator(const Tables& tables, std::string_view regulator);
/// The row of the month at that latitude, or at the nearest of the table's; the south has the seasons of half a year later.
const ClearnessIndexRow* find_clearness_index(const Tables& tables, Angle latitude, int month);
/// The row for this many cables in one tube.
const FillRow* find_fill(const Tables& tables, int cables);
const SupportSpacingRow* find_support_spacing(const Tables& tables, std::string_view cable);
/// The stud with the smallest hole that a stud of this diameter goes through; nullptr above them all.
const StudRow* find_stud(const Tables& tables, Length diameter);
/// The lug for a conductor of this area; nullptr when none is made so thick.
const LugRow* find_lug(const Tables& tables, Area area);
const PrintedTable* find_printed_table(const Tables& tables, std::string_view name);

}  // namespace voltwright
