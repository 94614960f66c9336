#pragma once

#include "voltwright/circuit/converter.hpp"
#include "voltwright/circuit/load.hpp"
#include "voltwright/circuit/run.hpp"
#include "voltwright/circuit/withstand.hpp"
#include "voltwright/energy/charger.hpp"
#include "voltwright/reasons/cited.hpp"
#include "voltwright/reasons/source.hpp"
#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/sizing/fuse.hpp"
#include "voltwright/sizing/part_rating.hpp"
#include "voltwright/sizing/rules.hpp"
#include "voltwright/tables/tables.hpp"

#include <concepts>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

/// The choice of a cable and its fuse: the smallest size that passes, what each thinner one fails, and why.
namespace voltwright {

/// A value that has to be given: a struct that holds one cannot leave it out silently.
template <class T>
class Needed {
public:
    constexpr Needed(T value) : value_(std::move(value)) {}
    template <class U>
    requires(std::convertible_to<U, T> && !std::same_as<std::remove_cvref_t<U>, T> &&
             !std::same_as<std::remove_cvref_t<U>, Needed>) constexpr Needed(U&& value)
        : value_(std::forward<U>(value)) {}
    constexpr operator const T&() const { return value_; }
    constexpr const T& operator*() const { return value_; }
    constexpr const T* operator->() const { return &value_; }

private:
    T value_;
};

/// A part of a run's way, and how hot it is there while the run carries current.
struct WayPart {
    std::string place;  ///< "engine bay", or "31 degC"
    Length length;
    Temperature around;
};

/// Something in a run beside cable and fuse: a name of the joint table, or a measured resistance.
struct Joint {
    std::string name;
    std::optional<Resistance> measured;
};

/// The body as return, as measured or from its table.
struct BodyReturn {
    Cited<Resistance> resistance;
    bool measured;
    std::optional<Resistance> high = {};  ///< of one that nobody measured: the most that it may be
};

/// What lies between the source and the beginning of a run: the runs before it.
struct Upstream {
    Resistance cold{};  ///< at 20 °C, batteries and parts as they usually are
    Resistance hot{};   ///< conductors at their rated temperature, a body return at its worst
};

/// A fuse that somebody gave for a run.
struct GivenFuse {
    std::optional<Place> at;           ///< empty: wherever one is due
    std::optional<FuseOfRating> fuse;  ///< empty: there is to be none
};

/// One cable route to a place, out and back.
struct CableRun {
    Needed<std::string> name;
    Needed<Length> length;          ///< one way
    std::vector<WayPart> way = {};  ///< empty: all of it at `around`
    Temperature around = celsius(30);
    Temperature insulation = celsius(105);
    std::string insulation_material = {};  ///< `pvc`, `xlpe` …; empty when only the rating is known
    int loaded_in_bundle = 2;
    std::optional<BodyReturn> body = {};            ///< empty: a cable back
    std::optional<Gauge> return_size = {};          ///< of the cable back; empty: the same as out
    std::optional<std::vector<Joint>> joints = {};  ///< empty: two lugs at each end, one with a body return
    std::vector<FuseEnd> fused_at = {};             ///< every end from which a source can feed it
    std::vector<GivenFuse> given_fuses = {};
    std::optional<Gauge> given = {};    ///< a size that is judged, not chosen
    bool have_cable = false;            ///< a cable of that size is there already: not bought
    bool have_fuse = false;             ///< so are the given fuses
    std::optional<Area> at_least = {};  ///< thinner sizes are known not to do, and are not judged
    std::optional<Area> terminal = {};  ///< the largest conductor that the far end takes
    std::vector<Length> studs = {};     ///< at its ends, where they are known: a lug has to go on each
    Upstream upstream = {};
    std::vector<ShortCurrent> starting = {};  ///< of each thing that it leads to, all else that is on with it
    std::optional<Current> motor_fuse = {};  ///< the largest that a motor behind other runs allows, its start not known
};

/// The fuse that is given for an end; nullptr where none is.
const FuseOfRating* given_fuse(const CableRun& run, const FuseEnd& end);

/// Whether an end from which a source feeds the run is left without a fuse: "none" is given for it, or the fuse that is
/// given sits at another end. There it interrupts nothing that this end feeds: 33 CFR 183.455(b) wants it at the source.
bool left_bare(const CableRun& run, const FuseEnd& end);

/// The fuses that are given for ends from which no source feeds the run: they protect nothing of it.
std::vector<std::pair<Place, FuseOfRating>> fuses_elsewhere(const CableRun& run);

/// A DC-DC charger at the end of its feed: constant power in.
struct ConverterLoad {
    Needed<Current> output;
    Voltage absorption = volts(14.4);
    CompensatedVoltage highest_absorption = compensated_voltage(volts(14.4), Compensation{}, celsius(25));
    Ratio efficiency = percent(90);
    Voltage input_off = volts(12.7);
    std::optional<Current> input_limit = {};
    std::optional<Current> fuse_max = {};
};

/// A charger's output into its battery, or anything else that keeps its current whatever the voltage.
struct SteadyLoad {
    Needed<Current> current;
    std::optional<Current> fuse_max = {};
    std::optional<Current> most = {};  ///< its design current where that is more; empty: the same
};

/// An appliance of constant power: less volts, more amps, most of them just before it cuts out.
struct PowerLoad {
    Needed<Power> power;
    Voltage cut_out = volts(10.4);
    std::optional<Current> fuse_max = {};
    bool starts_hard = false;  ///< a motor whose starting current is not known: take the largest fuse it allows
};

/// A heater or a lamp: a fixed resistance.
struct ResistiveLoad {
    Needed<Resistance> resistance;
    Needed<Voltage> highest;  ///< of the system it hangs on: there it draws most
    std::optional<Current> fuse_max = {};
};

using RunLoad = std::variant<ConverterLoad, SteadyLoad, PowerLoad, ResistiveLoad>;

/// What feeds the run, and what may be lost on the way.
struct Supply {
    Needed<Voltage> normal;    ///< at which the drop is judged
    Needed<Voltage> lowest;    ///< at which a charger must keep working
    Needed<Ratio> drop_limit;  ///< of 12 V
};

/// What a size can fail.
enum class Criterion {
    mechanical,
    terminal,
    lug,
    ampacity,
    part,
    fuse,
    clearing,
    withstand,
    delivery,
    drop,
    charger_input,
    price  ///< it would do, and a thicker one costs less: decides, and is no failing
};
std::string_view show(Criterion criterion);

/// The volts lost in a run at the normal running voltage, conductors at the temperature where they settle.
///
///     U = I·R
///
/// Source: Ohm's law; the current of a charger or an appliance of constant power is solved together with the loop.
struct DropCheck {
    Voltage source;
    std::optional<ConverterPower> charger = {};  ///< where the power of a charger comes from
    std::optional<ConverterInput> input = {};    ///< for loads of constant power
    RunResistance resistance;
    Current current;
    Voltage drop;
    Voltage cable_drop;
    Voltage joint_drop;
    Ratio share;  ///< of 12 V
    Ratio limit;
    Voltage allowed;
    Voltage far_end;
    Power heat;
};

/// What a charger still sees when the alternator gives least.
struct LowestInput {
    ConverterInput input;
    Voltage input_off;
    Voltage required;  ///< input_off + 0.2 V
    Voltage far_end;
};

/// The margin above its cut-off that a charger is left with at the lowest running voltage. Common practice, no source.
inline constexpr Voltage input_margin = volts(0.2);

/// A dead short at the far end of a run, at its lowest: does its fuse clear it, and does the cable stand that long?
///
///     I = V_oc/(1.5·R_i,high + R_before + R_loop)
///
/// R_i,high   the high end of the battery's range, half as much again for age and cold
/// R_before   the runs before this one, hot        R_loop   this run, its conductors as hot as their insulation allows
///
/// A short that is not cleared within 5 s burns on. Source: 5 s is the longest disconnection time of IEC 60364-4-41 and the
/// limit of the adiabatic withstand of IEC 60364-4-43; the 1.5 is common practice, no source.
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
    static constexpr double aged = 1.5;
};

/// What a fuse does against shorts at the far end of a loop, hot, and at every nearer place. `thinnest` conductor behind it,
/// as warm as `start` when the short begins; in a short it may reach `limit`.
Protection protect(const FuseFit& fuse, const FuseEnd& end, Resistance loop, Area thinnest, Temperature start,
                   Temperature limit, const Tables& tables);

/// One size, judged.
struct Candidate {
    Gauge size;
    Area area;
    std::vector<Criterion> fails = {};  ///< empty: it fits
    std::optional<Ampacity> ampacity = {};
    std::optional<ConductorTemperature> temperature = {};
    std::optional<DropCheck> drop = {};  ///< empty: the power cannot be delivered through so much resistance
    std::optional<RunResistance> cold =
        {};  ///< where there is no drop: what the power would have to go through, at 20 °C
    std::optional<LowestInput> lowest = {};      ///< chargers only
    Resistance cold_loop = {};                   ///< of this run alone, conductors at 20 °C
    Resistance hot_loop = {};                    ///< conductors at their insulation's rating, a body at its worst
    std::optional<FaultCurrent> far_fault = {};  ///< a dead short at the far end, copper cold, the battery as expected
    std::vector<PartRating> parts = {};          ///< of what sits in the run and has a rating of its own
    std::vector<FuseFit> fuses = {};             ///< one an end, where there is one that fits
    std::vector<FuseWindow> windows = {};        ///< one an end, whether or not a fuse fits
    std::vector<Protection> protection = {};     ///< one a fuse
    std::optional<Withstand> start =
        {};  ///< the worst starting current against the insulation's rating, no heat given off

    [[nodiscard]] bool fits() const { return fails.empty(); }
    /// Of the run with its normal current; cold where that cannot be brought.
    [[nodiscard]] const RunResistance& resistance() const { return drop ? drop->resistance : cold.value(); }
};

/// Why a run's design current is what it is.
struct DesignCurrent {
    std::optional<FeedDesignCurrent> feed = {};
    std::optional<CompensatedVoltage> absorption = {};
    Current current;
};

/// The ladder of a run, and what was taken.
struct Choice {
    DesignCurrent design;
    std::vector<Candidate> ladder = {};     ///< rising area; a given size among them
    std::optional<std::size_t> taken = {};  ///< where nothing fits, the one that fails least; empty: no size was judged
    std::optional<Criterion> decided_by =
        {};              ///< what the next thinner size fails first; empty: the thinnest there is fits
    bool given = false;  ///< the size is the profile's: judged, not chosen

    [[nodiscard]] const Candidate* chosen() const { return taken ? &ladder[*taken] : nullptr; }
    /// The next thinner size of the ladder, or nullptr.
    [[nodiscard]] const Candidate* thinner() const { return taken && *taken > 0 ? &ladder[*taken - 1] : nullptr; }
    /// The smallest size that fits, taken or not; nullptr when none does.
    [[nodiscard]] const Candidate* least_that_fits() const;
    /// No size passes, and none is given: what was taken only shows by how much.
    [[nodiscard]] bool nothing_fits() const { return !given && !(taken && ladder[*taken].fits()); }
};

/// Which sizes a ladder holds.
enum class Ladder {
    whole,   ///< every size of the rules
    needed,  ///< the one taken and the one below it; all where none fits or one is given
    first,   ///< the one taken alone; none where none fits, a given one whatever it fails
};

/// Judges the sizes of the rules and takes the smallest that fits, or the given one whatever it fails. Where none fits,
/// the one that fails least: the size that would do if only a part in the run were another, else of those that fail the
/// fewest criteria the thickest, or the thinnest where it is too thick for a terminal or a lug.
/// Throws std::invalid_argument, with the name of the field, when the run has no end with a fuse or an amount is none: a
/// length, voltage or resistive load not above 0, a current, power or resistance below 0, a share outside 0 to 1, fewer than
/// one cable in a bundle, anything infinite or not a number. Throws std::logic_error when a size or the basis is not in
/// the tables. resolve() has seen to all of these.
Choice choose_cable(const CableRun& run, const RunLoad& load, const Supply& supply, const Rules& rules,
                    const Tables& tables = built_in_tables(), Ladder ladder = Ladder::whole);

/// The greatest current that the run is ever asked to carry for long: what cable, fuse and parts are held against.
DesignCurrent design_current(const RunLoad& load);

/// What a load draws, by its voltage; a charger at full output, whatever its input limit.
LoadLaw law_of(const RunLoad& load);

/// The conductors of a run of one size, and how warm a current makes them.
struct WarmRun {
    struct Temperatures {
        Temperature out, back;
    };

    Length length;
    ConductorRow out;
    std::optional<ConductorRow> back;  ///< empty with a body return
    std::optional<Ampacity> out_limit, back_limit;
    Temperature around;  ///< averaged along its way
    Resistance fixed;    ///< joints, and the body as return

    /// Where they settle with this current; at most where copper melts, and `around` where no ampacity is known.
    [[nodiscard]] Temperatures at(Current current) const;
    [[nodiscard]] Resistance loop(Temperatures conductors) const;
};

/// Throws std::logic_error for a size that is not in the tables.
WarmRun warm_run(const CableRun& run, const Candidate& candidate, const Rules& rules, const Tables& tables);

/// The same run with its conductors at these temperatures.
RunResistance resistance_of(const WarmRun& run, RunResistance resistance, WarmRun::Temperatures conductors);

/// Of the run's conductor in its hottest place; empty where no ampacity is known.
std::optional<ConductorTemperature> conductor_temperature(const CableRun& run, const Candidate& candidate,
                                                          Current current);

/// What sits in a run whose conductors have this area, equal things counted together.
std::vector<JointResistance> joints_of(const CableRun& run, Area area, const Tables& tables);

/// A switch, relay or breaker whose rating is printed on it and not known here, and the least that it has to be.
struct UnratedPart {
    std::string part;
    Current at_least;
};

/// What has to be read on the parts of a run before they are bought: enough for the design current and for the fuses that
/// were taken, so that the fuse blows and not the part, and for half of the hardest start; the next rating that fuses are
/// sold in. Common practice, no source; the half: a sealed relay rated 45 A makes 100 A, and battery switches carry for a
/// minute 2.2 to 2.6 times what they carry for long (makers' sheets, read).
std::vector<UnratedPart> unrated_parts(const CableRun& run, const Candidate& candidate, Current design,
                                       const Tables& tables);

/// What one thing in a run turns into heat at the current that it carries for long, and the most that is sound.
///
///     P = I²·R
///
/// R   of one piece, as it usually is        the limit: one contact's, times the contacts that share the heat
/// Source: Joule's law; the limit is the table's.
struct JointHeat {
    std::string part;
    Power heat, limit;
    Source source;  ///< of the limit
};

/// Of those things in a run that are hotter than is sound, each named once; what is rated for less is not told again.
std::vector<JointHeat> hot_joints(const CableRun& run, const Candidate& candidate, Current design,
                                  const Tables& tables);

}  // namespace voltwright
