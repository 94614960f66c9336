#include "voltwright/planning/starter_loads.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/trip/autonomy.hpp"
#include "voltwright/trip/operating_points.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

constexpr Duration whole_day = hours(24);

struct Stand {
    Duration from;  ///< clock
    Duration length;
};

/// The longest time of the trip without the engine. Where somebody drives every day, at least from the evening to the
/// next morning: a trip of one day ends at midnight, its vehicle does not.
Stand longest_stand(const Journey& trip, const System& system) {
    Stand longest{}, now{};
    for (const Interval& interval : trip.intervals) {
        if (interval.driving)
            now = {};
        else {
            if (!(now.length > Duration{})) now.from = moment(interval.from).clock;
            now.length += interval.length;
            if (now.length > longest.length) longest = now;
        }
    }
    const auto& drives = system.complete.trip.drives;
    if (!drives || drives->empty()) return longest;
    Duration first = whole_day;
    for (const ClockWindow& drive : *drives) first = std::min(first, minutes(drive.from.minutes));
    const Duration evening = evening_of(system), night = whole_day - evening + first;
    return night > longest.length ? Stand{evening, night} : longest;
}

bool anything_there(const System& system) {
    return std::any_of(system.runs.begin(), system.runs.end(), [&](const SystemRun& run) {
        return (run.role == RunRole::appliance || run.role == RunRole::inverter) &&
               source_of(system, run.to.name) == PlaceKind::starter_battery;
    });
}

/// Switches itself off before the battery, which reads less under load than at rest, is down to the limit.
bool saved(const Consumer& consumer, Ratio least, const Tables& tables) {
    const auto& guard = consumer.guards[1];
    if (!guard) return false;
    const auto soc = soc_at_rest(tables, "flooded", guard->cut_out);
    return soc && *soc >= least;
}

}  // namespace

std::string StarterLoads::names() const {
    std::string all;
    for (const StarterLoad& load : loads) all += (all.empty() ? "" : ", ") + load.name;
    return all;
}

std::optional<StarterLoads> starter_loads(const System& system, const std::vector<LaidRun>& runs,
                                          const Tables& tables) {
    if (!anything_there(system)) return {};
    Journey trip = make_journey(system, runs, tables, FedBy::starter);
    if (trip.consumers.empty()) return {};

    const StarterKeys& keys = system.complete.starter;
    const StarterUseRow& use = *find_starter_use(tables, *keys.alternator == Alternator::smart ? "smart" : "plain");
    StarterLoads found{};
    found.capacity_assumed = !keys.capacity;
    found.capacity = keys.capacity ? keys.capacity->value : use.capacity;
    found.least = use.least;
    found.allowed = (use.charged - use.least) * found.capacity;
    found.source = use.source;
    found.fridges = std::move(trip.fridges);
    const Stand stand = longest_stand(trip, system);
    found.from = stand.from;
    found.stand = stand.length;

    const int days =
        std::max(longest_autonomy_days, static_cast<int>(std::ceil((stand.from + stand.length) / whole_day)));
    const Journey standing = make_standing(system, runs, stand.from, days, tables, FedBy::starter);
    std::vector<Current> draws;
    for (const Consumer& consumer : standing.consumers) {
        draws.push_back(drawn_by(consumer, nominal_voltage));
        found.loads.push_back({consumer.name, Charge{}, consumer.essential});
    }
    found.saved_by_guards = std::all_of(standing.consumers.begin(), standing.consumers.end(),
                                        [&](const Consumer& consumer) { return saved(consumer, use.least, tables); });

    Charge all{};
    for (std::size_t i = 0; i < standing.intervals.size(); ++i) {
        const Interval& interval = standing.intervals[i];
        const Duration since = interval.from - stand.from;
        const Duration counted = std::clamp<Duration>(stand.length - since, Duration{}, interval.length);
        Current now{};
        for (std::size_t k = 0; k < draws.size(); ++k) {
            const Current mean = std::min(standing.needs_of(i)[k], Ratio{1.0}) * draws[k];
            found.loads[k].taken += mean * counted;
            now += mean;
        }
        found.taken += now * counted;
        if (!found.lasts && now > Current{} && all + now * interval.length >= found.allowed)
            found.lasts = since + (found.allowed - all) / now;
        all += now * interval.length;
    }
    return found;
}

}  // namespace voltwright
