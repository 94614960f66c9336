#pragma once

#include "voltwright/circuit/converter.hpp"
#include "voltwright/circuit/load.hpp"
#include "voltwright/energy/charger.hpp"
#include "voltwright/sizing/needed.hpp"

#include <optional>
#include <variant>

namespace voltwright {

/// A DC-DC charger at the end of its feed: constant power in.
struct ConverterLoad {
    Needed<Current> output;
    Voltage absorption = volts(14.4);
    CompensatedVoltage highest_absorption = compensated_voltage(volts(14.4), Compensation{}, celsius(25));
    Ratio efficiency = percent(90);
    Voltage input_off = volts(12.7);
    std::optional<Current> input_limit = {};
    std::optional<Current> fuse_max = {};
};

/// A charger's output into its battery, or anything else that keeps its current whatever the voltage.
struct SteadyLoad {
    Needed<Current> current;
    std::optional<Current> fuse_max = {};
    std::optional<Current> most = {};  ///< its design current where that is more; empty: the same
};

/// An appliance of constant power: less volts, more amps, most of them just before it cuts out.
struct PowerLoad {
    Needed<Power> power;
    Voltage cut_out = volts(10.4);
    std::optional<Current> fuse_max = {};
    bool starts_hard = false;  ///< a motor whose starting current is not known: take the largest fuse it allows
};

/// A heater or a lamp: a fixed resistance.
struct ResistiveLoad {
    Needed<Resistance> resistance;
    Needed<Voltage> highest;  ///< of the system it hangs on: there it draws most
    std::optional<Current> fuse_max = {};
};

using RunLoad = std::variant<ConverterLoad, SteadyLoad, PowerLoad, ResistiveLoad>;

/// Why a run's design current is what it is.
struct DesignCurrent {
    std::optional<FeedDesignCurrent> feed = {};
    std::optional<CompensatedVoltage> absorption = {};
    Current current;
};

/// The greatest current that the run is ever asked to carry for long: what cable, fuse and parts are held against.
DesignCurrent design_current(const RunLoad& load);

/// What a load draws, by its voltage; a charger at full output, whatever its input limit.
LoadLaw law_of(const RunLoad& load);

/// The largest fuse that it allows itself.
std::optional<Current> fuse_max(const RunLoad& load);
/// A motor whose starting current is not known: it gets the largest fuse that it allows.
bool starts_hard(const RunLoad& load);

}  // namespace voltwright
