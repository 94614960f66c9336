#pragma once

#include "voltwright/messages/readings.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

namespace voltwright {

/// The page of `readings`.
std::string readings_page(const TestPlan& plan, const Style& style);
std::string readings_line(const TestPlan& plan);
/// Held by shared/readings.schema.json.
std::string readings_json(const TestPlan& plan);

}  // namespace voltwright
