#include "voltwright/report/schema.hpp"

#include "voltwright/profile/section.hpp"
#include "voltwright/report/schema_patterns.hpp"
#include "voltwright/units/parse.hpp"

#include <nlohmann/json.hpp>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

Json object_of(std::span<const Key> keys);
Json of(const Shape& shape);

Json text_with(std::string form, const std::vector<std::string>& examples = {}) {
    Json json = {{"type", "string"}, {"pattern", std::move(form)}};
    if (!examples.empty()) json["examples"] = examples;
    return json;
}

/// A meter's accuracy is the only quantity with two parts.
bool is_accuracy(const Shape& shape) { return shape.dimensions.size() == 2 && shape.dimensions[0] == Dimension::ratio; }

/// One of several, without an anyOf in an anyOf.
Json any(const std::vector<Json>& parts) {
    Json all = Json::array();
    for (const Json& part : parts) {
        if (part.size() == 1 && part.contains("anyOf"))
            for (const Json& inner : part["anyOf"]) all.push_back(inner);
        else
            all.push_back(part);
    }
    return {{"anyOf", all}};
}

/// `length`, `accuracy-voltage`, `insulation`: what a pattern is called among the definitions.
std::string name_of_pattern(const Shape& shape) {
    if (!shape.words.empty()) return "insulation";
    const auto name = [](Dimension dimension) {
        const std::string_view words = name_of(dimension);
        return std::string(words.substr(words.find(' ') + 1));
    };
    return (is_accuracy(shape) ? "accuracy-" : "") + name(shape.dimensions.back());
}

/// A quantity, by its definition.
Json quantity_of(const Shape& shape) {
    if (shape.dimensions.size() == 1 || is_accuracy(shape)) return {{"$ref", "#/$defs/" + name_of_pattern(shape)}};
    std::vector<Json> parts;
    for (const Dimension dimension : shape.dimensions)
        parts.push_back(quantity_of({Shape::Kind::quantity, {}, {dimension}}));
    return any(parts);
}

/// Adds what the quantities in a shape refer to.
void define(const Shape& shape, Json& definitions) {
    for (const Shape& part : shape.parts) define(part, definitions);
    for (const Key& key : shape.keys) define(key.shape(), definitions);
    if (shape.kind == Shape::Kind::gauge)
        definitions["size"] = text_with(pattern::whole(pattern::gauge()), {"8 AWG", "2/0 AWG", "16 mm2"});
    if (shape.kind != Shape::Kind::quantity) return;
    if (shape.dimensions.size() > 1 && !is_accuracy(shape)) {
        for (const Dimension dimension : shape.dimensions)
            define({Shape::Kind::quantity, {}, {dimension}}, definitions);
        return;
    }
    std::string form =
        is_accuracy(shape) ? pattern::accuracy(shape.dimensions[1]) : pattern::quantity(shape.dimensions[0]);
    if (!shape.words.empty()) {
        std::string words;
        for (const std::string_view word : shape.words) words += (words.empty() ? "" : "|") + pattern::unit(word);
        form = "(" + form + R"()(\s+()" + words + "))?";
    }
    Json json = text_with(pattern::whole(form));
    json["examples"] = {shape.example.empty() ? Json(example_of(shape.dimensions[0])) : Json::parse(shape.example)};
    definitions[name_of_pattern(shape)] = std::move(json);
}

Json array_of(Json items) { return {{"type", "array"}, {"items", std::move(items)}}; }

Json any_text(std::string_view example) {
    Json json = {{"type", "string"}, {"minLength", 1}};
    if (!example.empty()) json["examples"] = {Json::parse(example)};
    return json;
}

template <class Words>
Json one_word_of(const Words& words) {
    if (words.size() == 1) return {{"const", words[0]}};
    return {{"enum", words}};
}

Json date() {
    Json json = text_with("^[0-9]{4}-[0-9]{2}-[0-9]{2}$");
    json["format"] = "date";
    return json;
}

Json days() {
    const Json day = {{"type", "integer"}, {"minimum", 1}, {"maximum", 366}};
    const Json range = text_with(pattern::whole(pattern::days()));
    Json list = array_of(any({day, range}));
    list["minItems"] = 1;
    Json json = any({day, range, list});
    json["examples"] = Json::array({"2-4", 3, Json::array({1, 6})});
    return json;
}

Json of(const Shape& shape) {
    switch (shape.kind) {
        case Shape::Kind::quantity: return quantity_of(shape);
        case Shape::Kind::gauge: return {{"$ref", "#/$defs/size"}};
        case Shape::Kind::stud: return text_with(pattern::whole(pattern::stud()), {"M8", "8 mm", "5/16 in"});
        case Shape::Kind::whole: return {{"type", "integer"}};
        case Shape::Kind::flag: return {{"type", "boolean"}};
        case Shape::Kind::text: return any_text(shape.example);
        case Shape::Kind::word: return one_word_of(shape.words);
        case Shape::Kind::date: return date();
        case Shape::Kind::clock: return text_with(pattern::whole(pattern::time_of_day()));
        case Shape::Kind::window: return text_with(pattern::whole(pattern::window()), {"08:30-10:00"});
        case Shape::Kind::days: return days();
        case Shape::Kind::list: return array_of(of(shape.parts.at(0)));
        case Shape::Kind::one_or_list: return any({of(shape.parts.at(0)), array_of(of(shape.parts.at(0)))});
        case Shape::Kind::any_of: {
            std::vector<Json> parts;
            for (const Shape& part : shape.parts) parts.push_back(of(part));
            return any(parts);
        }
        case Shape::Kind::named:
            return {{"type", "object"}, {"minProperties", 1}, {"additionalProperties", of(shape.parts.at(0))}};
        case Shape::Kind::section: return object_of(shape.keys);
    }
    return {};
}

std::string described(const Key& key) {
    struct Words {
        std::string operator()(const Required&) const { return "needed"; }
        std::string operator()(const Absent& absent) const { return "without it: " + std::string(absent.words); }
        std::string operator()(const Usual& usual) const {
            if (const auto* words = std::get_if<std::string_view>(&usual.written))
                return "default " + std::string(*words);
            if (const auto* whole_number = std::get_if<int>(&usual.written))
                return "default " + std::to_string(*whole_number);
            return std::string("default ") + (std::get<bool>(usual.written) ? "true" : "false");
        }
        std::string operator()(const ByRule& rule) const { return "default: " + std::string(rule.words); }
    };
    const std::string ranges = show_ranges(key);
    return std::string(key.sentence) + " (" + std::visit(Words(), key.fallback) +
           (ranges.empty() ? "" : "; " + ranges) + ")";
}

Json object_of(std::span<const Key> keys) {
    Json json = {{"type", "object"}, {"additionalProperties", false}};
    Json required = Json::array();
    for (const Key& key : keys) {
        Json property = {{"description", described(key)}};
        property.update(of(key.shape()));
        if (property.contains("type") && property["type"] == "integer")
            for (const Range& range : key.ranges) {
                property["minimum"] = static_cast<int>(range.low.value);
                property["maximum"] = static_cast<int>(range.high.value);
            }
        if (const std::string usual = usual_value(key); !usual.empty()) property["default"] = Json::parse(usual);
        json["properties"][std::string(key.name)] = std::move(property);
        const auto* needed = std::get_if<Required>(&key.fallback);
        if (needed && !needed->waived) required.push_back(key.name);
    }
    if (!required.empty()) json["required"] = std::move(required);
    return json;
}

}  // namespace

std::string profile_schema() {
    Json json = {
        {"$schema", "https://json-schema.org/draft/2020-12/schema"},
        {"title", "voltwright profile"},
        {"description",
         "A vehicle's second 12 V system and a trip, written as TOML. Quantities are text with their unit."},
    };
    json.update(object_of(sections()[0].keys));
    Json required = Json::array();
    for (const SectionRow& section : sections().subspan(1)) {
        Json object = object_of(section.keys);
        if (!section.optional && object.contains("required")) required.push_back(section.name);
        Json property = {{"description", section.sentence}};
        if (section.many) {
            property["type"] = "array";
            property["maxItems"] = section.most;
            property["items"] = std::move(object);
        } else {
            property.update(object);
        }
        json["properties"][std::string(section.name)] = std::move(property);
    }
    json["required"] = std::move(required);
    for (const SectionRow& section : sections())
        for (const Key& key : section.keys) define(key.shape(), json["$defs"]);
    return json.dump(2) + "\n";
}

}  // namespace voltwright
