// Laws of the night, over several hundred trips drawn at random: frost, age, sun and cut-offs among them.

#include "drawn_nights.hpp"
#include "testing.hpp"
#include "voltwright/simulation/autonomy.hpp"

#include <algorithm>
#include <cmath>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

constexpr unsigned nights = 500;

/// The same with loads that draw next to nothing, at clock times of their own: they only split the intervals.
DrawnNight split(DrawnNight night, unsigned number) {
    Dice dice(number + 31);
    for (int i = 0; i < 24; ++i) {
        const int from = dice.whole(0, 23 * 60 + 40), to = from + dice.whole(1, 24 * 60 - from);
        night.more += DrawnNight::load("speck" + std::to_string(i),
                                       {1e-5, DrawnNight::clock(from), DrawnNight::clock(to), false});
    }
    return night;
}

double apart(Ratio a, Ratio b) { return std::abs(double(a) - double(b)); }

/// The largest difference in state of charge, at the lowest, and at the lowest and the end of any day.
double largest_difference(const TripResult& a, const TripResult& b) {
    double largest = apart(a.lowest, b.lowest);
    for (std::size_t day = 0; day < a.days.size(); ++day)
        largest =
            std::max({largest, apart(a.days[day].end, b.days[day].end), apart(a.days[day].lowest, b.days[day].lowest)});
    return largest;
}

bool anything_off(const TripResult& trip) {
    return std::any_of(trip.served.begin(), trip.served.end(),
                       [](const ConsumerResult& served) { return served.off > Duration{}; });
}

/// Something went off and ran again: its cut-off acted more than once, or it was off for a part of what was wanted.
bool anything_revived(const TripResult& trip) {
    return std::any_of(trip.served.begin(), trip.served.end(),
                       [](const ConsumerResult& served) { return served.cut_offs > 1 && served.off < hours(12); });
}

}  // namespace

TEST_CASE("splitting the day by loads of ten microwatts moves no state of charge by more than 0.1 points") {
    int off = 0, revived = 0, moved = 0;
    for (unsigned number = 0; number < nights; ++number) {
        CAPTURE(number);
        const DrawnNight night(number);
        const TripResult whole = night_simulated(night).trip, finer = night_simulated(split(night, number)).trip;
        off += anything_off(whole);
        revived += anything_revived(whole);
        moved += largest_difference(whole, finer) > 1e-3;
        // Where a cut-off and a flat battery come within a second of each other, either may be the first.
        if (moved > 1) CHECK(largest_difference(whole, finer) <= 1e-3);
    }
    CHECK(off > static_cast<int>(nights) / 5);
    CHECK(revived >= 5);
    CHECK(moved <= 1);
}

TEST_CASE("the ledger closes whatever goes off, freezes or ages") {
    for (unsigned number = 0; number < nights; ++number) {
        CAPTURE(number);
        const NightSimulated simulated = night_simulated(DrawnNight(number));
        const TripResult& trip = simulated.trip;
        const Charge rounding = 1e-9 * trip.ledger.throughput() + ampere_hours(1e-12);
        CHECK(abs(trip.ledger.open()) <= rounding);
        CHECK(trip.ledger.leaked >= Charge{});
        CHECK(trip.ledger.now >= -rounding);
        CHECK(trip.ledger.now <= simulated.scenario.battery.whole * (1.0 + 1e-9));
        Charge by_days{}, charged{}, by_loads{};
        for (const DayTotals& day : trip.days) {
            by_days += day.used;
            charged += day.charged;
        }
        for (const ConsumerResult& served : trip.served) by_loads += served.used;
        CHECK(abs(by_days - trip.ledger.used) <= rounding);
        CHECK(abs(charged - trip.ledger.from_charger - trip.ledger.from_sun) <= rounding);
        CHECK(abs(by_loads - trip.ledger.used) <= rounding);
    }
}

namespace {

/// Something that makes a night harder, and where that is the law.
struct Harder {
    const char* what;
    bool (*applies)(const DrawnNight&, const NightSimulated&);
    void (*change)(DrawnNight&);
};

bool ever_above(const NightSimulated& night, Temperature limit) {
    return std::any_of(night.scenario.intervals.begin(), night.scenario.intervals.end(),
                       [&](const Interval& interval) { return interval.battery > limit; });
}

const Harder harder[] = {
    {"a worse clearness", [](const DrawnNight& night, const NightSimulated&) { return night.panel > 0; },
     [](DrawnNight& night) { night.clearness = night.clearness * 6 / 10; }},
    {"two dull days", [](const DrawnNight& night, const NightSimulated&) { return night.panel > 0 && night.days > 3; },
     [](DrawnNight& night) {
         night.dull_days = {2, 3};
     }},
    {"three dull days",
     [](const DrawnNight& night, const NightSimulated&) { return night.panel > 0 && night.days > 3; },
     [](DrawnNight& night) {
         night.dull_days = {2, 3, 4};
     }},
    {"an older battery", [](const DrawnNight&, const NightSimulated&) { return true; },
     [](DrawnNight& night) { night.health -= 15; }},
    {"a weaker charger", [](const DrawnNight& night, const NightSimulated&) { return !night.drives.empty(); },
     [](DrawnNight& night) { night.output -= std::max(1, night.output / 4); }},
    {"a shorter drive", [](const DrawnNight& night, const NightSimulated&) { return night.drives.size() == 2; },
     [](DrawnNight& night) { night.drives.pop_back(); }},
    // A cold night spares a fridge that stands in it, and a cold panel gives more. Above 25 degC a charger that goes by the
    // battery's temperature holds less volts, and lithium may be too hot to charge.
    {"a colder night",
     [](const DrawnNight& night, const NightSimulated& simulated) {
         return night.panel == 0 && (night.fridge_watts == 0 || night.fridge_in_the_warm) &&
                !ever_above(simulated, celsius(25));
     },
     [](DrawnNight& night) { night.low -= 6; }},
};

/// A gentle charge loses less to gassing, and one that goes to float later is a little longer at absorption: by so little
/// a harder night may seem the easier.
Duration grace(Duration held) { return std::max<Duration>(minutes(3), 0.002 * held); }

}  // namespace

TEST_CASE("what makes a night harder never lengthens a trip that holds") {
    for (const Harder& one : harder) {
        CAPTURE(one.what);
        int tried = 0, shorter = 0;
        for (unsigned number = 0; number < nights; ++number) {
            CAPTURE(number);
            DrawnNight night(number);
            night.nothing_may_go_off();
            const NightSimulated before = night_simulated(night);
            if (!one.applies(night, before)) continue;
            one.change(night);
            const NightSimulated after = night_simulated(night);
            const Duration held = holds_for(before.trip), holds = holds_for(after.trip);
            CHECK(holds <= held + grace(held));
            // One that holds to its end then holds before too.
            if (after.trip.holds() && after.trip.lowest > after.trip.deepest_allowed + Ratio{0.005})
                CHECK(before.trip.holds());
            ++tried;
            shorter += holds < held - minutes(1);
        }
        // The law is tried where it matters.
        CHECK(tried >= 50);
        CHECK(shorter >= 5);
    }
}

TEST_CASE("trip and autonomy agree on the first hour of failure, or say which event each counts") {
    int same = 0, by_limit = 0, by_cut_off = 0, flat = 0;
    for (unsigned number = 0; number < nights; ++number) {
        CAPTURE(number);
        DrawnNight night(number);
        night.drives.clear();
        night.panel = 0;
        night.days = 6;
        // Down to its last, so that cut-offs and flat batteries end it too.
        if (number % 2 == 0) night.depth = 100;
        const System system = system_of_text(night.text());
        const ScenarioInputs inputs = scenario_inputs(system, laid_as_usual(system), built_in_tables());
        const TripResult trip = simulate(trip_scenario(inputs));
        const Ratio start{static_cast<double>(night.start) / 100.0};
        const Autonomy alone = autonomy(parked_scenario(inputs, Duration{}, 6), start, CutOffSetting::standard);
        const Duration fails = holds_for(trip);
        // What is flat for nobody's need but the others' ends the hours, and not the trip.
        if (alone.ended_by == EndedBy::depleted)
            CHECK(fails >= alone.lasts - seconds(1));
        else
            CHECK(fails == near(alone.lasts, seconds(1)));
        const auto first = trip.first_failure();
        CHECK(first.has_value() == !trip.holds());
        if (first && alone.ended_by != EndedBy::depleted) {
            CHECK(first->by == alone.ended_by);
            CHECK(first->name == alone.ended_name);
            CHECK(since_the_start(first->at) == near(alone.lasts, seconds(1)));
        }
        same += fails == near(alone.lasts, seconds(1));
        by_limit += alone.ended_by == EndedBy::depth_limit;
        by_cut_off += alone.ended_by == EndedBy::cut_off;
        flat += alone.ended_by == EndedBy::depleted;
    }
    CHECK(same > static_cast<int>(nights) * 4 / 5);
    CHECK(by_limit > static_cast<int>(nights) / 5);
    CHECK(by_cut_off > static_cast<int>(nights) / 25);
    CHECK(flat > static_cast<int>(nights) / 25);
}
