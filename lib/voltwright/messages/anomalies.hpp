#pragma once

#include "voltwright/diagnosis/diagnosis.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// "poles swapped", "open" …: its code in the answers.
std::string_view show(Anomaly::Kind kind);
std::string_view show(Verdict verdict);

/// What an anomaly says, with its figures and the next step: "reading 2: 0.02 V and no current: there is no way through …"
std::string show(const Anomaly& anomaly);

/// What the first line says of all grave ones, each once; empty where there is none.
std::string headlines(const std::vector<Anomaly>& anomalies);

}  // namespace voltwright
