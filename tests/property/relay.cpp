// Laws of two batteries joined by a relay, over vehicles drawn at random.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/simulation/simulate.hpp"
#include "voltwright/units/literals.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <random>

using namespace voltwright;
using namespace voltwright::literals;
using namespace voltwright::testing;

namespace {

constexpr int vehicles = 60;

struct Vehicle {
    explicit Vehicle(int number) : draw_(static_cast<unsigned>(number) + 4711) {
        chemistry = pick({"flooded", "agm", "gel", "lfp"});
        capacity = whole(50, 250);
        feed = whole(1, 9);
        output = whole(5, 25);
        running = whole(138, 146);
        spare = whole(0, 2) == 0 ? whole(20, 90) : 0;
        ignition = whole(0, 3) == 0;
        inverter = whole(0, 3) == 0 ? whole(2, 10) * 100 : 0;
    }
    std::string chemistry;
    int capacity, feed, output, running, spare, inverter;
    bool ignition;

    /// `feed_more` and `output_more`: further lines of those runs.
    [[nodiscard]] std::string text(const std::string& feed_more = {}, const std::string& output_more = {}) const {
        std::string all = "[trip]\ndays = 2\nlow = \"12 degC\"\nhigh = \"28 degC\"\ndrives = \"09:00-10:30\"\n";
        all += "[starter]\nrunning = \"" + tenths(running) + " V\"\n";
        all += "lowest_running = \"13.0 V\"\n";
        if (spare > 0) all += "spare_current = \"" + std::to_string(spare) + " A\"\n";
        all += "[battery]\nchemistry = \"" + chemistry + "\"\ncapacity = \"" + std::to_string(capacity) + " Ah\"\n";
        all += "[charger]\nkind = \"relay\"\n";
        if (ignition) all += "wake = \"ignition\"\n";
        all += "[[run]]\nto = \"relay\"\nlength = \"" + std::to_string(feed) + " m\"\n" + feed_more;
        all += "[[run]]\nto = \"battery\"\nlength = \"" + tenths(output) + " m\"\n" + output_more;
        if (inverter > 0)
            all += "[inverter]\noutput = \"" + std::to_string(inverter) +
                   " W\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\n";
        all +=
            "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"20 Ah\" }]\n[[run]]\nto = "
            "\"fridge\"\nlength = \"3 m\"\n";
        return all;
    }

private:
    static std::string tenths(int tenth) { return std::to_string(tenth / 10) + "." + std::to_string(tenth % 10); }
    int whole(int from, int to) { return from + static_cast<int>(draw_() % static_cast<unsigned>(to - from + 1)); }
    std::string pick(std::initializer_list<const char*> words) {
        return *(words.begin() + static_cast<std::ptrdiff_t>(draw_() % words.size()));
    }
    std::mt19937 draw_;
};

const RunPlan& of_role(const Plan& plan, RunRole role) {
    return *std::find_if(plan.runs.begin(), plan.runs.end(),
                         [role](const RunPlan& run) { return run.task.role == role; });
}

std::string as_owned(const RunPlan& run) {
    const FuseFit& fuse = run.taken()->fuses.at(0);
    return "size = \"" + show(run.taken()->size) + "\"\nfuse = \"" + show(fuse.rating) + " " + fuse.family +
           "\"\nhave = \"cable, fuse\"\n";
}

std::vector<std::string> stops_of(const Plan& plan) {
    std::vector<std::string> codes;
    for (const Finding& finding : plan.findings)
        if (finding.stops()) codes.push_back(std::to_string(static_cast<int>(finding.code)) + show(finding.about));
    std::sort(codes.begin(), codes.end());
    return codes;
}

}  // namespace

TEST_CASE("what is chosen for a link carries what flows through it, and each cable the fuse of the other") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Plan plan = make_plan(system_of_text(Vehicle(number).text()));
        const RunPlan &feed = of_role(plan, RunRole::feed), &output = of_role(plan, RunRole::output);
        if (!feed.to_lay() || !output.to_lay()) continue;
        const Candidate &first = *feed.taken(), &second = *output.taken();
        // By hand through the cold link: the least that stands against the current, everything on.
        const LinkCurrent& worst = feed.link->worst;
        CHECK(worst.loop == near(first.cold_loop + second.cold_loop, milliohms(1e-6)));
        CHECK(feed.choice.design.current >= worst.current - 0.001_A);
        CHECK(output.choice.design.current >= worst.current - 0.001_A);
        for (const Candidate* one : {&first, &second}) {
            CHECK(one->ampacity->current >= worst.current);
            CHECK(one->fuses.at(0).rating >= worst.current);
            for (const Candidate* other : {&first, &second})
                CHECK(one->fuses.at(0).rating <= other->ampacity->current * 1.5);
        }
    }
}

TEST_CASE("a link judged again as there already, with what was chosen for it, has the same stops") {
    for (int number = 0; number < vehicles; ++number) {
        CAPTURE(number);
        const Vehicle vehicle(number);
        const Plan plan = make_plan(system_of_text(vehicle.text()));
        const RunPlan &feed = of_role(plan, RunRole::feed), &output = of_role(plan, RunRole::output);
        if (!feed.to_lay() || !output.to_lay()) continue;
        const Plan again = make_plan(system_of_text(vehicle.text(as_owned(feed), as_owned(output))));
        CHECK(stops_of(again) == stops_of(plan));
        CHECK(of_role(again, RunRole::feed).figures->current == near(feed.figures->current, 0.01_A));
    }
}

TEST_CASE("the ledger of a trip behind a relay closes, and halving its intervals changes nothing") {
    for (int number = 0; number < vehicles; number += 3) {
        CAPTURE(number);
        const System system = system_of_text(Vehicle(number).text());
        const Plan plan = make_plan(system);
        const Scenario trip = trip_scenario(scenario_inputs(system, laid_runs(plan.runs), built_in_tables()));
        const TripResult result = simulate(trip, {});
        CHECK(abs(result.ledger.open()) <= 1e-9 * result.ledger.throughput() + ampere_hours(1e-12));
        CHECK(simulate(halved(trip), {}).end == near(result.end, Ratio{0.001}));
        if (system.starter.spare_current)
            CHECK(result.ledger.from_charger <= *system.starter.spare_current * result.driven * (1.0 + 1e-9));
    }
}
