#pragma once

#include "voltwright/circuit/link.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// The operating point of the charger behind the feed that the sizing chose, at the normal running voltage.
///
///     I_out = η·V_in·I_in/V_abs
///
/// V_in, I_in   at the charger's input, from converter_input() on its feed; a charger at its input limit gives less, and no
///              more is counted on than the alternator has to spare, where that is known
/// V_abs        absorption voltage
///
/// It does not start below `input_on`, unloaded, and stops below `input_off`, loaded: then it cycles. A relay closes and
/// opens by the same rule, at its own terminals; one that the ignition works has no such voltages.
struct ChargerPoint {
    Ratio efficiency;
    Voltage absorption;
    Voltage source;    ///< with the engine running as usual
    Voltage unloaded;  ///< at the input before it starts: the source's
    Voltage loaded;    ///< at the input at full output
    Current input;
    Voltage input_on, input_off;
    std::optional<LinkCurrent> link = {};  ///< of a relay: when charging begins at the depth limit, no loads on
    Current asks = {};  ///< what it would take if the alternator had enough to spare
    Current output;                        ///< into the house battery's cable; nothing when it does not start or cycles

    [[nodiscard]] bool starts() const { return unloaded >= input_on; }
    [[nodiscard]] bool cycles() const { return starts() && loaded < input_off; }
};

}  // namespace voltwright
