#include "voltwright/messages/anomalies.hpp"
#include "voltwright/messages/fault_candidates.hpp"
#include "voltwright/report/diagnose_text.hpp"
#include "voltwright/report/finding_json.hpp"
#include "voltwright/report/readings_text.hpp"
#include "voltwright/units/show.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

/// "expected_V", "expected_mV", "expected_A": the unit in which the meter shows it.
void put(Json& object, const std::string& key, const std::optional<Measure>& measure, MeterRange range) {
    if (!measure) return;
    if (const auto* current = std::get_if<Current>(&*measure)) object[key + "_A"] = in_amperes(*current);
    if (const auto* voltage = std::get_if<Voltage>(&*measure)) {
        if (range == MeterRange::millivolts)
            object[key + "_mV"] = in_millivolts(*voltage);
        else
            object[key + "_V"] = in_volts(*voltage);
    }
}

std::string_view word_of(Stage stage) {
    switch (stage) {
        case Stage::before_connecting: return "before connecting";
        case Stage::engine_off: return "off";
        case Stage::idling: return "idling";
        case Stage::driving: return "driving";
    }
    return "";
}

Json reading_json(const PlannedReading& reading) {
    const ReadingWords words = words_of(reading);
    Json object = {{"id", reading.id}};
    if (!reading.through.empty())
        object["through"] = reading.through;
    else
        object["across"] = reading.across;
    object["engine"] = word_of(reading.stage);
    object["with"] = reading.with;
    put(object, "expected", reading.expected, reading.range);
    put(object, "tolerance", reading.tolerance, reading.range);
    put(object, "least", reading.least, reading.range);
    put(object, "most", reading.most, reading.range);
    object["in_doubt"] = reading.in_doubt;
    object["where"] = words.where;
    object["how"] = words.with;
    object["expected_text"] = words.expected;
    object["if_less"] = words.otherwise;
    object["next"] = reading.next.empty() ? Json(nullptr) : Json(reading.next);
    return object;
}

Json candidate_json(const FaultCandidate& candidate) {
    const auto number = [](const auto& quantity, auto in) { return quantity ? Json(in(*quantity)) : Json(nullptr); };
    return {{"kind", show(candidate.kind)},
            {"run", candidate.run.empty() ? Json(nullptr) : Json(candidate.run)},
            {"joint", candidate.element.empty() ? Json(nullptr) : Json(candidate.element)},
            {"extra_mohm", number(candidate.extra, in_milliohms)},
            {"uncertainty_mohm", number(candidate.uncertainty, in_milliohms)},
            {"heat_W", number(candidate.heat, in_watts)},
            {"current_A", number(candidate.at, in_amperes)},
            {"looks_like", candidate.looks_like ? Json(show(*candidate.looks_like)) : Json(nullptr)},
            {"reading", candidate.measurement ? Json(*candidate.measurement + 1) : Json(nullptr)},
            {"accused", candidate.identified},
            {"odds", candidate.odds}};
}

Json anomaly_json(const Anomaly& anomaly) {
    return {{"reading", anomaly.measurement + 1}, {"kind", show(anomaly.kind)}, {"text", show(anomaly)}};
}

Json comparison_json(const Comparison& one) {
    const std::string unit = one.shown.is_current() ? "_A" : "_V";
    return {{"reading", one.measurement + 1},
            {"shown" + unit, one.shown.number()},
            {"expected" + unit, one.expected.number()},
            {"tolerance" + unit, one.tolerance.number()},
            {"explained" + unit, one.explained.number()},
            {"as_it_should", one.as_it_should()}};
}

template <class Each>
Json array_of(const std::vector<Each>& all, Json (*json)(const Each&)) {
    Json array = Json::array();
    for (const Each& one : all) array.push_back(json(one));
    return array;
}

}  // namespace

std::string readings_json(const TestPlan& plan) {
    Json not_measured = Json::array();
    for (const NotMeasured& one : plan.not_measured) not_measured.push_back(words_of(one));
    return written({{"readings", array_of(plan.readings, reading_json)}, {"not_measured", not_measured}});
}

std::string diagnosis_json(const Diagnosis& diagnosis) {
    return written({{"verdict", show(diagnosis.verdict)},
                    {"suspects", array_of(diagnosis.candidates, candidate_json)},
                    {"next", diagnosis.next ? reading_json(*diagnosis.next) : Json(nullptr)},
                    {"remarks", array_of(diagnosis.anomalies, anomaly_json)},
                    {"readings", array_of(diagnosis.comparisons, comparison_json)}});
}

}  // namespace voltwright
