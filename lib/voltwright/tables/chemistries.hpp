#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// What a 12 V battery's chemistry brings with it.
struct ChemistryRow {
    std::string_view chemistry;  ///< `flooded`, `agm`, `gel`, `lfp`
    std::string_view group;      ///< `lead`, `lithium`: what it shares with its like
    /// Which table tells what the cold leaves of its capacity: `flooded`, `sealed`, `lithium`.
    std::string_view cold_capacity;
    Voltage full;  ///< at rest and full, 25 degC
    /// Internal resistance, warm and full, times capacity: where sources differ it spans them. The one to expect between
    /// them; empty: the middle.
    ResistanceTimesCharge resistance_low;
    std::optional<ResistanceTimesCharge> resistance;
    ResistanceTimesCharge resistance_high;
    /// On top, whatever the capacity: a lithium battery's own switch; else nothing.
    Resistance fixed_low;
    std::optional<Resistance> fixed;
    Resistance fixed_high;
    Voltage absorption_low, absorption, absorption_high;  ///< of the charger at 25 degC: least, usual, most
    Voltage float_;                                       ///< usual, 25 degC
    VoltagePerKelvin compensation;  ///< of the charge voltages from 25 degC: negative for lead, nothing for lithium
    std::optional<Temperature> compensated_from, compensated_to;  ///< beyond these it goes on as there
    Ratio depth_limit;                                            ///< usual deepest discharge
    ChargeRate charge_limit;                                      ///< most charging current as a share of the capacity
    ChargeRate discharge_limit;
    std::optional<Temperature> charge_above;  ///< may not be charged below it
    std::optional<Temperature> charge_below;  ///< nor above it
    std::optional<Temperature> gives_above;   ///< below it its own guard may part it from the loads
    std::optional<Temperature> bears;         ///< may not be warmer than this at all
    bool vents;                               ///< gives off gas when it is charged, and wants water
    Ratio exponent;           ///< Peukert's, 1 and above: how the charge delivered falls with the current
    Ratio charge_efficiency;  ///< charge stored of the charge put in, well below full
    Ratio self_discharge;     ///< of the capacity in a month, 25 degC
    /// What stands against a charging current beside the internal resistance, times the capacity, when empty; and the
    /// power of the room left in the available well by which it grows.
    ResistanceTimesCharge acceptance;
    Ratio acceptance_fall;
    std::optional<TemperatureRise> acceptance_halves;  ///< so much below 25 degC it takes half of the current
    std::optional<Ratio> gassing_fall;  ///< how suddenly the charge stored falls near full; empty: it does not
    /// How many times faster available and bound charge come to one level while it is charged; empty: no faster.
    std::optional<Ratio> charged_levelling;
    /// What was left of the capacity of published batteries that went for long without a full charge, least and most.
    std::optional<Ratio> part_charged_low, part_charged_high;
    Source source;
};

/// What a battery reads that has rested for hours, 25 degC. Rising in both among the rows of a chemistry.
struct RestVoltageRow {
    std::string_view chemistry;
    Ratio soc;
    Voltage voltage;
    Source source;
};

/// Where the acid of a battery at this state of charge begins to freeze. Rising in charge, falling in temperature.
struct ElectrolyteFreezingRow {
    std::string_view group;  ///< of chemistries
    Ratio soc;
    Temperature temperature;
    Source source;
};

/// By how much the capacity that a load needs is multiplied, where the battery is as warm as this.
struct CellSizeFactorRow {
    std::string_view group;  ///< `cold_capacity` of chemistries
    Temperature temperature;
    Ratio factor;  ///< 1 at the reference temperature, more in the cold
    Source source;
};

/// What is left of the capacity, where the battery is as warm as this.
struct CapacityShareRow {
    std::string_view group;  ///< `cold_capacity` of chemistries
    Temperature temperature;
    Ratio capacity;
    Source source;
};

/// Where cells take charge and are cold all the same: how much, as a share of the capacity. Rising in both among the rows of
/// a chemistry; from the last one's temperature on the chemistry's own limit holds.
struct ColdChargeLimitRow {
    std::string_view chemistry;
    Temperature below;
    ChargeRate limit;
    Source source;
};

/// What a heater between a battery's cells has to warm, and up to where it does.
struct BatteryHeaterRow {
    std::string_view chemistry;
    Charge capacity;  ///< of the battery that has that mass
    Mass mass;
    SpecificHeat heat;
    Temperature warms_to;
    Source source;
};

/// From the cold-cranking figure of a starter battery to its resistance.
struct CrankingRow {
    std::string_view test;                  ///< "SAE J537"
    Voltage open;                           ///< before the test
    Voltage under_test;                     ///< the terminal voltage that the figure is given for
    Ratio warm_low, warm_usual, warm_high;  ///< resistance warm over resistance in the test
    Current unknown_low,
        unknown_high;  ///< cold-cranking figures of the usual starter batteries, for one that is not known
    Source source;
};

/// What a starter battery is taken to be, where loads hang on it.
struct StarterUseRow {
    std::string_view alternator;  ///< `plain`, `smart`
    Charge capacity;              ///< at the 20-hour rate, of one that is not known
    Ratio charged;                ///< state of charge when the engine stops
    Ratio least;                  ///< state of charge that has to be left for the engine
    Source source;
};

}  // namespace voltwright
