#pragma once

#include "voltwright/report/terminal.hpp"
#include "voltwright/shopping/parts_list.hpp"
#include "voltwright/tables/tables.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// One line of the list in words, the same on the page and in the sheet.
struct PartWords {
    std::string amount;       ///< "14.5 m", "4"
    std::string what;         ///< "cable 6 AWG, red", "ring lug 6 AWG, hole for 8 mm"
    std::string note;         ///< "2 of them spare", "feed, fridge"
    std::string price, cost;  ///< empty without prices; "no price" where there is none
};

std::vector<PartWords> parts_in_words(const PartsList& list);

/// "1250.00 N$"
std::string money_in_words(Money amount, const PartsList& list);

/// Where a budget cannot be judged yet, why not: "138.84 EUR so far; 25 things without a price, among them the cable: the
/// budget of 150.00 EUR cannot be judged".
std::string undecided_cost(const PartsList& list);

/// What the names of fuses on the list mean: "SF30 fuses: flat bolt-down fuses of ISO 8820-5 …".
std::vector<std::string> shop_words(const PartsList& list, const Tables& tables = built_in_tables());

/// The page of `parts`.
std::string parts_page(const PartsList& list, const Style& style);
/// What it costs, or how much there is to buy.
std::string parts_line(const PartsList& list);
/// One line a part, safe to open in a spreadsheet.
std::string parts_csv(const PartsList& list);
/// Held by shared/parts.schema.json.
std::string parts_json(const PartsList& list);

/// A cell of a CSV file: nothing in it runs as a formula in a spreadsheet (an apostrophe stands before what would), control
/// characters are gone, and it is quoted where it has to be.
std::string csv_cell(std::string_view text);

}  // namespace voltwright
