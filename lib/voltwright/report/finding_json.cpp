#include "voltwright/report/finding_json.hpp"

#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/messages/remedies.hpp"
#include "voltwright/report/numbers.hpp"
#include "voltwright/units/show.hpp"

#include <nlohmann/json.hpp>

namespace voltwright {

using Json = nlohmann::ordered_json;

void put_measure(Json& object, std::string_view name, const Measure& measure) {
    const std::string key = key_for(name, measure);
    object[key] = number_for(key, measure).value();
}

namespace {

Json fuse_json(const NamedFuse& fuse) {
    Json object = {{"family", fuse.family}};
    put_measure(object, "rating", fuse.rating);
    if (fuse.at) object["at"] = fuse.at->name;
    return object;
}

/// Everything but quantities, whose unit stands in the key.
struct ArgumentAsJson {
    Json operator()(const Measure&) const { return nullptr; }
    Json operator()(bool truth) const { return truth; }
    Json operator()(int number) const { return number; }
    Json operator()(const Gauge& size) const { return show(size); }
    Json operator()(const NamedCable& cable) const {
        Json object = {{"size", show(cable.size)}, {"is_return", cable.is_return}};
        put_measure(object, "insulation", cable.insulation);
        return object;
    }
    Json operator()(const NamedFuse& fuse) const { return fuse_json(fuse); }
    Json operator()(const std::vector<NamedFuse>& fuses) const {
        Json list = Json::array();
        for (const NamedFuse& fuse : fuses) list.push_back(fuse_json(fuse));
        return list;
    }
    Json operator()(const std::vector<RowTaken>& rows) const {
        Json list = Json::array();
        for (const RowTaken& taken : rows) list.push_back({{"size", show(taken.size)}, {"row", show(taken.row)}});
        return list;
    }
    Json operator()(const Place& place) const { return place.name; }
    Json operator()(const Moment& moment) const { return {{"day", moment.day}, {"clock", clock_of(moment.clock)}}; }
    Json operator()(MoreCharge more) const { return show(more); }
    Json operator()(const std::string& text) const { return text; }
    Json operator()(const std::vector<std::string>& names) const { return names; }
};

Json source_json(const Source& source) {
    Json object = {{"id", source.id}, {"cite", source.cite}, {"standing", show(source.standing)}};
    if (!source.table.empty()) {
        object["table"] = source.table;
        object["line"] = source.line;
    }
    return object;
}

Json steps_json(const Remedy& remedy) {
    Json steps = Json::array();
    for (const RemedyStep& step : remedy.steps) {
        Json object = {{"code", show(step.code)}};
        put_arguments(object, step.arguments);
        steps.push_back(std::move(object));
    }
    return steps;
}

Json changes_json(const Remedy& remedy) {
    Json changes = Json::array();
    for (const Change& change : remedy.changes) changes.push_back({{"key", change.key}, {"value", change.value}});
    return changes;
}

}  // namespace

void put_arguments(Json& object, const Arguments& arguments) {
    for (const Argument& argument : arguments)
        if (const auto* measure = std::get_if<Measure>(&argument.value))
            put_measure(object, argument.name, *measure);
        else
            object[std::string(argument.name)] = std::visit(ArgumentAsJson{}, argument.value);
}

Json finding_json(const Finding& finding) {
    Json object = {{"level", show(finding.level)},
                   {"code", show(finding.code)},
                   {"about", show(finding.about)},
                   {"about_kind", show(finding.about.kind)}};
    if (finding.found) put_measure(object, "found", *finding.found);
    if (finding.allowed) put_measure(object, "allowed", *finding.allowed);
    object["details"] = Json::object();
    put_arguments(object["details"], finding.arguments);
    object["changes"] = changes_json(finding.remedy);
    object["steps"] = steps_json(finding.remedy);
    object["source"] = source_json(finding.source);
    object["text"] = show(finding);
    object["remedy"] = remedy_in_words(finding);
    return object;
}

Json assumption_json(const Assumption& assumption) {
    Json object = {{"code", show(assumption.code)},
                   {"about", show(assumption.about)},
                   {"about_kind", show(assumption.about.kind)}};
    if (assumption.found) put_measure(object, "found", *assumption.found);
    if (assumption.allowed) put_measure(object, "allowed", *assumption.allowed);
    object["details"] = Json::object();
    put_arguments(object["details"], assumption.arguments);
    object["source"] = source_json(assumption.source);
    object["text"] = show(assumption);
    return object;
}

std::string written(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

}  // namespace voltwright
