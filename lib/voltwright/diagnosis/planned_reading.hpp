#pragma once

#include "voltwright/units/measure.hpp"

#include <optional>
#include <string>
#include <vector>

/// One thing that a multimeter should show.
namespace voltwright {

/// When a reading is taken, in the order in which it is safe to.
enum class Stage {
    before_connecting,  ///< cables laid, loads and charger not connected; the fuses go in one at a time
    engine_off,         ///< everything connected, nothing charges
    idling,
    driving,
};

/// What the meter is set to.
enum class MeterRange { volts, millivolts, amperes, ohms };

/// What a reading proves.
enum class Proves {
    isolation,   ///< no way from the positive conductor to the body
    dead,        ///< with its fuse out, the far end has no voltage
    polarity,    ///< the right way round
    rest,        ///< the battery's own voltage, as the reference of all others
    wake,        ///< the charger takes nothing with the engine off for five minutes
    charging,    ///< the starter battery is charged by its alternator
    input,       ///< the charger sees enough
    current,     ///< how much flows
    plus_side,   ///< volts lost in the way out
    minus_side,  ///< volts lost in the way back
    joint,       ///< volts lost in one joint
    output,      ///< the battery sees what the charger gives
    opens,       ///< a relay parts the batteries when the engine is off
    closes,      ///< and joins them when it runs
    linked,      ///< the battery sees what the alternator gives through it
    load,        ///< an appliance sees enough while it runs
    off,         ///< and its battery recovers when it stops
};

/// One thing that is measured.
struct PlannedReading {
    std::string id;  ///< "R7", by its place in the order
    Stage stage;
    Proves proves;
    std::string run = {};                  ///< that it tells about; empty: a battery's own
    std::vector<std::string> across = {};  ///< where the two leads go: points, or one place or joint for its two ends
    std::string through = {};              ///< the run around which the clamp goes
    std::vector<std::string> with = {};    ///< loads that are on
    std::optional<Current> at = {};        ///< of a drop: what flows then; twice as much loses twice as much
    MeterRange range;
    std::optional<Measure> expected = {};          ///< volts or amperes; empty: only a bound, or no number at all
    std::optional<Measure> tolerance = {};         ///< three standard deviations, of the meter and the model together
    std::optional<Measure> least = {}, most = {};  ///< what is still right
    std::string next = {};                         ///< id of what to measure when it is not; empty: see the words
    bool in_doubt = false;                         ///< only where another reading sent there
};

}  // namespace voltwright
