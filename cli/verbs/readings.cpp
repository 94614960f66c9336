#include "voltwright/planning/readings.hpp"
#include "cli/planned.hpp"
#include "voltwright/report/readings_text.hpp"

namespace voltwright::cli {

namespace {

int run(const Call& call) {
    const auto all = planned(call, {.ladders = Ladder::needed});
    if (!all) return unusable;
    const TestPlan readings = test_plan(all->profile.system, all->plan);
    if (call.quiet()) return call.answer(readings_line(readings) + "\n");
    return call.answer(call.json() ? readings_json(readings) : readings_page(readings, call.style));
}

constexpr Argument arguments[] = {profile_argument};
constexpr Option options[] = {prices_option};

}  // namespace

extern const Verb readings_verb;
constinit const Verb readings_verb = {
    .name = "readings",
    .group = Group::fit,
    .line = "what the meter should show, from the first check to the last load",
    .arguments = arguments,
    .options = options,
    .formats = text_or_json,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
