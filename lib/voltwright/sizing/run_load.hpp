#pragma once

#include "voltwright/circuit/converter.hpp"
#include "voltwright/circuit/link.hpp"
#include "voltwright/circuit/load.hpp"
#include "voltwright/energy/charger.hpp"
#include "voltwright/sizing/needed.hpp"
#include "voltwright/sizing/panel_current.hpp"

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

/// A load that runs for a while and comes on again after a pause: a winch, a compressor.
struct ShortTime {
    Duration on;     ///< how long it runs
    Duration cycle;  ///< from one start to the next
    Current base{};  ///< what the run carries beside it all the time: a trunk's other loads
};

/// A charger's output into its battery, or anything else that keeps its current whatever the voltage.
struct SteadyLoad {
    Needed<Current> current;
    std::optional<Current> fuse_max = {};
    std::optional<Current> most = {};  ///< its design current where that is more; empty: the same
    std::optional<ShortTime> short_time = {};
    std::optional<LinkCurrent> link = {};  ///< what makes it so, through a relay
};

/// An appliance of constant power: less volts, more amps, most of them just before it cuts out.
struct PowerLoad {
    Needed<Power> power;
    Voltage cut_out = volts(10.4);
    std::optional<Current> fuse_max = {};
    bool starts_hard = false;  ///< a motor whose starting current is not known: take the largest fuse it allows
    std::optional<ShortTime> short_time = {};
};

/// A heater or a lamp: a fixed resistance.
struct ResistiveLoad {
    Needed<Resistance> resistance;
    Needed<Voltage> highest;  ///< of the system it hangs on: there it draws most
    std::optional<Current> fuse_max = {};
    std::optional<ShortTime> short_time = {};
};

/// What solar panels bring to their regulator: a source of current at the beginning of the run, whatever its end asks for.
struct PanelLoad {
    Needed<Current> most_power;     ///< of all strings together, at their best voltage
    Needed<Current> short_circuit;  ///< of all strings together
};

using RunLoad = std::variant<ConverterLoad, SteadyLoad, PowerLoad, ResistiveLoad, PanelLoad>;

/// A current that flows for a while and comes again.
struct ShortTimeCurrent {
    Current current;
    Duration on, cycle;
    Current base;  ///< that the run carries beside it all the time
};

/// Why a run's design current is what it is.
///
///     I = √(I_base² + (I_s² − I_base²)·t_on/t_cycle)        of a short-time load
///
/// I_s   while it runs     I_base   beside it all the time     t_on, t_cycle   how long, and from start to start
///
/// The root mean square heats what is slow as much as the current that comes and goes. Source: heat goes with the square
/// of the current; IS 9857's duty tables of welding cable are this.
struct DesignCurrent {
    std::optional<FeedDesignCurrent> feed = {};
    std::optional<CompensatedVoltage> absorption = {};
    std::optional<LinkCurrent> link = {};
    Current current;
    std::optional<ShortTimeCurrent> short_time = {};
    std::optional<PanelDesignCurrent> panel = {};
};

/// The greatest current that the run is ever asked to carry for long: what cable, fuse and parts are held against.
DesignCurrent design_current(const RunLoad& load);
/// The greatest that it ever carries, starts left out.
Current peak_current(const DesignCurrent& design);

/// What a load draws, by its voltage; a charger at full output, whatever its input limit.
LoadLaw law_of(const RunLoad& load);

/// The largest fuse that it allows itself.
std::optional<Current> fuse_max(const RunLoad& load);
/// A motor whose starting current is not known: it gets the largest fuse that it allows.
bool starts_hard(const RunLoad& load);

}  // namespace voltwright
