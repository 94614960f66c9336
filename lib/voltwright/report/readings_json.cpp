#include "voltwright/report/diagnose_text.hpp"
#include "voltwright/report/readings_text.hpp"
#include "voltwright/units/show.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace voltwright {

namespace {

using Json = nlohmann::ordered_json;

std::string written(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

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

Json suspicion_json(const Suspicion& suspicion) {
    const auto number = [](const auto& quantity, auto in) { return quantity ? Json(in(*quantity)) : Json(nullptr); };
    Json object = {{"kind", show(suspicion.kind)},
                   {"run", suspicion.run.empty() ? Json(nullptr) : Json(suspicion.run)},
                   {"joint", suspicion.element.empty() ? Json(nullptr) : Json(suspicion.element)},
                   {"extra_mohm", number(suspicion.extra, in_milliohms)},
                   {"uncertainty_mohm", number(suspicion.uncertainty, in_milliohms)},
                   {"heat_W", number(suspicion.heat, in_watts)},
                   {"current_A", number(suspicion.at, in_amperes)},
                   {"looks_like", suspicion.looks_like ? Json(show(*suspicion.looks_like)) : Json(nullptr)},
                   {"reading", suspicion.reading ? Json(*suspicion.reading + 1) : Json(nullptr)},
                   {"accused", suspicion.accused},
                   {"odds", suspicion.odds}};
    return object;
}

}  // namespace

std::string readings_json(const TestPlan& plan) {
    Json readings = Json::array();
    for (const PlannedReading& reading : plan.readings) readings.push_back(reading_json(reading));
    return written({{"readings", readings}, {"not_measured", plan.not_measured}});
}

std::string diagnosis_json(const Diagnosis& diagnosis) {
    Json suspects = Json::array(), remarks = Json::array(), compared = Json::array();
    for (const Suspicion& suspicion : diagnosis.suspects) suspects.push_back(suspicion_json(suspicion));
    for (const Remark& remark : diagnosis.remarks)
        remarks.push_back({{"reading", remark.reading + 1}, {"kind", show(remark.kind)}, {"text", show(remark)}});
    for (const Compared& one : diagnosis.compared) {
        const std::string unit = one.clamp ? "_A" : "_V";
        compared.push_back({{"reading", one.number + 1},
                            {"shown" + unit, one.shown},
                            {"expected" + unit, one.expected},
                            {"tolerance" + unit, one.tolerance},
                            {"explained" + unit, one.explained},
                            {"as_it_should", one.as_it_should()}});
    }
    return written({{"verdict", show(diagnosis.verdict)},
                    {"suspects", suspects},
                    {"next", diagnosis.next ? reading_json(*diagnosis.next) : Json(nullptr)},
                    {"remarks", remarks},
                    {"readings", compared}});
}

}  // namespace voltwright
