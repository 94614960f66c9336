#pragma once

#include "voltwright/diagnosis/diagnosis.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

namespace voltwright {

/// The page of `diagnose`.
std::string diagnosis_page(const Diagnosis& diagnosis, const Style& style);
std::string diagnosis_line(const Diagnosis& diagnosis);
/// Held by shared/diagnosis.schema.json.
std::string diagnosis_json(const Diagnosis& diagnosis);

}  // namespace voltwright
