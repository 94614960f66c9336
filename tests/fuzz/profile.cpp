// Any text at all as a profile: no crash, no exception, and every fault has a place that exists in the text. What can be
// planned also goes through the parts, the readings, the diagnosis and the sheet.
//
//     clang++ -std=c++20 -O1 -g -fsanitize=fuzzer,address,undefined … tests/fuzz/profile.cpp
//     ./profile_fuzz -dict=tests/fuzz/profile.dict -max_len=4096 -max_total_time=60 corpus
//
// With VOLTWRIGHT_REPLAY defined it is a plain program that reads the files it is given, once each.

#include "harness.hpp"

#include "voltwright/diagnosis/diagnose.hpp"
#include "voltwright/diagnosis/test_plan.hpp"
#include "voltwright/files/document.hpp"
#include "voltwright/files/preflight.hpp"
#include "voltwright/messages/parts.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/contradictions.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/report/diagnose_text.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/report/readings_text.hpp"
#include "voltwright/report/sheet.hpp"
#include "voltwright/shopping/parts.hpp"
#include "voltwright/units/characters.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

namespace {

using namespace voltwright;
using fuzz::demand;

void check(const Diagnostics& diagnostics, std::string_view text) {
    const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
    for (const Diagnostic& diagnostic : diagnostics) {
        demand(!diagnostic.what.empty(), "a diagnostic without words");
        demand(diagnostic.place.line >= 0 && diagnostic.place.line <= lines + 1, "a line that is not there");
        demand(diagnostic.place.column >= 0 && diagnostic.place.length >= 0, "a column before the line");
        demand(diagnostic.line.find('\n') == std::string::npos, "a line with a line end");
    }
}

void check(const PartsList& list) {
    for (const Part& part : list.parts) {
        demand(part.count > 0 && part.spare >= 0 && part.spare < part.count, "a part that is not bought");
        demand(!part.length || (*part.length > Length{} && std::isfinite(in_metres(*part.length))), "no length");
        demand(!part.mass || (*part.mass > Mass{} && std::isfinite(in_kilograms(*part.mass))), "no mass");
        demand(!in_words(part).empty(), "a part without words");
    }
    parts_page(list, {});
    parts_csv(list);
    parts_json(list);
}

void check(const TestPlan& plan) {
    for (const PlannedReading& reading : plan.readings) {
        demand(reading.next.empty() || plan.find(reading.next), "sent to a reading that is not there");
        demand(!reading.across.empty() || !reading.through.empty(), "a reading taken nowhere");
        for (const auto& measure : {reading.expected, reading.tolerance, reading.least, reading.most})
            demand(!measure || std::visit([](auto number) { return std::isfinite(number.value()); }, *measure),
                   "a reading that no meter shows");
    }
    readings_page(plan, {});
    readings_json(plan);
}

void check(const Diagnosis& diagnosis) {
    for (const FaultCandidate& candidate : diagnosis.candidates) {
        demand(!candidate.extra || std::isfinite(in_ohms(*candidate.extra)), "an extra resistance of no size");
        demand(!candidate.uncertainty || std::isfinite(in_ohms(*candidate.uncertainty)), "an uncertainty of no size");
        demand(!candidate.heat || (std::isfinite(in_watts(*candidate.heat)) && *candidate.heat >= Power{}),
               "heat of no size");
        demand(std::isfinite(candidate.odds), "odds of no size");
    }
    for (const Comparison& row : diagnosis.comparisons)
        demand(std::isfinite(row.expected.number()) && std::isfinite(row.explained.number()) &&
                   row.tolerance.number() > 0.0 && std::isfinite(row.tolerance.number()),
               "compared with no number");
    diagnosis_page(diagnosis, {});
    diagnosis_json(diagnosis);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    std::string text(size, '\0');
    std::copy(data, data + size, text.begin());
    static_cast<void>(read_override_value(text));

    const auto read = read_document_text("fuzz.toml", text);
    if (const auto* diagnostics = std::get_if<Diagnostics>(&read)) {
        demand(!diagnostics->empty(), "refused without a reason");
        check(*diagnostics, text);
        return 0;
    }
    const Document& document = std::get<Document>(read);
    demand(first_that_is_not_utf8(document.text) == document.text.size(), "accepted what is no UTF-8");
    demand(preflight(document.text).sound_to == document.text.size(), "the first look stopped at what is TOML");
    Faults faults;
    const Profile profile = read_profile(document.root, faults);
    const Diagnostics diagnostics = locate(document, faults);
    demand(diagnostics.size() == faults.size(), "a fault was lost");
    check(diagnostics, text);
    const Faults further = find_contradictions(profile, built_in_tables());
    check(locate(document, further), text);
    if (!faults.empty()) return 0;
    const auto system = resolve(profile, built_in_tables());
    const auto* refused = std::get_if<Faults>(&system);
    demand(further.empty() || refused, "resolved what contradicts itself");
    if (refused) {
        // Readings at a joint that is not there show only once the runs are known.
        demand(!refused->empty(), "refused without a reason");
        check(locate(document, *refused), text);
        return 0;
    }
    const System& vehicle = std::get<System>(system);
    const Plan plan = make_plan(vehicle, built_in_tables(), {.timeline = true});
    for (const RunPlan& run : plan.runs)
        for (const Candidate& candidate : run.choice.ladder) {
            if (!candidate.drop) continue;
            demand(candidate.drop->drop >= Voltage{} && candidate.drop->drop < candidate.drop->source,
                   "a drop that is no drop");
            demand(candidate.drop->heat >= Power{}, "a run that cools");
        }
    const PartsList parts = parts_list(vehicle, plan);
    const TestPlan readings = test_plan(vehicle, plan);
    check(parts);
    check(readings);
    check(diagnose(vehicle, plan));
    const SheetParts words{.lines = parts_in_words(parts)};
    demand(is_sheet(sheet_html(plan, vehicle, readings_in_words(readings), words, {.version = "0"})),
           "a sheet that is not known as one");
    return 0;
}
