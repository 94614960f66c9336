#include "voltwright/report/topics.hpp"
#include "voltwright/report/sheet_sections.hpp"

#include <algorithm>

namespace voltwright::sheet {

namespace {

void gather_sources(const Explanation& node, std::vector<Source>& sources) {
    if (node.source && !node.source->table.empty() &&
        std::none_of(sources.begin(), sources.end(), [&](const Source& source) {
            return source.id == node.source->id && source.cite == node.source->cite &&
                   source.table == node.source->table;
        }))
        sources.push_back(*node.source);
    for (const Explanation& part : node.parts) gather_sources(part, sources);
}

}  // namespace

std::vector<std::string> sources(const Plan& plan) {
    std::vector<Source> found;
    for (const RunPlan& run : plan.runs) gather_sources(explain_run(run), found);
    for (const Topic& topic : topics(plan))
        if (const auto explanation = explain_topic(plan, topic.name)) gather_sources(*explanation, found);
    std::stable_sort(found.begin(), found.end(), [](const Source& a, const Source& b) { return a.table < b.table; });
    std::vector<std::string> lines;
    for (const Source& source : found)
        lines.push_back(std::string(source.table) + ": " + std::string(source.id) + ", " + std::string(source.cite) +
                        " (" + std::string(show(source.standing)) + ")");
    return lines;
}

}  // namespace voltwright::sheet
