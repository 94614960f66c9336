#pragma once

#include "voltwright/planning/readings.hpp"
#include "voltwright/report/terminal.hpp"

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
std::vector<ReadingStage> readings_in_words(const TestPlan& plan);

/// The page of `readings`.
std::string readings_page(const TestPlan& plan, const Style& style);
std::string readings_line(const TestPlan& plan);
/// Held by shared/readings.schema.json.
std::string readings_json(const TestPlan& plan);

}  // namespace voltwright
