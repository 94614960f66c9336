#pragma once

#include "voltwright/planning/run_plan.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// Why nothing is told of what flows through a run, and of what arrives.
enum class FiguresMissing {
    no_size_judged,     ///< the shop has none
    power_not_brought,  ///< so much power does not come through what there is
    nothing_draws,      ///< nothing that the profile knows hangs behind it
};
/// "power-not-brought"
std::string_view show(FiguresMissing why);

/// Empty where its figures are there.
std::optional<FiguresMissing> figures_missing(const RunPlan& run);

}  // namespace voltwright
