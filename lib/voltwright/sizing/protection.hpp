#pragma once

#include "voltwright/circuit/fault.hpp"
#include "voltwright/circuit/withstand.hpp"
#include "voltwright/sizing/fuse.hpp"
#include "voltwright/tables/practice.hpp"

#include <optional>

namespace voltwright {

/// A dead short at the far end of a run, at its lowest: does its fuse clear it, and does the cable stand that long?
///
///     I = V_oc/(1.5·R_i,high + R_before + R_loop)
///
/// R_i,high   the high end of the battery's range, half as much again for age and cold
/// R_before   the runs before this one, hot        R_loop   this run, its conductors as hot as their insulation allows
///
/// A short that is not cleared within 5 s burns on. Source: 5 s is the longest disconnection time of IEC 60364-4-41 and the
/// limit of the adiabatic withstand of IEC 60364-4-43; the 1.5: data/practice/shares.toml.
struct Protection {
    Place at;  ///< where the fuse sits
    FaultCurrent lowest;
    std::optional<Duration> clears;   ///< at the latest; empty: it need not clear at all, or nothing is known of it
    bool known;                       ///< there are time limits for its family
    std::optional<Withstand> at_far;  ///< the lowest short
    std::optional<Withstand>
        at_worst;  ///< of all from there to one just behind the fuse, the one that lets through most

    [[nodiscard]] bool clears_in_time() const { return !known || (clears && *clears <= longest_clearing); }
    [[nodiscard]] bool withstands() const { return (!at_far || at_far->holds()) && (!at_worst || at_worst->holds()); }

    static constexpr Duration longest_clearing = seconds(5);
    /// Age and cold make a battery's resistance higher than any range for a new and warm one.
    static inline const double aged = in_ratio(in_practice(PracticeShare::aged_battery));
};

/// What a fuse does against shorts at the far end of a loop, hot, and at every nearer place. `thinnest` conductor behind it,
/// as warm as `start` when the short begins; in a short it may reach `limit`.
Protection protect(const FuseFit& fuse, const FuseEnd& end, Resistance loop, Area thinnest, Temperature start,
                   Temperature limit, const Tables& tables);

}  // namespace voltwright
