// Laws of fridges on trips, over vehicles drawn at random: what a weaker compressor, a colder setting, a lid and warm things do to
// the battery.

#include "dice.hpp"
#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/units/literals.hpp"

#include <algorithm>
#include <string>

using namespace voltwright;
using namespace voltwright::literals;
using namespace voltwright::testing;

namespace {

constexpr int vehicles = 120;

/// A vehicle with a fridge, as a profile says it.
struct Traveller {
    explicit Traveller(int number) {
        Dice dice(static_cast<unsigned>(number) + 4711);
        chemistry = dice.one_of<std::string>({"flooded", "agm", "gel", "lfp"});
        place = dice.one_of<std::string>({"canopy", "closed vehicle", "25 degC", "cabin"});
        capacity = dice.whole(80, 300);
        days = dice.whole(2, 6);
        low = dice.whole(8, 24);
        high = low + dice.whole(4, 16);
        drive_hours = dice.whole(0, 3);
        a_day = dice.whole(10, 40);
        draw = dice.whole(30, 70);
    }

    std::string chemistry, place;
    int capacity, days, low, high, drive_hours, a_day, draw;
    std::string keys = {};

    [[nodiscard]] std::string text() const {
        std::string all = "[trip]\ndays = " + std::to_string(days) + "\nlow = \"" + std::to_string(low) +
                          " degC\"\nhigh = \"" + std::to_string(high) + " degC\"\n";
        if (drive_hours > 0) all += "drives = \"08:00-" + std::to_string(8 + drive_hours + 2) + ":00\"\n";
        return all + "[battery]\nchemistry = \"" + chemistry + "\"\ncapacity = \"" + std::to_string(capacity) +
               " Ah\"\nwhere = \"25 degC\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = \"charger\"\nlength = \"5 m\"\n"
               "[[fridge]]\ndraw = \"" +
               std::to_string(draw) + " W\"\nwhere = \"" + place + "\"\nrated = [{ around = \"25 degC\", a_day = \"" +
               std::to_string(a_day) + " Ah\" }]\n" + keys;
    }
};

Plan plan_of(const Traveller& traveller) { return make_plan(system_of_text(traveller.text())); }

bool undisturbed(const TripResult& trip) {
    return std::all_of(trip.served.begin(), trip.served.end(),
                       [](const ConsumerResult& one) { return !(one.off > Duration{}); });
}

/// What a fridge took and what it owes at the end, at a voltage that a battery has on the whole.
Charge needed(const TripResult& trip) { return trip.served.front().used + trip.served.front().owed / volts(13.0); }

}  // namespace

TEST_CASE("a weaker compressor never spares the battery: it takes as much, or its trip does not hold") {
    int weaker_holds = 0, fails = 0;
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Traveller traveller(number);
        const Plan strong = plan_of(traveller);
        traveller.draw -= traveller.draw / 4;
        CAPTURE(traveller.text());
        const Plan weak = plan_of(traveller);
        if (!undisturbed(strong.energy.trip) || !undisturbed(weak.energy.trip)) continue;
        // Amperes differ a little with the volts at which they are drawn, and by what the cable loses.
        CHECK(needed(weak.energy.trip) >= 0.97 * needed(strong.energy.trip));
        if (weak.energy.holds()) {
            ++weaker_holds;
            CHECK(weak.energy.trip.served.front().used >= 0.97 * strong.energy.trip.served.front().used);
            CHECK(strong.energy.holds());
        } else {
            ++fails;
        }
    }
    CHECK(weaker_holds > vehicles / 10);
    CHECK(fails > 0);
}

TEST_CASE("a colder fridge, a colder second zone, a lid and warm things each take no less") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Traveller traveller(number);
        const TripResult plain = plan_of(traveller).energy.trip;
        if (!undisturbed(plain)) continue;
        for (const char* keys :
             {"inside = \"2 degC\"\n", "freezer = \"-12 degC\"\n", "freezer = \"-12 degC\"\nfreezer_share = \"60 %\"\n",
              "opened = 40\n", "restock = [{ on = \"1\", at = \"09:00\", mass = \"8 kg\", from = \"24 degC\" }]\n"}) {
            CAPTURE(keys);
            Traveller other = traveller;
            other.keys = keys;
            const TripResult more = plan_of(other).energy.trip;
            if (!undisturbed(more)) continue;
            CHECK(needed(more) > needed(plain));
        }
    }
}

TEST_CASE("ampere-hours counted at a higher voltage never last longer") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        Traveller low(number), high(number);
        low.keys = "counted_at = \"12 V\"\n";
        high.keys = "counted_at = \"13 V\"\n";
        CHECK(plan_of(high).energy.autonomy.lasts <= plan_of(low).energy.autonomy.lasts + seconds(1));
    }
}
