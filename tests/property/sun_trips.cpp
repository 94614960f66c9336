// Laws of trips on the sun, over vehicles, places and seasons drawn at random.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/planning/energy_plan.hpp"

#include <algorithm>
#include <cmath>
#include <random>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

constexpr int vehicles = 150;

/// A vehicle with a panel and its trip, drawn from a seed.
struct SunVehicle {
    explicit SunVehicle(int number) : draw_(static_cast<unsigned>(number) + 4711) {
        chemistry = pick({"flooded", "agm", "gel", "lfp"});
        capacity = whole(40, 220);
        days = whole(1, 12);
        low = whole(4, 20);
        high = low + whole(2, 14);
        latitude = whole(-55, 66);
        month = whole(1, 12);
        panel = whole(4, 40) * 10;
        clearness = whole(30, 95);
        dull_days = whole(0, 4);
        drives = whole(0, 2) == 0;
        a_day = whole(8, 30);
        load_watts = whole(2, 40);
        start = whole(60, 100);
    }

    std::string chemistry;
    int capacity, days, low, high, latitude, month, panel, clearness, dull_days, a_day, load_watts, start;
    bool drives;

    [[nodiscard]] std::string text() const {
        const std::string of_month = (month < 10 ? "0" : "") + std::to_string(month);
        return "[trip]\ndays = " + std::to_string(days) + "\nlow = \"" + std::to_string(low) + " degC\"\nhigh = \"" +
               std::to_string(high) + " degC\"\nstart = 2026-" + of_month + "-11\nlatitude = \"" +
               std::to_string(latitude) + " deg\"\nclearness = \"" + std::to_string(clearness) +
               " %\"\ndull_days = " + std::to_string(dull_days) + (drives ? "\ndrives = \"09:00-10:00\"" : "") +
               "\n[battery]\nchemistry = \"" + chemistry + "\"\ncapacity = \"" + std::to_string(capacity) +
               " Ah\"\nstart_soc = \"" + std::to_string(start) +
               " %\"\n[charger]\noutput = \"20 A\"\n[solar]\npanel = \"" + std::to_string(panel) +
               " W\"\n[[run]]\nto = \"charger\"\nlength = \"5 m\"\n[[fridge]]\ndraw = \"50 W\"\nrated = [{ around = "
               "\"25 degC\", a_day = \"" +
               std::to_string(a_day) +
               " Ah\" }]\ncut_out = \"10.4 V\"\ncut_in = \"11.7 V\"\n[[load]]\nname = \"lamp\"\ndraw = \"" +
               std::to_string(load_watts) + " W\"\nhours = \"18:00-23:00\"\nessential = true\n";
    }

private:
    int whole(int from, int to) { return from + static_cast<int>(draw_() % static_cast<unsigned>(to - from + 1)); }
    std::string pick(std::initializer_list<const char*> words) {
        return *(words.begin() + static_cast<std::ptrdiff_t>(draw_() % words.size()));
    }

    std::mt19937 draw_;
};

/// Each run with a resistance of its kind: the sizing has tests of its own.
EnergyPlan night_of(const SunVehicle& vehicle) {
    const System system = system_of_text(vehicle.text());
    std::vector<LaidRun> runs;
    for (const SystemRun& run : system.runs) {
        const double each = run.role == RunRole::feed ? 18.0 : run.role == RunRole::output ? 4.0 : 30.0;
        runs.push_back({run.from, run.to, milliohms(each)});
    }
    return plan_energy(system, runs, built_in_tables());
}

bool undisturbed(const TripResult& trip) {
    return std::none_of(trip.served.begin(), trip.served.end(),
                        [](const ConsumerResult& served) { return served.off > Duration{}; });
}

/// Under the worse sky the trip neither holds where it did not, nor goes less low. Float that begins a little earlier leaves
/// a battery a trace emptier: a tenth of a point.
void no_better(const EnergyPlan& worse_sky, const EnergyPlan& better) {
    if (worse_sky.trip.holds()) CHECK(better.trip.holds());
    if (undisturbed(worse_sky.trip) && undisturbed(better.trip))
        CHECK(in_percent(worse_sky.trip.lowest) <= in_percent(better.trip.lowest) + 0.1);
}

}  // namespace

TEST_CASE("a worse clearness never lengthens a trip that holds") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const SunVehicle vehicle(number);
        CAPTURE(vehicle.text());
        const EnergyPlan better = night_of(vehicle);
        for (const double share : {0.9, 0.5}) {
            SunVehicle duller = vehicle;
            duller.clearness = static_cast<int>(vehicle.clearness * share);
            no_better(night_of(duller), better);
        }
    }
}

TEST_CASE("a longer run of dull days never lengthens a trip that holds, and none is better than the usual sun") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        SunVehicle vehicle(number);
        CAPTURE(vehicle.text());
        vehicle.dull_days = 0;
        EnergyPlan before = night_of(vehicle);
        CHECK_FALSE(before.dull);
        for (const int count : {1, 3, 6}) {
            vehicle.dull_days = count;
            EnergyPlan now = night_of(vehicle);
            if (now.dull) {
                CHECK(now.dull->run.count == std::min(count, vehicle.days));
                CHECK(now.dull->run.first >= 1);
                CHECK(now.dull->run.last() <= vehicle.days);
                if (undisturbed(now.trip))
                    CHECK(in_percent(now.trip.lowest) <= in_percent(now.dull->usual.lowest) + 0.1);
            }
            no_better(now, before);
            before = std::move(now);
        }
    }
}

TEST_CASE("a larger panel never shortens a trip on dull days") {
    for (int number = 0; number < vehicles; number += 2) {
        CAPTURE(number);
        SunVehicle vehicle(number);
        CAPTURE(vehicle.text());
        const EnergyPlan small = night_of(vehicle);
        vehicle.panel *= 2;
        no_better(small, night_of(vehicle));
    }
}
