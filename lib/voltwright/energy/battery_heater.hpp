#pragma once

#include "voltwright/tables/chemistries.hpp"
#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// The heater of a lithium battery. It runs while the charger or the sun can carry it, and warms the cells before they take
/// charge; a thermostat keeps them at `warms_to`.
///
///     C = m·c·Q/Q_row        G = C/τ
///
/// C         heat capacity of the bank     m, c   mass and specific heat of a battery of Q_row: data/battery_heaters.toml
/// G         what it loses to its surroundings for each kelvin above them
/// τ         its thermal time constant: data/lags.toml
///
/// All of the heater's power goes into the cells. Source: the heat balance of a body of one temperature; the figures are
/// from memory, and one weak page for `warms_to`.
struct BatteryHeater {
    Power power;
    ThermalConductance loss;  ///< G
    Duration time_constant;   ///< τ
    Temperature warms_to;

    /// What the cells would come to with the heater always on.
    [[nodiscard]] Temperature most(Temperature around) const { return around + power / loss; }
};

BatteryHeater battery_heater(const BatteryHeaterRow& row, Power power, Charge bank, Duration time_constant);

/// A time in which the heater does one thing.
struct HeaterStep {
    Duration took;
    Temperature after;  ///< of the cells, at its end
    Ratio duty;         ///< share of that time that the heater runs
    bool warming;       ///< all of it, on the way to `warms_to`, which it reaches sooner or later
};

/// What a heater with a source does from a temperature on: until it is warm, or for `most`.
///
///     T' = T_e + (T − T_e)·exp(−t/τ)        T_e = T_around + P/G while it runs
///     d = G·(T_w − T_around)/P              the share of the time that holds T_w
///
/// Exact for a body of one temperature in surroundings that stay as they are. Source: Newton's law of cooling.
HeaterStep heater_step(const BatteryHeater& heater, Temperature cells, Temperature around, Duration most);

}  // namespace voltwright
