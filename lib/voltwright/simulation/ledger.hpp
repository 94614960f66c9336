#pragma once

#include "voltwright/energy/kinetic_battery.hpp"
#include "voltwright/simulation/operating_point.hpp"
#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// Ampere-hours at the battery's terminals, and where they went. It closes at every step:
///
///     from_charger + from_sun = used + lost + (in the battery now − in it at the start)
struct Ledger {
    Charge from_charger, from_sun;
    Charge used;    ///< by all loads
    Charge gassed;  ///< put in and not kept
    Charge leaked;  ///< self-discharge
    Charge at_start, now;

    [[nodiscard]] Charge lost() const { return gassed + leaked; }
    /// What does not add up.
    [[nodiscard]] Charge open() const { return from_charger + from_sun - used - lost() - (now - at_start); }
    /// All that passed, to hold the rest against.
    [[nodiscard]] Charge throughput() const { return from_charger + from_sun + used + lost(); }
};

/// What passed in a step.
struct StepCharges {
    Charge source;  ///< from charger and panel
    Charge used;
    Charge kept;  ///< net into the battery
};

/// Books a step: `mean` is the operating point on average over the time that it took, `self_discharge` what of
/// `mean.stored` is that, `after` the battery at its end.
StepCharges book(Ledger& ledger, const Connections& connections, const OperatingPoint& mean, Current self_discharge,
                 Duration took, const KineticState& after);

}  // namespace voltwright
