#pragma once

#include "voltwright/circuit/fault.hpp"
#include "voltwright/circuit/place.hpp"
#include "voltwright/energy/internal_resistance.hpp"
#include "voltwright/provenance/cited.hpp"
#include "voltwright/sizing/part_rating.hpp"
#include "voltwright/sizing/rules.hpp"
#include "voltwright/tables/practice.hpp"
#include "voltwright/tables/tables.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// The ratings that a fuse may have: large enough to carry the current for years, small enough to protect what is behind it.
///
///     I_n ≥ I_design/(u·f)        f = 1 − d·(T_around − 25 °C)
///     I_n ≤ the least of ampacity, part ratings and the appliance's own largest fuse
///
/// u   share of its rating that a fuse may carry for long     d   re-rating of its family per kelvin
///
/// Source: u: common practice of 80 %, vehicle power-distribution manuals say 60 to 80 %; I_n ≤ ampacity is stricter than
/// 33 CFR 183.455(c)(1), which allows 150 % under 50 V.
struct FuseWindow {
    Current design;
    Ratio use;
    Temperature around;
    PerKelvin rerating_per_kelvin;
    Ratio rerating;
    Current at_least;
    Current ampacity;
    std::optional<Current> parts;
    std::optional<Current> appliance;
    Current at_most;
    std::optional<Current> behind = {};  ///< fuse of a motor behind it whose start is not known: not smaller than that
};

FuseWindow fuse_window(Current design, Ratio use, Temperature around, PerKelvin rerating_per_kelvin, Current ampacity,
                       std::optional<Current> parts, std::optional<Current> appliance);

/// One end of a run from which a source can feed it: where a fuse is due.
struct FuseEnd {
    Place at;                     ///< a battery, a fuse block
    Temperature around;           ///< hottest surroundings of the fuse while current flows
    Voltage open_circuit;         ///< of the battery behind it, rested and full
    Voltage highest;              ///< the highest system voltage there
    InternalResistance internal;  ///< of that battery
};

/// A dead short just behind the fuse, from which its breaking capacity is judged.
///
/// The loop is the lead from the battery's post to the fuse, cold, with its lug, the holder and the fuse link's own cold
/// resistance: all that the current passes. (The prospective current of the fuse standards leaves the fuse's own
/// resistance out; at 12 V and for small ratings it is most of the loop.)
struct FaultAtFuse {
    Resistance lead;
    Resistance fuse;
    FaultCurrent expected;  ///< at the expected resistance of the battery
    FaultCurrent highest;   ///< at the low end of its range
    Cited<Current> breaking_capacity;
};

/// A fuse in its place.
struct FuseFit {
    Place at;
    std::string family;
    std::string standard;
    FuseForm form;
    Current rating;
    FuseWindow window;
    FaultAtFuse fault;
    Cited<Resistance> link;  ///< cold
    Cited<Resistance> holder;
    std::optional<PartRating> in_line = {};  ///< of a blade: what a holder in the cable may carry for long
    bool given = false;                      ///< by the profile: judged, not chosen
    bool have = false;                       ///< there already: not bought
    bool in_window = true;                   ///< a given fuse may be too large or too small
};

/// How far over its breaking capacity a fuse may be asked to go before that is a stop, as the battery's resistance is
/// known to a factor of two at best. data/practice/shares.toml.
inline const Ratio breaking_tolerance = in_practice(PracticeShare::breaking_tolerance);

/// Cold resistance of a fuse link: between the ratings whose resistance is known, log-log; beyond them, in inverse
/// proportion to the rating.
Cited<Resistance> fuse_link_resistance(const Tables& tables, std::string_view family, Current rating);

/// A short current beyond the usual one: a compressor that starts, a winch.
struct ShortCurrent {
    Current current;
    Duration time;
};

struct FuseWish {
    const FuseEnd& end;
    Current design;
    Current ampacity;                             ///< of the thinnest conductor
    Area conductor;                               ///< of the cable that a holder would sit in
    std::optional<Current> parts;                 ///< least rating of what sits behind it
    std::optional<Current> appliance;             ///< its own largest fuse
    bool largest = false;                         ///< a load that starts hard: take the largest that is allowed
    std::optional<Current> behind = {};           ///< the largest fuse of such a load behind other runs
    Resistance lead;                              ///< from the battery's post to the fuse, cold, with its lug
    std::span<const ShortCurrent> starting = {};  ///< that the fuse must let pass
};

/// The smallest standard rating in the window that lets a starting current pass, of the first usual family (or of the
/// shelf) whose breaking capacity is enough; of the one that breaks most when none is. A usual family of blades comes into
/// question as far as its holder in the cable may carry the design current. Empty when no rating lies in the window.
std::optional<FuseFit> choose_fuse(const FuseWish& wish, const Rules& rules, const Tables& tables);

/// The window that a usual family would leave, for saying why there is none.
FuseWindow fuse_window(const FuseWish& wish, const Rules& rules, const Tables& tables);

/// The same judgement of a fuse that is given. Empty when its family is not in the tables.
std::optional<FuseFit> judge_fuse(const FuseOfRating& fuse, const FuseWish& wish, const Rules& rules,
                                  const Tables& tables);

}  // namespace voltwright
