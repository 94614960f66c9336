#include "voltwright/planning/diagnose.hpp"
#include "cli/planned.hpp"
#include "voltwright/report/diagnose_text.hpp"

namespace voltwright::cli {

namespace {

int run(const Call& call) {
    const auto profile = open_profile(call);
    if (!profile) return unusable;
    const Plan plan = make_plan(profile->system, built_in_tables(), {.ladders = Ladder::needed});
    const Diagnosis diagnosis = diagnose(profile->system, plan);
    if (call.quiet()) return call.answer(diagnosis_line(diagnosis) + "\n");
    return call.answer(call.json() ? diagnosis_json(diagnosis) : diagnosis_page(diagnosis, call.style));
}

constexpr Argument arguments[] = {profile_argument};

}  // namespace

extern const Verb diagnose_verb;
constinit const Verb diagnose_verb = {
    .name = "diagnose",
    .group = Group::fit,
    .line = "what is wrong, from the readings in the profile",
    .arguments = arguments,
    .formats = text_or_json,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
