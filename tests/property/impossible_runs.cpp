// What cannot be brought, or fits nothing, keeps its place and its figures in every answer.

#include "dice.hpp"
#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/planning/figures_missing.hpp"
#include "voltwright/report/plan_json.hpp"

#include <nlohmann/json.hpp>

#include <random>
#include <string>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

/// A vehicle of which something is too long, too thin or too hot, in a shop with few sizes.
std::string impossible(int number) {
    std::mt19937 draw(static_cast<unsigned>(number) + 7001);
    const auto whole = [&](int from, int to) {
        return from + static_cast<int>(draw() % static_cast<unsigned>(to - from + 1));
    };
    const auto metres = [&](int from, int to) { return "length = \"" + std::to_string(whole(from, to)) + " m\"\n"; };
    const auto owned = [&] {
        return whole(0, 2) == 0 ? "size = \"" + std::to_string(2 * whole(5, 9)) + " AWG\"\nhave = \"cable\"\n" : "";
    };
    std::string text = "[trip]\ndays = 2\nlow = \"10 degC\"\nhigh = \"" + std::to_string(whole(20, 45)) +
                       " degC\"\nstart = 2026-06-01\nlatitude = \"40 deg\"\ndrives = \"08:00-10:00\"\n[battery]\n"
                       "chemistry = \"" +
                       (whole(0, 1) ? "agm" : "lfp") + "\"\ncapacity = \"100 Ah\"\n[charger]\noutput = \"" +
                       std::to_string(whole(20, 80)) + " A\"\n";
    if (whole(0, 1)) text += "[rules]\nsizes = [\"14 AWG\", \"12 AWG\", \"10 AWG\"]\n";
    text += "[[run]]\nto = \"charger\"\n" + metres(3, 30) + owned();
    if (whole(0, 1)) text += "[[run]]\nto = \"battery\"\n" + metres(1, 9) + owned();
    const bool block = whole(0, 1);
    if (block) text += "[[run]]\nto = \"block\"\n" + metres(2, 30) + owned();
    for (int i = 0; i < whole(1, 3); ++i) {
        const std::string name = "load " + std::to_string(i);
        text += "[[load]]\nname = \"" + name + "\"\ndraw = \"" + std::to_string(whole(20, 600)) +
                " W\"\n[[run]]\nto = \"" + name + "\"\n" + metres(2, 40) + owned();
        if (block) text += "from = \"block\"\n";
    }
    if (whole(0, 1)) {
        text += "[solar]\npanel = \"" + std::to_string(whole(50, 900)) + " W\"\n";
        text += "[[run]]\nto = \"regulator\"\n" + metres(2, 60) + owned();
        if (whole(0, 1)) text += "[[run]]\nfrom = \"regulator\"\nto = \"battery\"\n" + metres(1, 20) + owned();
    }
    return text;
}

}  // namespace

TEST_CASE("a run that fails stays in the answer with its figures, or with the reason why it has none") {
    int failing = 0, without_figures = 0;
    for (int number = 0; number < 200; ++number) {
        const std::string text = impossible(number);
        CAPTURE(text);
        const System system = system_of_text(text);
        const auto answer = nlohmann::json::parse(plan_json(make_plan(system)));
        REQUIRE(answer["runs"].size() >= system.runs.size());
        for (const auto& run : answer["runs"]) {
            CAPTURE(run.dump());
            failing += run["fits"] == false ? 1 : 0;
            for (const char* key :
                 {"size", "area_mm2", "design_current_A", "resistance_mohm", "ampacity_A", "drop_limit_percent"})
                CHECK_FALSE(run[key].is_null());
            const bool missing = !run["figures_missing"].is_null();
            without_figures += missing ? 1 : 0;
            for (const char* key : {"current_A", "drop_V", "drop_percent", "far_end_V", "heat_W"})
                CHECK(run[key].is_null() == missing);
        }
        for (const auto& finding : answer["findings"]) {
            CAPTURE(finding.dump());
            CHECK(finding["text"].get<std::string>().find("unknown amount") == std::string::npos);
        }
    }
    CHECK(failing > 100);
    CHECK(without_figures > 20);
}
