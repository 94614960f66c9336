#pragma once

#include "voltwright/report/parts_text.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// What to buy, in words; nothing when the list is empty.
struct SheetParts {
    std::vector<PartWords> lines;
    std::string allowance = {};          ///< "10 %": in every length
    std::string total = {};              ///< "2,140.50 ZAR of a budget of 2,500 ZAR"; empty without prices
    std::vector<std::string> more = {};  ///< what has no price and what no list can know, a sentence each
};

SheetParts sheet_parts(const PartsList& list);

namespace sheet {

std::string parts_table(const SheetParts& parts);

}  // namespace sheet

}  // namespace voltwright
