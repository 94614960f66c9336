#include "voltwright/planning/figures_missing.hpp"

namespace voltwright {

std::string_view show(FiguresMissing why) {
    switch (why) {
        case FiguresMissing::no_size_judged: return "no-size-judged";
        case FiguresMissing::power_not_brought: return "power-not-brought";
        case FiguresMissing::nothing_draws: return "nothing-draws";
    }
    return "";
}

std::optional<FiguresMissing> figures_missing(const RunPlan& run) {
    if (run.figures) return {};
    if (!run.taken()) return FiguresMissing::no_size_judged;
    if (peak_current(run.choice.design) > Current{}) return FiguresMissing::power_not_brought;
    return FiguresMissing::nothing_draws;
}

}  // namespace voltwright
