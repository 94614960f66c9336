#include "voltwright/report/diagnose_text.hpp"
#include "testing.hpp"

#include <string>

namespace voltwright {

namespace {

Suspicion joint(const char* name, bool accused, double odds) {
    return {.kind = Suspicion::Kind::joint,
            .run = "fridge",
            .element = name,
            .extra = milliohms(30),
            .uncertainty = milliohms(4),
            .accused = accused,
            .odds = odds};
}

}  // namespace

TEST_CASE("the first line counts the places that are as likely, and promises a reading only where there is one") {
    Diagnosis diagnosis;
    diagnosis.verdict = Verdict::several;
    diagnosis.suspects = {joint("lug", false, 1.0), joint("fuse", false, 0.8), joint("plug", false, 0.01)};
    CHECK(diagnosis_line(diagnosis) == "SOMETHING IS WRONG, most likely in one of 2 places.");
    diagnosis.next = PlannedReading{};
    CHECK(diagnosis_line(diagnosis) ==
          "SOMETHING IS WRONG, most likely in one of 2 places; one more reading tells them apart.");

    SUBCASE("what stands out beside them is said first, and is none of them") {
        diagnosis.suspects.insert(diagnosis.suspects.begin(), joint("switch", true, 1.0));
        CHECK(diagnosis_line(diagnosis) ==
              "FOUND: the switch has 30.0 ± 4.0 mOhm more than it should. SOMETHING MORE IS WRONG, most likely in one "
              "of 2 "
              "places; one more reading tells them apart.");
    }
    SUBCASE("one that is likelier by far is named") {
        diagnosis.suspects[1].odds = 0.1;
        CHECK(diagnosis_line(diagnosis) ==
              "SOMETHING IS WRONG, most likely the lug has 30.0 ± 4.0 mOhm more than it should.");
    }
}

}  // namespace voltwright
