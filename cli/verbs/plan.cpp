#include "cli/load_and_plan.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/words.hpp"

namespace voltwright::cli {

namespace {

int run_plan(const Call& call) {
    const auto plan = plan_of(call, {.ladders = call.json() ? Ladder::whole : Ladder::needed});
    if (!plan) return unusable;
    return call.answer({.line = [&] { return verdict_line(*plan); },
                        .page = [&] { return plan_page(*plan, call.style); },
                        .json = [&] { return plan_json(*plan); }},
                       plan->holds() ? holds : fails);
}

constexpr Option plan_options[] = {prices_option};

}  // namespace

extern const Verb plan_verb;
constinit const Verb plan_verb = profile_verb(
    {"plan", Group::plan, "the main job: cables, fuses, the night, the trip, findings, verdict", plan_options},
    run_plan);

}  // namespace voltwright::cli
