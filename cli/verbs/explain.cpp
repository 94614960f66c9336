#include "cli/load_and_plan.hpp"
#include "voltwright/report/explain_json.hpp"
#include "voltwright/report/explain_text.hpp"

namespace voltwright::cli {

namespace {

int run_explain(const Call& call) {
    const auto plan = plan_of(call);
    if (!plan) return unusable;
    const std::string about = call.text("ABOUT");
    if (about.empty())
        return call.answer(
            {.page = [&] { return topics_page(*plan, call.style); }, .json = [&] { return topics_json(*plan); }});
    const auto explanation = explain_topic(*plan, about);
    if (!explanation) {
        const std::vector<Topic> known = topics(*plan);
        std::vector<std::string_view> names;
        for (const Topic& topic : known) names.push_back(topic.name);
        const std::string near = did_you_mean(about, names, "'");
        return call.complain("the plan has no '" + about + "' to explain" + (near.empty() ? "." : near) +
                             " Without ABOUT, explain lists what there is.");
    }
    return call.answer({.page = [&] { return explanation_page(*explanation, call.style); },
                        .json = [&] { return explanation_json(*explanation); }});
}

constexpr Argument explain_arguments[] = {
    profile_argument, {"ABOUT", "a number of the plan, such as feed.drop; without it, a list of them", false}};

}  // namespace

extern const Verb explain_verb;
constinit const Verb explain_verb =
    profile_verb({.name = "explain",
                  .group = Group::look,
                  .line = "a number of the plan with its formula, its inputs and their sources",
                  .arguments = explain_arguments},
                 run_explain);

}  // namespace voltwright::cli
