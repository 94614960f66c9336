#pragma once

#include "voltwright/units/quantities.hpp"

#include <optional>

namespace voltwright {

/// What a closed link brings from an alternator to a battery, with loads on at that battery.
///
///     I = (V_s − V_open + R_in·I_L)/(R + R_in)        V = V_s − R·I
///
/// V_s      where the link begins, held by the alternator     V       at the battery's terminals
/// V_open   of the battery, without current                   R       loop of the link: cables, relay, joints, fuses
/// R_in     of the battery: what it sets against being charged; against giving, where the loads take more than the link brings
/// I_L      what the loads take there
///
/// An alternator that has less to spare gives that, and its voltage falls. Nothing flows back: a battery above V_s takes
/// nothing. Source: Kirchhoff's laws.
struct LinkCurrent {
    Voltage source;
    Voltage open;
    Resistance loop;
    Resistance inside;
    Current loads;
    std::optional<Current> spare;  ///< what the alternator has to spare, where that is known
    Current current;
    Voltage terminals;
};

/// A battery as a link sees it.
struct LinkedBattery {
    Voltage open;
    Resistance taking, giving;
};

LinkCurrent link_current(Voltage source, Resistance loop, const LinkedBattery& battery, Current loads,
                         std::optional<Current> spare);

}  // namespace voltwright
