#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/drawing.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// How much room a drawing has across: a phone, or a page.
enum class Room { phone, page };

/// Units across a drawing for that room.
double units_across(Room room);

/// The wiring on one line: each line stands for the way out and its return. From the alternator to the charger, back to
/// the house battery, and from there a branch for each thing. More than one drawing where it is too tall for a page.
std::vector<Drawing> wiring_diagram(const Plan& plan, const System& system, Room room, const std::string& name);

}  // namespace voltwright
