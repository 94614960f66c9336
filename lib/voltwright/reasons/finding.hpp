#pragma once

#include "voltwright/units/measure.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// A stop: the plan does not hold. A warn: it holds, and somebody should look. A note: good to know.
enum class Level { stop, warn, note };

/// What a finding bears on beside the plan as a whole: a stop of the trip stops the trip too, and one that stands with the
/// engine off as well the hours that everything runs then.
enum class Concern { wiring, trip, engine_off };

/// What physics or a rule has to say of a plan. It keeps quantities; report finds the words, with both numbers and the
/// next step.
struct Finding {
    Level level;
    std::string_view code;           ///< what kind of finding: `drop`, `breaking-capacity`
    std::string about;               ///< which thing: `feed`, `fridge`
    std::optional<Measure> found;    ///< what there is
    std::optional<Measure> allowed;  ///< what the rule or the part allows
    std::string remedy;              ///< the next step, a sentence
    std::string source;              ///< the rule's source
    std::string detail = {};         ///< a name that the words need: the part, the fuse, the size
    Concern concern = Concern::wiring;

    [[nodiscard]] bool stops() const { return level == Level::stop; }
};

using Findings = std::vector<Finding>;

inline bool any_stops(const Findings& findings) {
    return std::any_of(findings.begin(), findings.end(), [](const Finding& finding) { return finding.stops(); });
}

constexpr std::string_view show(Level level) {
    return level == Level::stop ? "stop" : level == Level::warn ? "warn" : "note";
}

}  // namespace voltwright
