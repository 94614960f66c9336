#include "voltwright/report/explain_json.hpp"

#include "voltwright/report/finding_json.hpp"
#include "voltwright/units/show.hpp"

#include <nlohmann/json.hpp>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

Json node_json(const Explanation& node) {
    struct {
        Json operator()(std::monostate) const { return nullptr; }
        Json operator()(const Measure& measure) const { return show(measure); }
        Json operator()(const std::string& text) const { return text; }
        Json operator()(int number) const { return number; }
        Json operator()(bool truth) const { return truth; }
    } as_value;
    Json object = {{"about", node.words}, {"symbol", node.symbol}, {"value", std::visit(as_value, node.value)}};
    if (!node.equation.form.empty()) object["equation"] = node.equation.form;
    if (!node.equation.source.empty()) object["by"] = node.equation.source;
    if (node.source)
        object["source"] = {{"cite", node.source->cite},
                            {"status", show(node.source->standing)},
                            {"table", node.source->table},
                            {"line", node.source->line},
                            {"note", node.source->note}};
    object["parts"] = Json::array();
    for (const Explanation& part : node.parts)
        if (!std::holds_alternative<std::monostate>(part.value) || !part.parts.empty())
            object["parts"].push_back(node_json(part));
    return object;
}

}  // namespace

std::string explanation_json(const Explanation& explanation) { return written(node_json(explanation)); }

std::string topics_json(const Plan& plan) {
    Json answer = {{"topics", Json::array()}};
    for (const Topic& topic : topics(plan)) answer["topics"].push_back({{"name", topic.name}, {"words", topic.words}});
    return written(answer);
}

}  // namespace voltwright
