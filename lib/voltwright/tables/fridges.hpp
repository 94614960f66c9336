#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <string_view>

namespace voltwright {

/// What a kind of fridge has of its own, whatever its make.
struct FridgeRow {
    std::string_view fridge;     ///< `compressor`
    TemperatureRise condenser;   ///< how much hotter than the surroundings the condenser runs
    TemperatureRise evaporator;  ///< how much colder than the inside the evaporator runs
    /// Share of the mean power that heat does not change (fan, electronics, door), where nobody measured it.
    Ratio fixed_share_low, fixed_share, fixed_share_high;
    Temperature share_at;  ///< surroundings for which those shares hold
    Temperature inside;    ///< usual setting: for a fridge known by its volume alone
    Ratio efficiency;      ///< of the cooling, as a share of the ideal
    Volume volume;         ///< of the portable fridge that `wall_low` and `wall_high` bound
    ThermalConductance wall_low, wall_high;
    SpecificHeat water;  ///< to cool water and drinks
    SpecificHeat ice;    ///< to cool what is frozen
    EnergyPerMass freezing;
    Energy lid_heat;  ///< that opening it once lets in: of `lid_volume`, with air `lid_across` hotter outside
    Volume lid_volume;
    TemperatureRise lid_across;
    Ratio lid_openings;        ///< in a day of usual use
    Mass filling;              ///< that `volume` is usually filled with
    Temperature filled_from;   ///< how warm that is before
    Temperature fresh_to;      ///< so warm fresh food may become
    TemperatureRise may_warm;  ///< what is frozen, or kept warmer than fresh food
    Source source;
};

/// A fridge's own guard: where it switches itself off, and where on again, at its terminals.
struct FridgeGuardRow {
    std::string_view setting;  ///< `low`, `standard`, `high`
    Voltage cut_out, cut_in;
    Source source;
};

}  // namespace voltwright
