#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/readings_text.hpp"
#include "voltwright/report/sheet_parts.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

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
