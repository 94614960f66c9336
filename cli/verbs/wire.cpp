#include "cli/load_and_plan.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/wire_text.hpp"

#include <algorithm>

namespace voltwright::cli {

namespace {

int run_wire(const Call& call) {
    const auto plan = plan_of(call);
    if (!plan) return unusable;
    const std::string name = call.text("--run");
    std::vector<std::string_view> names;
    for (const RunPlan& one : plan->runs) names.push_back(*one.task.run.name);
    if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end())
        return call.complain("there is no run '" + name + "'" + did_you_mean(name, names, "'"));
    return call.answer(
        {.page = [&] { return wire_page(*plan, name, call.style); }, .json = [&] { return wire_json(*plan, name); }});
}

constexpr Option wire_options[] = {prices_option,
                                   {.name = "--run", .takes = Takes::text, .value = "NAME", .help = "this run alone"}};

}  // namespace

extern const Verb wire_verb;
constinit const Verb wire_verb = profile_verb(
    {"wire", Group::plan, "every size that could be taken for a run_wire, and what each fails", wire_options},
    run_wire);

}  // namespace voltwright::cli
