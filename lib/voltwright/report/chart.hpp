#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/diagram.hpp"
#include "voltwright/report/drawing.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace voltwright {

/// A drawing, and what it shows in words.
struct Chart {
    Drawing drawing;
    std::string words;
};

/// The state of charge as a line over the days, with nights, drives and the depth limit. Empty when the plan was made
/// without its timeline.
std::optional<Chart> soc_line(const Plan& plan, Room room, const std::string& name);

/// The voltage on its way from the starter battery to the charger and on to the house battery: with the engine running as
/// usual, and at its lowest. Empty when there is no feed that can be drawn.
std::optional<Chart> feed_line(const Plan& plan, Room room, const std::string& name);

}  // namespace voltwright
