#pragma once

#include "voltwright/energy/internal_resistance.hpp"
#include "voltwright/energy/kinetic_battery.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/quantities.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// What the terminals show at one level of the available charge. Between two such levels everything is linear.
struct BatteryLevel {
    Ratio level;
    Voltage open;        ///< without current
    Resistance giving;   ///< while it is discharged
    Resistance taking;   ///< while it is charged
    bool charging_only;  ///< what it gives is linear across this one
};

/// The 20-hour rate of a lead battery ends here, 1.75 V a cell: a flat battery. Source: the usual definition; read, weak.
inline constexpr Voltage end_of_rating = volts(10.5);

/// How many levels are marked: close together near full, where what is stored of a current changes fast.
inline constexpr std::size_t battery_marks = 20;

/// Where a battery's acid begins to freeze at a state of charge.
struct FreezingPoint {
    Ratio soc;
    Temperature temperature;
};

/// Below a temperature lithium bears no more charging current than this.
struct ColdChargeLimit {
    Temperature below;
    Current limit;
};

/// A bank of equal batteries, as a trip knows it.
///
///     V = V_open(h1) − I·R_giving(h1)      while it gives a current I
///     V = V_open(h1) + I·R_taking(h1)      while it takes one
///
/// h1         level of the available charge (kinetic battery model)
/// V_open     the chemistry's rest voltage at that level. Lead has a knee: below a level of 0.2 it falls by a parabola to
///            10.5 V + I_20·R_giving, so that the terminals read 10.5 V when the 20-hour rate has emptied it
/// R_giving   internal resistance, for lead twice as high when empty: R·(2 − h1)
/// R_taking   R_giving + a/Q·(1 − h1 + ε)^−b, with a and b of the chemistry: acceptance falls as it fills; times
///            cold_acceptance() in the cold. With b = 1 the current at a held voltage is nearly proportional to what the
///            available charge is short of full
///
/// Sources: 10.5 V at the end of the 20-hour rate is the usual definition of the rating. Twice the resistance when empty
/// is from memory. The knee's shape is common practice, no source. That the current follows the missing charge are the
/// laws of Woodbridge (1935) and Mas (1967), from memory; a is chosen by a bench series (read), told in
/// data/chemistries.toml.
struct HouseBattery {
    std::string chemistry;
    Charge capacity;             ///< at the 20-hour rate, all together, as worn as they are
    Charge whole;                ///< available and bound when full
    KineticParameters kinetics;  ///< while it gives, and at rest: see kinetics_of()
    std::array<BatteryLevel, battery_marks> levels;
    Current ten_hour_rate;
    Ratio charge_efficiency;                  ///< while it is not nearly full
    Ratio gassing_fall;                       ///< how suddenly that falls near full; lithium: not at all
    bool one_well;                            ///< lithium: takes nothing more when full, and loses nothing by gassing
    std::optional<Temperature> charge_above;  ///< takes no charge below it
    std::optional<Temperature> charge_below;  ///< nor above it
    Current self_discharge;
    /// How many times faster available and bound charge come to one level while it is charged.
    Ratio charged_levelling = 1.0;
    std::optional<TemperatureRise> acceptance_halves = {};
    Ratio acceptance_fall = {};                     ///< b
    std::vector<FreezingPoint> freezing = {};       ///< rising in charge; empty: nothing in it freezes
    std::vector<ColdChargeLimit> cold_limits = {};  ///< rising; empty: none

    [[nodiscard]] bool too_cold_to_charge(Temperature at) const { return charge_above && at < *charge_above; }
    [[nodiscard]] bool too_hot_to_charge(Temperature at) const { return charge_below && at > *charge_below; }
    /// State of charge: out of the 20-hour capacity, never below nothing.
    [[nodiscard]] Ratio soc(const KineticState& state) const;
    /// Rested: available and bound charge at one level.
    [[nodiscard]] KineticState at(Ratio soc) const;
};

/// The level of the available charge.
Ratio level_of_charge(const HouseBattery& battery, const KineticState& state);

/// What the terminals show at a level, in straight lines between the marks.
BatteryLevel level_of(const HouseBattery& battery, Ratio level);

/// The kinetic battery as it is now. Discharging, the plates wait for acid, and `kinetics` was fitted to that: k of the
/// rates at which makers rate a battery. Charging makes the acid where it is wanted, and bound charge follows sooner:
///
///     k_charged = n·k
///
/// n   `charged_levelling` in data/chemistries.toml, chosen by a bench series (read)
///
/// A departure from Manwell and McGowan 1993, who have one k: with it an AGM battery from half full at C/5 would need 12
/// hours to 99 %, where the bench found it full in about 5.5.
KineticParameters kinetics_of(const HouseBattery& battery, bool charged);

HouseBattery house_battery(const ChemistryRow& chemistry, Charge capacity_of_one, int count, Ratio health,
                           const InternalResistance& bank, const Tables& tables);

/// How many times its resistance at 25 °C a battery sets against being charged, beside the ohmic one.
///
///     k = 2^((25 °C − T)/ΔT)      1 in the warmth, and where the chemistry has no ΔT
///
/// ΔT   so much colder it takes half of the current at one voltage: `acceptance_halves` in data/chemistries.toml. A charger with
///      a sensor holds more volts in the cold: with it, it comes to half at about every 15 K
///
/// Common practice, no source: a trade page prints half at every 10 K, the trade counts half at every 15 K.
double cold_acceptance(const HouseBattery& battery, Temperature temperature);

/// The same where the cold keeps back a share d of the capacity, for the levels of what it leaves:
///
///     k·(1 − d)^−b
///
/// What it keeps back for giving is charged all the same: a battery takes charge by all that is in it. b as above.
double cold_acceptance(const HouseBattery& battery, Temperature temperature, Ratio derating);

/// Where its acid begins to freeze at this state of charge, in straight lines between the rows of
/// data/electrolyte_freezing.toml. Empty for lithium.
std::optional<Temperature> freezes_at(const HouseBattery& battery, Ratio soc);

/// The state of charge whose acid begins to freeze at this temperature: at less it does so sooner. All of it in a cold that
/// even a full one does not stand. Empty for lithium.
std::optional<Ratio> charge_that_freezes_at(const HouseBattery& battery, Temperature temperature);

/// The charging current that the cells bear at a temperature at which they take any: data/cold_charge_limits.toml. Empty
/// where the cold sets no limit.
std::optional<Current> cold_charge_limit(const HouseBattery& battery, Temperature temperature);

/// What is stored of a charging current at a level of the available charge.
///
/// Lead: 1 − exp(g·(h1 − 1)/(I/I_10 + 0.55)), so nothing when full; g of the chemistry. Lithium: the chemistry's coulombic efficiency.
/// Source: Copetti, Lorenzo, Chenlo 1993, there of the state of charge; read in a weak copy.
Current stored(const HouseBattery& battery, Ratio level, Current charging);

}  // namespace voltwright
