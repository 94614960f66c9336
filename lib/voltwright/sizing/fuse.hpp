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
/// Two ways out where no rating is made in between. What the appliance's manual allows wins over u: the largest rating up
/// to that, so long as it is no less than the design current. And above the ampacity the next made rating up to 150 % of it.
///
/// Source: u: common practice of 80 %, vehicle power-distribution manuals say 60 to 80 %. I_n ≤ ampacity is stricter than
/// 33 CFR 183.455(c)(1), which allows 150 % under 50 V, read; a small-craft standard allows the next made rating to 150 %
/// only where none equals the ampacity (E-11.10.2.3, read in copies of its a.c. part), and that is what stands here.
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

/// By 33 CFR 183.455(c)(1).
inline constexpr double most_above_ampacity = 1.5;

FuseWindow fuse_window(Current design, Ratio use, Temperature around, PerKelvin rerating_per_kelvin, Current ampacity,
                       std::optional<Current> parts, std::optional<Current> appliance);

/// One end of a run from which a source can feed it: where a fuse is due.
struct FuseEnd {
    Place at;                     ///< a battery, a fuse block
    Temperature around;           ///< hottest surroundings of the fuse while current flows
    Voltage open_circuit;         ///< of the battery behind it, rested and full
    Voltage highest;              ///< the highest system voltage there
    InternalResistance internal;  ///< of that battery
    bool electronics = false;     ///< of that battery's own, which may open a short: told, never counted on
    /// The most that it and the whole way to the run's load may have, as they run, if the load gets its current at all;
    /// empty where the battery is not made for that load.
    std::optional<Resistance> feeds = {};
};

/// A dead short just behind the fuse, from which its breaking capacity is judged.
///
/// The loop is the lead from the battery's post to the fuse, cold, with its lug, the holder and the fuse link's own cold
/// resistance: all that the current passes. (The prospective current of the fuse standards leaves the fuse's own
/// resistance out; at 12 V and for small ratings it is most of the loop.)
struct FaultAtFuse {
    Resistance lead;
    Resistance fuse;
    FaultCurrent expected;    ///< at the expected resistance of the battery
    FaultCurrent highest;     ///< at the low end of its range
    Voltage highest_voltage;  ///< of the system there: what it has to break at
    Cited<Current> breaking_capacity;
    Current in_front{};  ///< what the fuses before it interrupt; none where it is the first

    /// What may be asked of it: its own breaking capacity, or where a fuse before it breaks the fault so many times that,
    /// data/practice/shares.toml (behind_main).
    [[nodiscard]] Current interrupts() const;
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
    bool in_window = true;                   ///< its rating is allowed; a given fuse may be too large or too small

    /// Smaller than what carries the current for long in its heat, and yet the largest that the appliance's manual allows.
    [[nodiscard]] bool by_manual() const { return in_window && rating < window.at_least; }
    /// Larger than the ampacity: the next rating that is made.
    [[nodiscard]] bool above_ampacity() const { return in_window && rating > window.ampacity; }
};

/// Whether it may be asked to interrupt what a dead short just behind it would draw, the battery as expected. One that is
/// chosen does wherever a family that does is made in a fitting rating; a small blade that does not wants a fuse in front
/// of it, at the battery, that does.
bool breaks_enough(const FuseFit& fuse);

/// What a family may be asked to interrupt at a voltage.
///
/// At or below the least voltage that is printed what is printed there, between two voltages on a line. Empty above the
/// highest, and for a family without a figure. Source: the rows of data/fuses/breaking.toml; the line is ours, and lies
/// below the figure of the lower voltage.
std::optional<Cited<Current>> breaking_capacity(const Tables& tables, std::string_view family, Voltage voltage);

/// How far over its breaking capacity a fuse that is given may be asked to go before that is a stop, as the battery's
/// resistance is known to a factor of two at best. data/practice/shares.toml.
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
    std::optional<Current> most = {};  ///< of a load that runs for a short time: its holder is warm within minutes
    bool for_one_appliance = false;    ///< which it protects as well
    bool next_made = false;            ///< no other size does: the next rating above the ampacity may do
    Current in_front{};                ///< what the fuses before it interrupt
};

/// From a battery's post to the fuse: as much cable as the basis allows before it, cold, with its lug.
/// Throws std::logic_error when the basis is not in the tables.
Resistance lead_from_post(const ConductorRow& conductor, Length run, const Rules& rules, const Tables& tables);

/// The smallest standard rating in the window that lets a starting current pass, of the first usual family (or of the
/// shelf) whose breaking capacity is enough. A usual family of blades comes into question as far as its holder in the cable
/// may carry the design current, one for battery posts at a battery alone.
///
/// Before a single appliance a family that breaks more takes the place of the first that fits only if it is made in the
/// same rating or the next larger one that is made: a load of 4 A keeps its blade, and what breaks more belongs in front of
/// all blades, at the battery. Where no family breaks enough, the one that breaks most. Empty when no rating is allowed.
std::optional<FuseFit> choose_fuse(const FuseWish& wish, const Rules& rules, const Tables& tables);

/// The window that a usual family would leave, for saying why there is none.
FuseWindow fuse_window(const FuseWish& wish, const Rules& rules, const Tables& tables);

/// Whether any family that comes into question is made, or on the shelf, between need and ampacity: then none above it is
/// allowed.
bool made_within(const FuseWish& wish, const Rules& rules, const Tables& tables);

/// The same judgement of a fuse that is given. Empty when its family is not in the tables.
std::optional<FuseFit> judge_fuse(const FuseOfRating& fuse, const FuseWish& wish, const Rules& rules,
                                  const Tables& tables);

}  // namespace voltwright
