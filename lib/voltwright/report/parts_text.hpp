#pragma once

#include "voltwright/planning/parts.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// One line of the list in words, the same on the page and in the sheet.
struct PartWords {
    std::string amount;  ///< "14.5 m", "4"
    std::string what;    ///< "cable 6 AWG, red", "ring lug 6 AWG, hole for 8 mm"
    std::string note;    ///< "2 of them spare", "feed, fridge"
    std::string price, cost;  ///< empty without prices; "no price" where there is none
};

std::vector<PartWords> parts_in_words(const PartsList& list);

/// The page of `parts`.
std::string parts_page(const PartsList& list, const Style& style);
std::string parts_line(const PartsList& list);
/// One line a part, safe to open in a spreadsheet.
std::string parts_csv(const PartsList& list);
/// Held by shared/parts.schema.json.
std::string parts_json(const PartsList& list);

}  // namespace voltwright
