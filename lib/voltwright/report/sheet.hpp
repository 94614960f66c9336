#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/parts_text.hpp"
#include "voltwright/report/readings_text.hpp"

#include <string>
#include <string_view>
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

/// What the foot of the sheet says of where it comes from.
struct SheetNote {
    std::string version;       ///< of voltwright
    std::string profile = {};  ///< the file's name
};

/// The sheet for the shed: one page of HTML that needs nothing beside itself, works without scripts and prints on A4 and
/// Letter. `plan` has to be made with its timeline. A section with nothing in it is left out.
std::string sheet_html(const Plan& plan, const System& system, const std::vector<ReadingStage>& readings,
                       const SheetParts& parts, const SheetNote& note);

/// Whether a file that begins so is a sheet of ours. 512 bytes are enough.
bool is_sheet(std::string_view beginning);

}  // namespace voltwright
