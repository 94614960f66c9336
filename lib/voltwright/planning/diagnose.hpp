#pragma once

#include "voltwright/planning/limits.hpp"
#include "voltwright/planning/meter.hpp"
#include "voltwright/planning/readings.hpp"
#include "voltwright/planning/rig.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

/// Which joint or cable is at fault, from what a meter showed.
namespace voltwright {

/// What a meter showed at one place, while something was going on.
struct Shown {
    std::size_t number;  ///< of the `[[reading]]`, from 0
    Probe probe;
    RigState state;
    double value;        ///< volts or amperes
    double uncertainty;  ///< one standard uncertainty, in the same
};

/// What may be wrong.
struct Suspicion {
    enum class Kind {
        joint,  ///< a lug, plug, switch, fuse or holder has more resistance than it should
        cable,  ///< one conductor has: strands broken, corroded, or far longer than planned
        gauge,  ///< both conductors of a run have, in proportion: a thinner cable than planned
        body,   ///< the return through the body has
        slip,   ///< a reading fits no other: read, noted or probed wrongly
    };
    Kind kind;
    std::string run;                             ///< empty for a slip
    std::string element;                         ///< "feed lug at charger +"; empty for gauge and slip
    std::optional<std::size_t> reading = {};     ///< of a slip
    std::optional<Resistance> extra = {};        ///< more than it should have
    std::optional<Resistance> uncertainty = {};  ///< the truth is within it 19 times in 20
    std::optional<Power> heat = {};              ///< that the extra resistance makes at `at`
    std::optional<Current> at = {};              ///< the most that flowed while it was measured
    std::optional<Gauge> looks_like = {};        ///< of a gauge: the size that is nearest
    bool fuse = false;                           ///< of a joint: a fuse with its holder
    bool accused = false;                        ///< it stands out from the others
    bool too_little = false;                     ///< of a slip: a drop that is less than cable and joints must lose
    double odds = 1.0;                           ///< against the first of its kind, 1 for that
};

/// What needs no sum to be seen.
struct Remark {
    /// The gravest first.
    enum class Kind {
        poles_swapped,    ///< plus and minus are swapped at a place, or the meter's leads were
        other_voltage,    ///< twice the volts of a 12 V system: a 24 V vehicle
        open,             ///< no way through between two points
        nothing_arrives,  ///< a place is dead: a fuse out, a plug open, a break
        nothing_flows,    ///< a load is on and takes nothing
        cannot_carry,     ///< a run loses more volts under load than it may
        overcharged,      ///< a battery has more volts than what charges it may give
        not_charged,      ///< the engine runs and its battery is not charged
        charger_awake,    ///< the engine is off and the charger takes current
        charger_idle,     ///< the engine runs and the charger does nothing
        low_battery,      ///< too low at rest for a test
        beyond,           ///< past the limit of the test plan
        with_missing,     ///< something flows there where nothing is on
        impossible,       ///< more volts than any 12 V system has: read or noted wrongly
        low_charging,     ///< the alternator charges, with less than it gives when cool and free
        leads_swapped,    ///< a drop below zero: taken without its sign
        no_current,       ///< nothing flows there in this state, so the reading tells nothing of joints
        not_understood,   ///< no voltage or current stands beside it, or its leads are on circuits of two batteries
    };
    Kind kind;
    std::size_t reading;
    std::string about = {};  ///< the place or run
    std::optional<Measure> found = {};
    /// Of `open`: the elements of which one is, the likeliest first. Of `beyond`: where the leads were.
    std::vector<std::string> among = {};
    bool fuse = false;  ///< and the first of them is a fuse

    // Of `beyond` and `cannot_carry`; of `charger_idle`, `limit` is what the feed may lose to a lamp of `lamp_test`.
    std::optional<Measure> limit = {};  ///< that it passes
    std::optional<Current> at = {};     ///< that flows when it is as it should be
    std::optional<Current> flows = {};  ///< that was read to flow
    bool above = true;                  ///< it passes it upwards
    bool gives_up = false;              ///< of `cannot_carry`: what hangs there has too little to run on
    bool in_way = false;                ///< of `beyond`: a drop, in what lies between the leads
    bool nothing_on = false;            ///< of `beyond`: a current with everything there off
    bool charging = false;              ///< of `beyond`: while the charger works
    bool source_known = false;          ///< of `beyond` at a place: its battery was read at the same time
    bool explained = false;             ///< what is suspected says why

    /// A page with such a one never says that nothing is wrong.
    [[nodiscard]] bool grave() const { return kind <= Kind::impossible; }
};

/// A lamp that shows what a feed carries: a headlamp bulb, category H7 of UN Regulation 37, 12 V and 55 W (from memory).
inline constexpr Power lamp_test = watts(55);

/// One reading beside what a vehicle without faults would show.
struct Compared {
    std::size_t number;
    bool clamp;
    double shown, expected, tolerance;  ///< volts or amperes; the tolerance 19 times in 20
    double explained;                   ///< with the accused at fault
    bool beyond = false;                ///< past the limit of the test plan, which then is what is expected

    [[nodiscard]] bool as_it_should() const {
        return !beyond && shown >= expected - tolerance && shown <= expected + tolerance;
    }
};

enum class Verdict {
    too_little,     ///< nothing was read that a joint could show in
    nothing_wrong,  ///< all is within what meter and parts may be off
    plain,          ///< a reading tells by itself what is wrong: a grave remark; nothing else explains it
    found,          ///< the accused explain it
    several,        ///< something is wrong, and more than one thing explains it
    contradiction,  ///< no fault of these explains it
};
std::string_view show(Verdict verdict);

struct Diagnosis {
    Verdict verdict = Verdict::too_little;
    std::vector<Suspicion> suspects;  ///< most likely first
    std::vector<Remark> remarks;
    std::vector<Compared> compared;
    std::optional<PlannedReading> next = {};  ///< what would tell the first two apart, or where the way is open
};

/// The extra resistance that explains the readings best.
///
///     y = f(r, s) + e
///     χ² = Σ ((y_i − f_i)/u_i)² + Σ ((r_k − r_k0)/σ_k)² + Σ ((s_j − s_j0)/σ_j)²
///
/// y, u     what was shown, and its standard uncertainty        f   what the network would show
/// r, σ     resistances of joints and cables, near what they should have
/// s        voltages of the batteries, the charger's output, the loads: within wide bounds, but a charger never gives
///          more than its output, nor takes a load more than is believable
///
/// χ² is made least by damped Gauss-Newton steps (Levenberg and Marquardt) through the solved network. A fault is one more unknown without a bound: the
/// extra resistance of one joint, a whole run in proportion, or the error of one reading. That one is taken which lowers χ²
/// most (the odds of a joint are higher than those of a cable or a slip), if by more than 12 (some 3.5 standard deviations, so that among
/// some tens of joints hardly one is accused for nothing) and if it is above zero; then again, up to three. Two faults can
/// hide each other, a bad joint behind a reading that was noted wrongly above all: where such a one is among what was
/// found, or where it does not explain everything, pairs are tried too, and fewer faults are believed before more. The
/// uncertainty comes from the curvature of χ².
///
/// Before all that stand the limits of the test plan: a reading beyond its own is told, whatever explains it.
///
/// Source: weighted least squares with prior knowledge and forward selection, of statistics textbooks (from memory).
Diagnosis diagnose(const System& system, const Plan& plan, const Tables& tables = built_in_tables());

/// The same for a rig and readings at hand.
Diagnosis diagnose(const Rig& rig, const std::vector<Shown>& readings, const System& system, const Plan& plan,
                   const Tables& tables = built_in_tables());

/// What is noted of a reading's state and probe; with a remark when it cannot be used.
std::vector<Shown> readings_of(const Rig& rig, const System& system, std::vector<Remark>& remarks);

}  // namespace voltwright
