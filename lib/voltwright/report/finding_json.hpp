#pragma once

#include "voltwright/planning/assumptions/assumption.hpp"
#include "voltwright/planning/findings/finding.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

namespace voltwright {

/// A finding as codes and numbers, each number with its unit in its key, and beside them `text` and `remedy` as a page
/// shows them.
nlohmann::ordered_json finding_json(const Finding& finding);
nlohmann::ordered_json assumption_json(const Assumption& assumption);

/// A quantity as a number, its unit in its key: `found` becomes `found_A`.
void put_measure(nlohmann::ordered_json& object, std::string_view name, const Measure& measure);

/// Arguments as keys of an object.
void put_arguments(nlohmann::ordered_json& object, const Arguments& arguments);

/// An answer as text, indented by two; bytes that are no UTF-8 become U+FFFD.
std::string written(const nlohmann::ordered_json& json);

}  // namespace voltwright
