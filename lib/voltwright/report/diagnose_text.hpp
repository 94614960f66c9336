#pragma once

#include "voltwright/planning/diagnose.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// "joint", "gauge" …
std::string_view show(Suspicion::Kind kind);

/// "the feed lug at charger + has 38 ± 6 mOhm more than it should: at 28 A that heats 30 W into it"
std::string show(const Suspicion& suspicion);

/// "poles swapped", "open" …
std::string_view show(Remark::Kind kind);
std::string show(const Remark& remark);

/// The page of `diagnose`.
std::string diagnosis_page(const Diagnosis& diagnosis, const Style& style);
std::string diagnosis_line(const Diagnosis& diagnosis);
/// Held by shared/diagnosis.schema.json.
std::string diagnosis_json(const Diagnosis& diagnosis);

}  // namespace voltwright
