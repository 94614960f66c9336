#pragma once

#include "voltwright/trip/journey.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// A moment of the trip: day from 1, and the clock.
struct Moment {
    int day;
    Duration clock;  ///< since midnight; 24 hours at the end of the last day
};
Moment moment(Duration since_first_midnight);
/// "08:30"; "24:00" at the end of a day
std::string clock_of(Duration since_midnight);
/// "day 3 at 08:30", "the end of day 7"
std::string show(const Moment& moment);
/// "on day 3 at 08:30", "at the end of day 7"
std::string when(const Moment& moment);

/// Ampere-hours at the battery's terminals, and where they went. It closes at every step:
///
///     from_charger + from_sun = used + lost + (in the wells now − in the wells at the start)
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

struct DayTotals {
    int day;
    Charge used, charged;
    Ratio lowest, end;  ///< state of charge
};

/// What became of one consumer.
struct Served {
    std::string name;
    bool essential;
    Charge used;
    Duration off;     ///< wanted, but switched off by its guard or by a flat battery
    Energy unserved;  ///< what it would have taken in that time
    int cut_outs;     ///< how often its guard tripped
    std::optional<Moment> first_off;
    /// What a fridge's compressor had not yet taken out at the end, as the energy that it takes for that. A fridge that is
    /// off for days in truth warms only to what surrounds it, and owes less.
    Energy owed = {};
};

/// One moment of the timeline.
struct TripPoint {
    Duration at;
    Ratio soc;
    Voltage terminals;
    Current battery;  ///< into it
    Current source;
    bool driving;
    Temperature air, battery_temperature;
};

enum class EndedBy { trip, depth_limit, cut_out, flat };
std::string_view show(EndedBy by);

/// The moment at which a battery was nearest to freezing.
struct NearFreezing {
    Temperature battery, freezes;
    Ratio soc;
    Moment at;
};

/// A trip marched through.
struct Trip {
    Ledger ledger;
    Ratio start, lowest, end;  ///< state of charge
    Moment lowest_at;
    std::optional<Moment> below_limit;  ///< when the depth limit was first passed
    Ratio deepest_allowed;              ///< state of charge at the depth limit, at that moment or at the lowest one
    std::vector<DayTotals> days;
    std::vector<Served> served;
    std::vector<TripPoint> points;              ///< when asked for
    Duration driven, refused;                   ///< with the engine on; of that, lithium too cold to take charge
    Charge kept_while_driving;                  ///< net into the wells while the engine ran
    Ratio highest_after_start;                  ///< fullest state that charging reached
    Voltage highest_target;                     ///< most that a charger or regulator would hold, while one gives
    std::optional<NearFreezing> near_freezing;  ///< lead alone
    Duration lasted;
    EndedBy ended_by;
    std::string ended_name;  ///< of the consumer that cut out

    /// Hours that essential consumers were off.
    [[nodiscard]] Duration essential_off() const;
    /// Nothing essential was off and the depth limit was kept.
    [[nodiscard]] bool holds() const;
};

struct MarchOptions {
    bool points = false;         ///< keep the timeline
    bool stop_at_limit = false;  ///< end at the depth limit or the first essential cut-out
    std::optional<Ratio> start_soc;
    GuardSetting guard = GuardSetting::standard;
    std::optional<Duration> until;  ///< since the first midnight: end there, within an interval or not
};

/// Marches a battery through a journey.
///
/// Within an interval the currents are linear in the level of the available well between two marks of the battery, so
/// the wells move by closed-form steps. A step ends where the level passes a mark, where the charger begins to hold its
/// voltage, where a guard trips or lets go again, or with the interval. Allocates only at the start.
Trip march(const Journey& journey, const MarchOptions& options = {});

}  // namespace voltwright
