#include "cli/planned.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/wire_text.hpp"
#include "voltwright/units/parse.hpp"

#include <algorithm>

namespace voltwright::cli {

namespace {

int run(const Call& call) {
    const auto plan = plan_of(call);
    if (!plan) return unusable;
    const std::string name = call.text("--run");
    std::vector<std::string_view> names;
    for (const RunPlan& one : plan->runs) names.push_back(*one.task.run.name);
    if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end()) {
        const auto near = nearest_word(name, names);
        return call.complain("there is no run '" + name + "'" +
                             (near ? "; did you mean '" + std::string(*near) + "'?" : ""));
    }
    return call.answer(call.json() ? wire_json(*plan, name) : wire_page(*plan, name, call.style));
}

constexpr Argument arguments[] = {profile_argument};
constexpr Option options[] = {prices_option,
                              {.name = "--run", .takes = Takes::text, .value = "NAME", .help = "this run alone"}};

}  // namespace

extern const Verb wire_verb;
constinit const Verb wire_verb = {
    .name = "wire",
    .group = Group::plan,
    .line = "every size that could be taken for a run, and what each fails",
    .arguments = arguments,
    .options = options,
    .formats = text_or_json,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
