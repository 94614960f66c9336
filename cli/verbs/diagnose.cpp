#include "voltwright/diagnosis/diagnose.hpp"
#include "cli/load_and_plan.hpp"
#include "voltwright/messages/readings.hpp"
#include "voltwright/report/diagnose_text.hpp"

namespace voltwright::cli {

namespace {

int run_diagnose(const Call& call) {
    const auto all = planned(call, {.ladders = Ladder::needed});
    if (!all) return unusable;
    if (const auto refused = not_judged_readings(all->profile.system); !refused.empty())
        return refuse(call, locate(all->profile.document, refused_behind_relay(refused)));
    const Diagnosis diagnosis = diagnose(all->profile.system, all->plan);
    return call.answer({.line = [&] { return diagnosis_line(diagnosis); },
                        .page = [&] { return diagnosis_page(diagnosis, call.style); },
                        .json = [&] { return diagnosis_json(diagnosis); }});
}

constexpr Option diagnose_options[] = {prices_option};

}  // namespace

extern const Verb diagnose_verb;
constinit const Verb diagnose_verb = profile_verb(
    {"diagnose", Group::fit, "what is wrong, from the readings in the profile", diagnose_options}, run_diagnose);

}  // namespace voltwright::cli
