#pragma once

#include "voltwright/units/measure.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// A stop: the plan does not hold. A warn: it holds, and somebody should look. A note: good to know.
enum class Level { stop, warn, note };

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
};

using Findings = std::vector<Finding>;

constexpr std::string_view show(Level level) {
    return level == Level::stop ? "stop" : level == Level::warn ? "warn" : "note";
}

}  // namespace voltwright
