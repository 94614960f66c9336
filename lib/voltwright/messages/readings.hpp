#pragma once

#include "voltwright/diagnosis/test_plan.hpp"
#include "voltwright/profile/fault.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// One reading in words, the same on the page, in the sheet and for a screen reader.
struct ReadingWords {
    std::string id;
    std::string where;      ///< "red on charger +, black on charger -", "clamp around the feed's positive cable"
    std::string with;       ///< "fridge on, everything else off"; empty: nothing on
    std::string expected;   ///< "13.6 V, at least 13.4 V", "0.27 V ± 0.05 V", "nothing: under 0.1 V"
    std::string otherwise;  ///< what it means when it is not so, and what to measure next
    bool in_doubt;
};

/// The readings of one stage.
struct ReadingStage {
    std::string title;  ///< "Engine off"
    std::string about;  ///< how things have to stand
    std::vector<ReadingWords> readings;
};

ReadingWords words_of(const PlannedReading& reading);

/// Stage by stage; what a reading means when it is not so is said once a stage, after that only where to go on.
std::vector<ReadingStage> readings_in_words(const TestPlan& plan);

/// "the run to lamp: no size fits it"
std::string words_of(const NotMeasured& left_out);

/// Why these readings of a profile are refused: the engine runs, behind a relay.
Faults refused_behind_relay(const std::vector<std::size_t>& readings);

}  // namespace voltwright
