#include "cli/planned.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/words.hpp"

namespace voltwright::cli {

namespace {

int run(const Call& call) {
    const auto plan = plan_of(call, {.ladders = call.json() ? Ladder::whole : Ladder::needed});
    if (!plan) return unusable;
    const int code = plan->holds() ? holds : fails;
    if (call.quiet()) return call.answer(verdict_line(*plan) + "\n", code);
    return call.answer(call.json() ? plan_json(*plan) : plan_page(*plan, call.style), code);
}

constexpr Argument arguments[] = {profile_argument};
constexpr Option options[] = {prices_option};

}  // namespace

extern const Verb plan_verb;
constinit const Verb plan_verb = {
    .name = "plan",
    .group = Group::plan,
    .line = "the main job: cables, fuses, the night, the trip, findings, verdict",
    .arguments = arguments,
    .options = options,
    .formats = text_or_json,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
