#include "voltwright/report/plan_json.hpp"

#include "voltwright/planning/topics.hpp"
#include "voltwright/report/numbers.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <nlohmann/json.hpp>

#include <stdexcept>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

Json value_of(const Explanation& node) {
    struct {
        std::string_view key;
        Json operator()(std::monostate) const { return nullptr; }
        Json operator()(const Measure& measure) const {
            const auto number = number_for(key, measure);
            if (!number) throw std::logic_error("the key " + std::string(key) + " does not fit its quantity");
            return *number;
        }
        Json operator()(const std::string& text) const { return text; }
        Json operator()(int number) const { return number; }
        Json operator()(bool truth) const { return truth; }
    } of{node.json};
    return std::visit(of, node.value);
}

/// Every described value below that has a key goes into one object.
void gather(const Explanation& node, Json& object) {
    if (!node.json.empty()) object[std::string(node.json)] = value_of(node);
    for (const Explanation& part : node.parts) gather(part, object);
}

double number(std::string_view key, const Measure& measure) { return number_for(key, measure).value(); }

Json fuse_json(const FuseFit& fuse) {
    return {{"at", fuse.at},
            {"family", fuse.family},
            {"rating_A", number("rating_A", fuse.rating)},
            {"breaking_capacity_A", number("breaking_capacity_A", fuse.fault.breaking_capacity.value)},
            {"fault_A", number("fault_A", fuse.fault.expected.current)}};
}

Json candidate_json(const Candidate& candidate) {
    Json fails = Json::array();
    for (const Criterion criterion : candidate.fails) fails.push_back(show(criterion));
    Json object = {{"size", show(candidate.size)}, {"fits", candidate.fits()}, {"fails", fails}};
    object["drop_V"] = candidate.drop ? Json(number("drop_V", candidate.drop->drop)) : Json(nullptr);
    object["heat_W"] = candidate.drop ? Json(number("heat_W", candidate.drop->heat)) : Json(nullptr);
    return object;
}

/// The keys that are not numbers of a model, and those that some runs have no value for.
Json run_json(const RunPlan& run) {
    const SystemRun& task = run.task;
    Json object = {{"name", *task.run.name},
                   {"from", task.from},
                   {"to", task.to},
                   {"length_m", number("length_m", *task.run.length)}};
    for (const std::string_view key : {"size", "area_mm2", "return_size", "current_A", "design_current_A",
                                       "resistance_mohm", "drop_V", "drop_percent", "drop_limit_percent", "far_end_V",
                                       "far_end_lowest_V", "heat_W", "conductor_temperature_C", "ampacity_A"})
        object[std::string(key)] = nullptr;
    if (task.run.body)
        object["return_size"] = "body";
    else if (run.taken())
        object["return_size"] = show(task.run.return_size.value_or(run.taken()->size));
    object["decided_by"] = run.choice.owned        ? Json("owned")
                           : !run.taken()          ? Json(nullptr)
                           : run.choice.decided_by ? Json(show(*run.choice.decided_by))
                                                   : Json("thinnest of the shop");
    object["assumed"] = task.assumed;
    object["cable_drop_V"] = nullptr;
    gather(explain_run(run), object);
    object["fuses"] = Json::array();
    if (const Candidate* taken = run.taken())
        for (const FuseFit& fuse : taken->fuses) object["fuses"].push_back(fuse_json(fuse));
    object["candidates"] = Json::array();
    for (const Candidate& candidate : run.choice.ladder) object["candidates"].push_back(candidate_json(candidate));
    return object;
}

/// "7.2 A" as the number with its unit beside it, since a finding may compare anything.
Json measure_json(const std::optional<Measure>& measure) { return measure ? Json(show(*measure)) : Json(nullptr); }

Json finding_json(const Finding& finding) {
    return {{"level", show(finding.level)},
            {"code", finding.code},
            {"about", finding.about},
            {"found", measure_json(finding.found)},
            {"allowed", measure_json(finding.allowed)},
            {"remedy", finding.remedy},
            {"source", finding.source},
            {"text", show(finding)}};
}

std::string written(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

}  // namespace

std::string plan_json(const Plan& plan) {
    Json answer = {{"title", plan.title}, {"verdict", plan.holds() ? "holds" : "fails"}, {"runs", Json::array()}};
    for (const RunPlan& run : plan.runs) answer["runs"].push_back(run_json(run));
    answer["findings"] = Json::array();
    for (const Finding& finding : plan.findings) answer["findings"].push_back(finding_json(finding));
    answer["not_judged"] = plan.not_judged;
    return written(answer);
}

std::string wire_json(const Plan& plan, std::string_view name) {
    Json answer = {{"runs", Json::array()}};
    for (const RunPlan& run : plan.runs)
        if (name.empty() || *run.task.run.name == name) answer["runs"].push_back(run_json(run));
    return written(answer);
}

}  // namespace voltwright
