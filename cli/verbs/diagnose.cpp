#include "voltwright/planning/diagnose.hpp"
#include "cli/planned.hpp"
#include "voltwright/report/diagnose_text.hpp"

namespace voltwright::cli {

namespace {

int run(const Call& call) {
    const auto all = planned(call, {.ladders = Ladder::needed});
    if (!all) return unusable;
    const Diagnosis diagnosis = diagnose(all->profile.system, all->plan);
    if (call.quiet()) return call.answer(diagnosis_line(diagnosis) + "\n");
    return call.answer(call.json() ? diagnosis_json(diagnosis) : diagnosis_page(diagnosis, call.style));
}

constexpr Argument arguments[] = {profile_argument};
constexpr Option options[] = {prices_option};

}  // namespace

extern const Verb diagnose_verb;
constinit const Verb diagnose_verb = {
    .name = "diagnose",
    .group = Group::fit,
    .line = "what is wrong, from the readings in the profile",
    .arguments = arguments,
    .options = options,
    .formats = text_or_json,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
