#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

namespace voltwright {

/// The answer of `trip`: verdict, state of charge as a line over the days, day by day, where the energy went. The plan
/// has to be made with its timeline.
std::string trip_page(const Plan& plan, const Style& style);
std::string trip_line(const Plan& plan);

/// Every step of the timeline: day, clock, state of charge, volts, amps.
std::string trip_csv(const Plan& plan);

}  // namespace voltwright
