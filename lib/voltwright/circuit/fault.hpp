#pragma once

#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// The current that a dead short draws from a battery.
///
///     I = V_oc/(R_i + R_loop)
///
/// V_oc     open-circuit voltage           R_i   the battery's internal resistance
/// R_loop   all that the current passes between the battery and the short and back
///
/// For breaking capacity the copper is cold (20 °C); for clearing it is hot. Source: Ohm's law, the method of battery
/// short-circuit estimates (open-circuit voltage over internal resistance). Inductance is left out: a cautious choice,
/// it only slows the rise.
struct FaultCurrent {
    Voltage open_circuit;
    Resistance internal;
    Resistance loop;
    Current current;
};

FaultCurrent fault_current(Voltage open_circuit, Resistance internal, Resistance loop);

}  // namespace voltwright
