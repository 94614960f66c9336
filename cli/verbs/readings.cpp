#include "cli/load_and_plan.hpp"
#include "voltwright/diagnosis/test_plan.hpp"
#include "voltwright/report/readings_text.hpp"

namespace voltwright::cli {

namespace {

int run_readings(const Call& call) {
    const auto all = planned(call, {.ladders = Ladder::needed});
    if (!all) return unusable;
    const TestPlan readings = test_plan(all->profile.system, all->plan);
    return call.answer({.line = [&] { return readings_line(readings); },
                        .page = [&] { return readings_page(readings, call.style); },
                        .json = [&] { return readings_json(readings); }});
}

constexpr Option readings_options[] = {prices_option};

}  // namespace

extern const Verb readings_verb;
constinit const Verb readings_verb = profile_verb(
    {"readings", Group::fit, "what the meter should show, from the first check to the last load", readings_options},
    run_readings);

}  // namespace voltwright::cli
