#include "voltwright/planning/starter_loads.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/simulation/autonomy.hpp"
#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/simulation/operating_point.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

struct Stand {
    Duration from;  ///< clock
    Duration length;
};

/// The longest time of the trip without the engine. Where somebody drives every day, at least from the evening to the
/// next morning: a trip of one day ends at midnight, its vehicle does not.
Stand longest_stand(const Scenario& trip, const ScenarioInputs& inputs) {
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
    const Duration energy = night_length(inputs);
    if (inputs.usual_day().drives.empty() || !(energy > longest.length)) return longest;
    return {evening_of(inputs), energy};
}

/// Switches itself off before the battery, which reads less under load than at rest, is down to the limit.
bool saved(const Consumer& consumer, Ratio least, const Tables& tables) {
    const auto& guard = consumer.cut_offs[1];
    if (!guard) return false;
    const auto soc = soc_at_rest(tables, "flooded", guard->cut_off);
    return soc && *soc >= least;
}

}  // namespace

std::string StarterLoads::names() const {
    std::string all;
    for (const StarterLoad& load : loads) all += (all.empty() ? "" : ", ") + load.name;
    return all;
}

std::optional<StarterLoads> starter_loads(const System& system, const ScenarioInputs& inputs, const Tables& tables) {
    if (!inputs.any_fed_by(FedBy::starter)) return {};
    Scenario trip = trip_scenario(inputs, FedBy::starter);

    const StarterBattery& starter = system.starter;
    const StarterUseRow& use = *find_starter_use(tables, starter.alternator == Alternator::smart ? "smart" : "plain");
    StarterLoads found{};
    found.capacity_assumed = !starter.capacity;
    found.capacity = starter.capacity.value_or(use.capacity);
    found.least = use.least;
    found.allowed = (use.charged - use.least) * found.capacity;
    found.source = use.source;
    found.fridges = std::move(trip.fridges);
    const Stand stand = longest_stand(trip, inputs);
    found.from = stand.from;
    found.stand = stand.length;

    const int days =
        std::max(longest_autonomy_days, static_cast<int>(std::ceil((stand.from + stand.length) / hours(24))));
    const Scenario standing = parked_scenario(inputs, stand.from, days, FedBy::starter);
    std::vector<Current> draws;
    for (const Consumer& consumer : standing.consumers) {
        draws.push_back(drawn_by(consumer, nominal_voltage));
        found.loads.push_back({consumer.name, Charge{}, consumer.essential});
    }
    found.saved_by_guards = std::all_of(standing.consumers.begin(), standing.consumers.end(),
                                        [&](const Consumer& consumer) { return saved(consumer, use.least, tables); });

    Charge all{};
    std::vector<Duration> owed(draws.size());  // of running: what a fridge could not take out, it takes out later
    for (std::size_t i = 0; i < standing.intervals.size(); ++i) {
        const Interval& interval = standing.intervals[i];
        const Duration since = interval.from - stand.from;
        const Duration counted = std::clamp<Duration>(stand.length - since, Duration{}, interval.length);
        Current now{};
        for (std::size_t k = 0; k < draws.size(); ++k) {
            const Ratio wanted = standing.needs_of(i)[k] + owed[k] / interval.length;
            const Ratio runs = std::min<Ratio>(wanted, 1.0);
            if (standing.consumers[k].fridge) owed[k] = (wanted - runs) * interval.length;
            const Current mean = runs * draws[k];
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
