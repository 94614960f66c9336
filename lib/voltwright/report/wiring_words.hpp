#pragma once

#include "voltwright/planning/plan.hpp"

#include <string>
#include <string_view>
#include <vector>

/// What a wiring diagram says along its lines and in its boxes.
namespace voltwright {

inline constexpr std::string_view by_the_body = "back by the body";

/// The words that stand along a run.
struct RunWords {
    std::string name;                 ///< "feed", or nothing where the run is called by its end
    std::string size;                 ///< "6 AWG, 6.2 m"
    std::string near_fuse, far_fuse;  ///< at the end that is drawn first, and at the other
    bool body;                        ///< the return is the body

    /// Name and size in lines no wider than `ems`: however long the name, the size is there.
    [[nodiscard]] std::vector<std::string> lines(double ems) const;
};

RunWords run_words(const RunPlan& run, const Place& drawn_first);

/// What stands in the box of a place: its name, and what it is.
std::vector<std::string> box_words(const System& system, const Place& place);

/// The wiring in words, for who cannot see the diagram.
std::string wiring_in_words(const Plan& plan);

}  // namespace voltwright
