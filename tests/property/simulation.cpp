// Laws of the simulation, over several hundred vehicles drawn at random.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/simulation/autonomy.hpp"
#include "voltwright/simulation/simulate.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <random>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

constexpr int vehicles = 300;

/// A vehicle and a trip: what a profile would say. Drawn from a seed, so that each is the same every time.
struct Vehicle {
    explicit Vehicle(int number) : draw_(static_cast<unsigned>(number) + 17) {
        chemistry = pick({"flooded", "agm", "gel", "lfp"});
        capacity = whole(40, 300);
        days = whole(1, 8);
        low = whole(20, 26);
        high = low + whole(2, 16);
        output = whole(8, 50);
        drive_from = whole(5, 12);
        drive_minutes = whole(0, 4) * 30;
        fridge_watts = whole(35, 70);
        a_day = whole(10, 45);
        load_watts = whole(2, 60);
        load_from = whole(0, 23);
        load_to = (load_from + whole(1, 20)) % 24;
        start = whole(30, 100);
        feed = whole(2, 9);
        limited = whole(0, 1) == 1;
    }

    std::string chemistry;
    int capacity, days, low, high, output, drive_from, drive_minutes, fridge_watts, a_day, load_watts, load_from,
        load_to, start, feed;
    bool limited;
    std::string more = {};

    [[nodiscard]] std::string text() const {
        const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
        const int end = drive_from * 60 + drive_minutes;
        std::string all = "[trip]\ndays = " + std::to_string(days) + "\nlow = \"" + std::to_string(low) +
                          " degC\"\nhigh = \"" + std::to_string(high) + " degC\"\n";
        if (drive_minutes > 0)
            all += "drives = \"" + two(drive_from) + ":00-" + two(end / 60) + ":" + two(end % 60) + "\"\n";
        all += "[battery]\nchemistry = \"" + chemistry + "\"\ncapacity = \"" + std::to_string(capacity) +
               " Ah\"\nstart_soc = \"" + std::to_string(start) + " %\"\n[charger]\noutput = \"" +
               std::to_string(output) + " A\"\n";
        if (limited) all += "input_limit = \"" + std::to_string(output) + " A\"\n";
        all += "[[run]]\nto = \"charger\"\nlength = \"" + std::to_string(feed) + " m\"\n" + more;
        all += "[[fridge]]\ndraw = \"" + std::to_string(fridge_watts) +
               " W\"\nrated = [{ around = \"25 degC\", a_day = \"" + std::to_string(a_day) + " Ah\" }]\n";
        if (load_from != load_to)
            all += "[[load]]\nname = \"lamp\"\ndraw = \"" + std::to_string(load_watts) + " W\"\nhours = \"" +
                   two(load_from) + ":00-" + two(load_to) + ":00\"\n";
        return all;
    }

private:
    int whole(int from, int to) { return from + static_cast<int>(draw_() % static_cast<unsigned>(to - from + 1)); }
    std::string pick(std::initializer_list<const char*> words) {
        return *(words.begin() + static_cast<std::ptrdiff_t>(draw_() % words.size()));
    }

    std::mt19937 draw_;
};

/// Each run with a resistance of its kind: the sizing has tests of its own, and takes longer than all of these.
std::vector<LaidRun> laid(const System& system, double thickness = 1.0) {
    std::vector<LaidRun> runs;
    for (const SystemRun& run : system.runs) {
        const double milliohms_each = run.role == RunRole::feed ? 18.0 : run.role == RunRole::output ? 4.0 : 45.0;
        runs.push_back({run.from, run.to, milliohms(milliohms_each / thickness)});
    }
    return runs;
}

struct Simulated {
    System system;
    Scenario scenario;
    TripResult trip;
};

Simulated simulated(const Vehicle& vehicle, double thickness = 1.0) {
    System system = system_of_text(vehicle.text());
    Scenario scenario = trip_scenario(scenario_inputs(system, laid(system, thickness), built_in_tables()));
    TripResult trip = simulate(scenario);
    return {std::move(system), std::move(scenario), std::move(trip)};
}

Duration lasts(const Vehicle& vehicle) {
    const System system = system_of_text(vehicle.text());
    const ScenarioInputs inputs = scenario_inputs(system, laid(system), built_in_tables());
    const Scenario parked = parked_scenario(inputs, hours(18), longest_autonomy_days);
    return autonomy(parked, Ratio{1.0}, CutOffSetting::standard).lasts;
}

/// Drops cut-outs and the depth limit from the comparison where a law is about the battery alone.
bool undisturbed(const TripResult& trip) {
    for (const ConsumerResult& served : trip.served)
        if (served.off > Duration{}) return false;
    return true;
}

}  // namespace

TEST_CASE("the ledger closes, and nothing is below empty, above full or no number") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const auto [system, scenario, trip] = simulated(Vehicle(number));
        CHECK(abs(trip.ledger.open()) <= 1e-9 * trip.ledger.throughput() + ampere_hours(1e-12));
        CHECK(trip.lasted == near(hours(24.0 * static_cast<double>(trip.days.size())), seconds(0.01)));
        CHECK(trip.lowest >= Ratio{0.0});
        CHECK(trip.end <= Ratio{1.0});
        CHECK(trip.ledger.now >= ampere_hours(-1e-12));
        CHECK(trip.ledger.now <= scenario.battery.whole * (1.0 + 1e-9));
        CHECK(std::isfinite(double(trip.end)));
        Charge used{};
        for (const ConsumerResult& served : trip.served) {
            CHECK(served.used >= Charge{});
            CHECK(std::isfinite(in_ampere_hours(served.used)));
            used += served.used;
        }
        CHECK(abs(used - trip.ledger.used) <= 1e-9 * trip.ledger.throughput() + ampere_hours(1e-12));
        CHECK(trip.ledger.gassed >= -1e-9 * trip.ledger.throughput());
    }
}

TEST_CASE("the ledger closes at every interval's end") {
    for (int number = 0; number < vehicles; number += 15) {
        CAPTURE(number);
        const System system = system_of_text(Vehicle(number).text());
        const Scenario scenario = trip_scenario(scenario_inputs(system, laid(system), built_in_tables()));
        for (std::size_t i = 1; i < scenario.intervals.size(); i += 3) {
            SimulationOptions options;
            options.until = scenario.intervals[i].from;
            const Ledger ledger = simulate(scenario, options).ledger;
            CHECK(abs(ledger.open()) <= 1e-9 * ledger.throughput() + ampere_hours(1e-12));
        }
    }
}

TEST_CASE("a larger battery never runs shorter") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Vehicle vehicle(number);
        const Duration before = lasts(vehicle);
        vehicle.capacity += vehicle.capacity / 4;
        CHECK(lasts(vehicle) >= before - seconds(1));
    }
}

// From 20 degC up: in the cold a warmer day gives a battery back what the cold had taken.
TEST_CASE("a hotter day never lets it run longer") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Vehicle vehicle(number);
        const Duration before = lasts(vehicle);
        vehicle.high += 5;
        // A degree changes the time of the day at which it ends, and so which loads are on then: a minute's grace.
        CHECK(lasts(vehicle) <= before + minutes(1));
    }
}

TEST_CASE("more copper never charges less") {
    int limited = 0, more = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        const auto thin = simulated(vehicle, 0.7), thick = simulated(vehicle, 2.0);
        CHECK(thick.scenario.charger.output >= thin.scenario.charger.output);
        limited += vehicle.limited;
        more += thick.scenario.charger.output > thin.scenario.charger.output;
        if (!undisturbed(thin.trip) || !undisturbed(thick.trip)) continue;
        CHECK(thick.trip.end >= thin.trip.end - Ratio{1e-4});
    }
    // A charger at its input limit, or one that cycles, gives less behind a thin feed.
    CHECK(more >= limited / 2);
}

TEST_CASE("a longer drive never ends the trip with less") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Vehicle vehicle(number);
        const auto before = simulated(vehicle);
        vehicle.drive_minutes += 60;
        const auto after = simulated(vehicle);
        if (!undisturbed(before.trip) || !undisturbed(after.trip)) continue;
        CHECK(after.trip.end >= before.trip.end - Ratio{1e-4});
    }
}

TEST_CASE("halving every step moves the state of charge by less than 0.1 %") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const auto [system, scenario, trip] = simulated(Vehicle(number));
        const TripResult finer = simulate(halved(scenario));
        CHECK(finer.end == near(trip.end, Ratio{1e-3}));
        CHECK(finer.lowest == near(trip.lowest, Ratio{1e-3}));
    }
}

TEST_CASE("two hundred states: more load never leaves more, and splitting an hour changes nothing") {
    for (const char* chemistry : {"flooded", "agm", "gel", "lfp"})
        for (const double soc : {0.2, 0.4, 0.55, 0.7, 0.85, 0.95, 1.0})
            for (const double watts_drawn : {0.0, 5.0, 40.0, 150.0})
                for (const double charger : {0.0, 10.0, 40.0}) {
                    CAPTURE(chemistry);
                    CAPTURE(soc);
                    CAPTURE(watts_drawn);
                    CAPTURE(charger);
                    const auto after = [&](double power, int parts) {
                        Consumer load{"load", watts(power), milliohms(30), false, false, {}};
                        Scenario scenario = lone_scenario(usual_battery(chemistry, ampere_hours(100)), {load});
                        scenario.start_soc = Ratio{soc};
                        for (int i = 0; i < parts; ++i)
                            add_interval(scenario, hours(1.0) / static_cast<double>(parts), {1.0}, amperes(charger));
                        return simulate(scenario);
                    };
                    const TripResult once = after(watts_drawn, 1);
                    CHECK(after(watts_drawn, 7).end == near(once.end, Ratio{2e-4}));
                    CHECK(after(watts_drawn + 20.0, 1).end <= once.end + Ratio{1e-9});
                    CHECK(abs(once.ledger.open()) <= 1e-9 * once.ledger.throughput() + ampere_hours(1e-12));
                }
}

namespace {

/// State of charge at the depth limit then; where an interval begins, that of the one before it as well.
Ratio limit_at(const Scenario& scenario, Duration then) {
    Ratio least = 1.0;
    for (const Interval& interval : scenario.intervals)
        if (then > interval.from - seconds(1) && then < interval.from + interval.length + seconds(1))
            least = std::min<Ratio>(least, 1.0 - scenario.depth_limit * (1.0 - interval.derating));
    return least;
}

}  // namespace

TEST_CASE("on its own a battery never goes below its limit, and lasts no shorter from a higher state of charge") {
    int ended_at_limit = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        std::mt19937 draw(static_cast<unsigned>(number) + 911);
        const Vehicle vehicle(number);
        const System system = system_of_text(vehicle.text());
        const Duration begin = minutes(static_cast<double>(draw() % (24 * 60)));
        Scenario parked =
            parked_scenario(scenario_inputs(system, laid(system), built_in_tables()), begin, longest_autonomy_days);
        if (number % 3 == 0) parked.depth_limit = Ratio{static_cast<double>(draw() % 80 + 20) / 100.0};
        const double limit = 1.0 - in_ratio(parked.depth_limit);
        // Close above the limit, at the levels at which a battery is described, and anywhere.
        std::vector<double> froms = {limit,       limit + 1e-6, limit + 1e-3, limit + 0.01, limit + 0.05,
                                     limit + 0.1, 0.35,         0.5,          0.63,         1.0};
        for (int i = 0; i < 6; ++i) froms.push_back(static_cast<double>(draw() % 100 + 1) / 100.0);
        std::erase_if(froms, [&](double from) { return from < limit || !(from > 0.0) || from > 1.0; });
        std::sort(froms.begin(), froms.end());
        Duration before{};
        for (const double from : froms) {
            CAPTURE(from);
            const Autonomy found = autonomy(parked, Ratio{from}, CutOffSetting::standard);
            const Duration then = begin + found.lasts;
            // The cold may lift the limit above what was there to begin with.
            if (found.lasts > Duration{}) CHECK(found.end >= limit_at(parked, then) - Ratio{1e-6});
            CHECK(found.end >= Ratio{limit - 1e-6});
            CHECK(found.lasts >= before - seconds(0.1));
            before = found.lasts;
            ended_at_limit += found.ended_by == EndedBy::depth_limit;
        }
    }
    CHECK(ended_at_limit > vehicles);
}
