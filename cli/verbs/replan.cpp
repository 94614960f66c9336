#include "voltwright/planning/replan.hpp"
#include "cli/load_profile.hpp"
#include "voltwright/files/system_with.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/replan_text.hpp"

namespace voltwright::cli {

namespace {

int run_replan(const Call& call) {
    const std::string path = call.text("PROFILE");
    const std::string other = call.text("OTHER", path);
    if (path == "-" && other == "-" && call.given("OTHER"))
        return call.complain("standard input can be one of the two profiles, not both");
    if (call.all("--set").empty() && other == path)
        return call.complain("say what changes: --set trip.days=12, or another profile");
    // Standard input can be read once only.
    const auto document = open_document(call, path);
    if (!document) return unusable;
    const auto before = open_profile(call, *document, {});
    if (!before) return unusable;
    auto changed = other == path ? document : open_document(call, other);
    if (!changed) return unusable;
    const auto after = open_profile(call, *std::move(changed), call.all("--set"));
    if (!after) return unusable;
    const PlanDetail detail{.ladders = call.json() ? Ladder::whole : Ladder::needed};
    const auto plan = [&](const OpenProfile& profile) {
        Plan made = make_plan(profile.system, built_in_tables(), detail);
        try_remedies(made, system_with(profile));
        return made;
    };
    const Replan replan = compare(plan(*before), plan(*after));
    return call.answer({.line = [&] { return replan_line(replan); },
                        .page = [&] { return replan_page(replan, call.style); },
                        .json = [&] { return replan_json(replan); }},
                       replan.after.holds() ? holds : fails);
}

constexpr Argument replan_arguments[] = {
    profile_argument, {"OTHER", "another profile to compare with; --set then changes this one", false}};

}  // namespace

extern const Verb replan_verb;
constinit const Verb replan_verb =
    profile_verb({.name = "replan",
                  .group = Group::change,
                  .line = "before and after a change: what becomes another, and why the verdict turns",
                  .arguments = replan_arguments},
                 run_replan);

}  // namespace voltwright::cli
