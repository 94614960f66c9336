#pragma once

#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/planning/night.hpp"

#include <string>
#include <vector>

/// What there is to say of the energy side, a function for each concern: each adds what it finds.
namespace voltwright {

/// The night and the trip, and all that their findings are made from.
struct NightContext {
    const Night& night;
    const System& system;
    const Tables& tables;

    [[nodiscard]] bool lead() const { return !system.house.chemistry->charge_above.has_value(); }
    [[nodiscard]] bool drives() const { return night.trip.driven > Duration{}; }
};

/// What gives more charge back, from what the profile has.
MoreCharge more_charge(const NightContext& of);

/// The settings of a fridge's guard, as keys of the profile.
std::vector<Change> guard_changes(const std::string& fridge, const FridgeGuardRow& guard);

// ---- night_charger.cpp ------------------------------------------------------------------------------------------------
void find_charge_voltage(const NightContext& of, Findings& found);
void find_charge_limit(const NightContext& of, Findings& found);
void find_charger_input(const NightContext& of, Findings& found);
void find_driving_that_loses(const NightContext& of, Findings& found);
/// Lamps, fridges and heaters are made for a vehicle's voltage.
void find_cold_voltage(const NightContext& of, Findings& found);
void find_hot_charger(const NightContext& of, Findings& found);
void find_spare_current(const NightContext& of, Findings& found);

// ---- night_battery.cpp ------------------------------------------------------------------------------------------------
void find_depth_limit(const NightContext& of, Findings& found);
/// Lead that is not charged for days sulphates.
void find_never_full(const NightContext& of, Findings& found);
void find_lithium_too_cold(const NightContext& of, Findings& found);
void find_freezing_acid(const NightContext& of, Findings& found);
/// How much sun comes through decides a trip on solar, and nobody said.
void find_assumed_sky(const NightContext& of, Findings& found);
void find_discharge_limit(const NightContext& of, Findings& found);

// ---- night_starter.cpp ------------------------------------------------------------------------------------------------
void find_loads_on_the_starter(const NightContext& of, Findings& found);
void find_low_guards_on_the_starter(const NightContext& of, Findings& found);

// ---- night_inverter.cpp -----------------------------------------------------------------------------------------------
/// All that may be on at one time against its rated output.
void find_inverter_output(const NightContext& of, Findings& found);
/// What it may draw at its rated output, from a battery at the end of its rating.
void find_inverter_input(const NightContext& of, Findings& found);

// ---- night_loads.cpp --------------------------------------------------------------------------------------------------
void find_switched_off(const NightContext& of, Findings& found);
void find_hunting_guards(const NightContext& of, Findings& found);
void find_overwhelmed_fridges(const NightContext& of, Findings& found);
/// Fridges of which too little was measured.
void find_guessed_fridges(const NightContext& of, Findings& found);

}  // namespace voltwright
