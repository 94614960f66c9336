#pragma once

#include "voltwright/planning/energy_plan.hpp"
#include "voltwright/planning/findings/finding.hpp"

#include <string>
#include <vector>

/// What there is to say of the energy side, a function for each concern: each adds what it finds.
namespace voltwright {

/// The night and the trip, and all that their findings are made from.
struct EnergyContext {
    const EnergyPlan& energy;
    const System& system;
    const Tables& tables;

    [[nodiscard]] bool lead() const { return !system.house.chemistry->charge_above.has_value(); }
    [[nodiscard]] bool drives() const { return system.charged_by_driving && energy.trip.driven > Duration{}; }
};

/// The loads take more than a charger gives that works: longer drives only make it worse.
bool driving_loses(const EnergyContext& of);

/// What gives more charge back, from what the profile has.
MoreCharge more_charge(const EnergyContext& of);

/// What brings a lithium battery that is too cold through the trip; empty where the cold is not what keeps the charge away.
std::optional<Remedy> against_frost(const EnergyContext& of);

/// The settings of a fridge's guard, as keys of the profile.
std::vector<Change> guard_changes(const std::string& fridge, const FridgeGuardRow& guard);

// ---- night_charger.cpp ------------------------------------------------------------------------------------------------
void find_charge_voltage(const EnergyContext& of, Findings& found);
void find_charge_limit(const EnergyContext& of, Findings& found);
void find_charger_input(const EnergyContext& of, Findings& found);
/// Somebody drives, and nothing charges meanwhile.
void find_no_charger(const EnergyContext& of, Findings& found);
void find_driving_that_loses(const EnergyContext& of, Findings& found);
/// Lamps, fridges and heaters are made for a vehicle's voltage.
void find_cold_voltage(const EnergyContext& of, Findings& found);
void find_assumed_sensor(const EnergyContext& of, Findings& found);
void find_hot_charger(const EnergyContext& of, Findings& found);
void find_spare_current(const EnergyContext& of, Findings& found);

// ---- night_battery.cpp ------------------------------------------------------------------------------------------------
void find_depth_limit(const EnergyContext& of, Findings& found);
/// Lead that is not charged for days sulphates.
void find_never_full(const EnergyContext& of, Findings& found);
/// Lead that goes for weeks without a full charge loses capacity for good.
void find_fading(const EnergyContext& of, Findings& found);
/// A trip that holds with a battery as new, where nobody says how worn it is.
void find_new_battery_only(const EnergyContext& of, Findings& found);
/// How much sun comes through decides this trip, and nobody said.
void find_assumed_sky(const EnergyContext& of, Findings& found);
void find_discharge_limit(const EnergyContext& of, Findings& found);

// ---- night_starter.cpp ------------------------------------------------------------------------------------------------
void find_loads_on_the_starter(const EnergyContext& of, Findings& found);
void find_low_guards_on_the_starter(const EnergyContext& of, Findings& found);

// ---- energy_cold.cpp ---------------------------------------------------------------------------------------------------
void find_lithium_too_cold(const EnergyContext& of, Findings& found);
/// Its own guard parts it from all loads.
void find_battery_in_the_cold(const EnergyContext& of, Findings& found);
/// Cells that take charge, and bear less than the charger gives.
void find_charge_in_the_cold(const EnergyContext& of, Findings& found);
/// Empty where the nearest that it came to freezing leaves a margin.
std::optional<Finding> freezing_acid(const EnergyContext& of, const std::optional<NearFreezing>& nearest);
void find_freezing_acid(const EnergyContext& of, Findings& found);

// ---- energy_places.cpp ------------------------------------------------------------------------------------------------
/// Hotter than a battery may be at all.
void find_battery_in_the_heat(const EnergyContext& of, Findings& found);
/// So hot that it takes no charge.
void find_too_hot_to_charge(const EnergyContext& of, Findings& found);
/// A battery that gives off gas where people sleep.
void find_gas_in_the_living_space(const EnergyContext& of, Findings& found);

// ---- night_inverter.cpp -----------------------------------------------------------------------------------------------
/// All that may be on at one time against its rated output.
void find_inverter_output(const EnergyContext& of, Findings& found);
/// What it may draw at its rated output, from a battery at the end of its rating.
void find_inverter_input(const EnergyContext& of, Findings& found);

// ---- night_loads.cpp --------------------------------------------------------------------------------------------------
void find_switched_off(const EnergyContext& of, Findings& found);
void find_hunting_guards(const EnergyContext& of, Findings& found);
void find_overwhelmed_fridges(const EnergyContext& of, Findings& found);
/// Fridges that the trip wants cold when it starts.
void find_warm_starts(const EnergyContext& of, Findings& found);
/// Loads of which nobody said when they run, where that decides.
void find_untimed_loads(const EnergyContext& of, Findings& found);
/// Fridges of which too little was measured.
void find_guessed_fridges(const EnergyContext& of, Findings& found);

}  // namespace voltwright
