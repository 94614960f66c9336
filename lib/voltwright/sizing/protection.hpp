#pragma once

#include "voltwright/circuit/fault.hpp"
#include "voltwright/circuit/heating.hpp"
#include "voltwright/circuit/withstand.hpp"
#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/sizing/fuse.hpp"
#include "voltwright/tables/practice.hpp"

#include <optional>

namespace voltwright {

/// The thinner conductor of a run as a short finds it.
struct ShortedConductor {
    HeatedConductor heated;
    Temperature start;     ///< as its current has made it
    Temperature limit;     ///< that its insulation stands for 5 s
    Temperature overload;  ///< that it stands for hours
};

/// A conductor where its ampacity says how it gives off heat. Its surroundings are those that the basis counts: as hot as
/// its ambient factor comes to. Without an ampacity it gives off none.
HeatedConductor heated_conductor(Area area, Temperature rated, Temperature around,
                                 const std::optional<Ampacity>& ampacity);

/// A short that flows for more than 5 s, or for ever.
///
/// For 5 s a cable is held against the temperature of its insulation in a short circuit, no heat given off: Withstand.
/// After that it gives off heat (HeatedConductor), and may become as hot as in an overload. Where no fuse opens it may
/// become as hot as with a current that lasts.
///
/// Source: 5 s is the range of IEC 60364-4-43; the overload: data/short_circuit.toml.
struct LastingShort {
    Current current;
    std::optional<Duration> time;  ///< at the latest; empty: the fuse need not clear it at all
    Temperature start;
    Temperature reaches;
    Temperature limit;

    [[nodiscard]] bool holds() const { return reaches <= limit; }
};

/// A dead short at the far end of a run, at its lowest: does its fuse clear it, and does the cable stand that long?
///
///     I = V_oc/(a·R_i,high + R_before + R_loop)
///
/// R_i,high   the high end of the battery's range     a   1.5 for age and cold where nobody measured it, else 1; but no more
///            than leaves a load that the battery is made for the voltage at which it switches itself off, discharged
///            to its limit: with more the design current would never flow, from which the fuse is chosen
/// R_before   the runs before this one, hot           R_loop   this run, its conductors as hot as their insulation allows
///
/// Source: IEC 60364-4-43, what the cable stands and not how long it takes (the disconnection times of IEC 60364-4-41
/// are against shock, of which there is none at 12 V); the 1.5: data/practice/shares.toml.
struct Protection {
    Place at;  ///< where the fuse sits
    FaultCurrent lowest;
    std::optional<Duration> clears;       ///< at the latest; empty: it need not clear at all, or nothing is known of it
    bool known;                           ///< there are time limits for its family
    std::optional<Withstand> at_far;      ///< the lowest short, where it is cleared within 5 s
    std::optional<Withstand> at_worst;    ///< of all that are, the one that lets through most
    std::optional<LastingShort> lasting;  ///< of those that last longer, the one that heats the cable most

    [[nodiscard]] bool lasts_safely() const { return !lasting || lasting->holds(); }
    [[nodiscard]] bool withstands() const { return (!at_far || at_far->holds()) && (!at_worst || at_worst->holds()); }
    [[nodiscard]] bool holds() const { return lasts_safely() && withstands(); }

    static constexpr Duration adiabatic = seconds(5);
    /// Of a loop at 105 degC, when it carries its load at 20 degC: 1/(1 + 0.00393/K x 85 K), copper by IEC 60228.
    static constexpr double coldest_loop = 0.75;
    /// Age and cold make a battery's resistance higher than any range for a new and warm one.
    static inline const double aged = in_ratio(in_practice(PracticeShare::aged_battery));
};

/// What a battery's resistance may be in age and cold: of one that nobody measured half as much again.
Resistance aged_resistance(const InternalResistance& battery);
/// The same as a run's load allows it, whose loop is hot.
Resistance aged_resistance(const FuseEnd& end, Resistance loop);

/// What a fuse does against shorts at the far end of a loop, hot, and at every nearer place.
Protection protect(const FuseFit& fuse, const FuseEnd& end, Resistance loop, const ShortedConductor& conductor,
                   const Tables& tables);

}  // namespace voltwright
