#include "voltwright/report/diagnose_text.hpp"
#include "testing.hpp"
#include "voltwright/messages/anomalies.hpp"
#include "voltwright/messages/fault_candidates.hpp"

#include <string>

namespace voltwright {

namespace {

FaultCandidate joint(const char* name, bool accused, double odds) {
    return {.kind = FaultKind::joint,
            .run = "fridge",
            .element = name,
            .extra = milliohms(30),
            .uncertainty = milliohms(4),
            .identified = accused,
            .odds = odds};
}

}  // namespace

TEST_CASE("the first line counts the places that are as likely, and promises a reading only where there is one") {
    Diagnosis diagnosis;
    diagnosis.verdict = Verdict::several;
    diagnosis.candidates = {joint("lug", false, 1.0), joint("fuse", false, 0.8), joint("plug", false, 0.01)};
    CHECK(diagnosis_line(diagnosis) == "SOMETHING IS WRONG, most likely in one of 2 places.");
    diagnosis.next = PlannedReading{};
    CHECK(diagnosis_line(diagnosis) ==
          "SOMETHING IS WRONG, most likely in one of 2 places; one more reading tells them apart.");

    SUBCASE("what stands out beside them is said first, and is none of them") {
        diagnosis.candidates.insert(diagnosis.candidates.begin(), joint("switch", true, 1.0));
        CHECK(diagnosis_line(diagnosis) ==
              "FOUND: the switch has 30.0 ± 4.0 mOhm more than it should. SOMETHING MORE IS WRONG, most likely in one "
              "of 2 "
              "places; one more reading tells them apart.");
    }
    SUBCASE("one that is likelier by far is named") {
        diagnosis.candidates[1].odds = 0.1;
        CHECK(diagnosis_line(diagnosis) ==
              "SOMETHING IS WRONG, most likely the lug has 30.0 ± 4.0 mOhm more than it should.");
    }
}

TEST_CASE("no first line says that nothing is wrong where a reading tells that something is") {
    for (const Anomaly::Kind kind :
         {Anomaly::Kind::poles_swapped, Anomaly::Kind::open_circuit, Anomaly::Kind::nothing_arrives,
          Anomaly::Kind::nothing_flows, Anomaly::Kind::overcharged, Anomaly::Kind::not_charged,
          Anomaly::Kind::charger_awake, Anomaly::Kind::charger_idle, Anomaly::Kind::low_battery}) {
        Diagnosis diagnosis;
        diagnosis.verdict = Verdict::told_by_one;
        diagnosis.anomalies = {{.kind = kind,
                                .measurement = 0,
                                .run = "fridge",
                                .places = {"fridge"},
                                .battery = Battery::house,
                                .found = Measure{volts(-12.6)},
                                .elements = {"lug"}}};
        const std::string line = diagnosis_line(diagnosis);
        CHECK_FALSE(line.empty());
        CHECK(line.find("NOTHING WRONG") == std::string::npos);
        CHECK(diagnosis_page(diagnosis, Style{}).find("reading 1: ") != std::string::npos);
    }
    Diagnosis diagnosis;
    diagnosis.verdict = Verdict::told_by_one;
    diagnosis.anomalies = {{.kind = Anomaly::Kind::poles_swapped, .measurement = 0, .places = {"fridge"}}};
    CHECK(diagnosis_line(diagnosis) == "POLES SWAPPED at fridge, or the meter's leads.");
}

TEST_CASE("a joint that melts is taken out of use before anything else, and a fuse is not crimped") {
    Diagnosis diagnosis;
    diagnosis.verdict = Verdict::found;
    diagnosis.candidates = {joint("fuse at battery", true, 1.0)};
    diagnosis.candidates[0].fuse = true;
    diagnosis.candidates[0].at = amperes(13);
    diagnosis.candidates[0].heat = watts(5.1);
    const std::string page = diagnosis_page(diagnosis, Style{});
    CHECK(diagnosis_line(diagnosis).rfind("STOP USING IT.", 0) == 0);
    REQUIRE(page.find("Stop using it and pull its fuse now") != std::string::npos);
    CHECK(page.find("Stop using it and pull its fuse now") < page.find("tighten the holder"));
    CHECK(page.find("crimp") == std::string::npos);
    diagnosis.candidates[0].heat = watts(4.9);
    CHECK(diagnosis_page(diagnosis, Style{}).find("Stop using") == std::string::npos);
}

TEST_CASE("a reading beyond its limit: both figures in one unit, and the next step") {
    Diagnosis diagnosis;
    diagnosis.verdict = Verdict::told_by_one;
    diagnosis.anomalies = {{.kind = Anomaly::Kind::beyond_limit,
                            .measurement = 0,
                            .run = "feed",
                            .found = Measure{volts(0.75)},
                            .leads = {"starter +", "charger +"},
                            .limit = Measure{volts(0.327)},
                            .at = amperes(28),
                            .drop = true}};
    CHECK(diagnosis_line(diagnosis) == "OUT OF LIMITS: 750 mV from starter + to charger +; at most 327 mV at 28 A.");
    CHECK(show(diagnosis.anomalies[0]) ==
          "reading 1: 750 mV from starter + to charger +; at most 327 mV at 28 A. Something in that way has too much "
          "resistance, or more current flows: clamp the cable and add the current");
    diagnosis.anomalies[0].flows = amperes(70);
    CHECK(show(diagnosis.anomalies[0]).find("The current does it") != std::string::npos);
}

TEST_CASE("what is known no better than to a half is told without figures") {
    FaultCandidate one = joint("lug", false, 1.0);
    one.uncertainty = milliohms(25);
    CHECK(show(one) == "the lug has more resistance than it should; clamp the cable to know how much");
}

}  // namespace voltwright
