#include "voltwright/diagnosis/fault_fit.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

bool FaultFit::has(const CircuitFault& fault) const {
    return std::find(faults.begin(), faults.end(), fault) != faults.end();
}

std::optional<FaultFit> fit_faults(const MeasurementModel& model, std::vector<CircuitFault> faults, Estimate from) {
    const LeastSquaresProblem problem{
        .residuals = [&](const Estimate& at) -> std::optional<Vector> {
            const auto shown = predicted(model, at, faults);
            return shown ? std::optional(residuals(model, *shown)) : std::nullopt;
        },
        .jacobian = [&](const Estimate& at) { return jacobian(model, at, faults, faults); }};
    auto fitted = fit(problem, std::move(from));
    if (!fitted) return {};
    return FaultFit{std::move(faults), std::move(*fitted)};
}

std::optional<FaultFit> fit_with_one_more(const MeasurementModel& model, const FaultFit& before,
                                          const CircuitFault& fault) {
    std::vector<CircuitFault> faults = before.faults;
    faults.push_back(fault);
    std::optional<FaultFit> best;
    for (const bool afresh : {false, true}) {
        Estimate from = afresh ? prior_estimate(model) : before.estimate();
        from.magnitudes = before.estimate().magnitudes;
        from.magnitudes.push_back(0.0);
        auto tried = fit_faults(model, faults, std::move(from));
        if (tried && (!best || tried->chi_squared() < best->chi_squared())) best = std::move(tried);
    }
    return best;
}

namespace {

Matrix columns_of(const Matrix& all, std::size_t from, std::size_t count) {
    Matrix some(all.rows(), count);
    for (std::size_t i = 0; i < count; ++i)
        std::copy_n(all.column(from + i).begin(), all.rows(), some.column(i).begin());
    return some;
}

}  // namespace

std::vector<ScoredFault> score_faults(const MeasurementModel& model, const FaultFit& fit) {
    std::vector<CircuitFault> others, all = fit.faults;
    for (const CircuitFault& fault : possible_faults(model.circuit, model.measurements.size()))
        if (!fit.has(fault)) others.push_back(fault);
    all.insert(all.end(), others.begin(), others.end());
    auto slopes = jacobian(model, fit.estimate(), fit.faults, all);
    const auto shown = predicted(model, fit.estimate(), fit.faults);
    if (!slopes || !shown) return {};
    const Matrix candidates = columns_of(slopes->magnitudes, fit.faults.size(), others.size());
    const Jacobian at_hand{std::move(slopes->priors), columns_of(slopes->magnitudes, 0, fit.faults.size())};
    const auto tests = score_tests(residuals(model, *shown), fit.estimate(), at_hand, candidates);
    std::vector<ScoredFault> scored;
    for (std::size_t i = 0; i < others.size(); ++i) {
        if (!tests[i] || (!(tests[i]->magnitude > 0.0) && !is_gross_error(others[i]))) continue;
        scored.push_back({others[i], tests[i]->gain, tests[i]->gain / 2.0 + prior_log_odds(model.circuit, others[i])});
    }
    std::stable_sort(scored.begin(), scored.end(),
                     [](const ScoredFault& a, const ScoredFault& b) { return a.log_weight > b.log_weight; });
    return scored;
}

bool explains_everything(const MeasurementModel& model, const FaultFit& fit) {
    constexpr double standard_deviations = 4.0, rounding = 4.0;
    const double degrees_of_freedom =
        std::max(1.0, static_cast<double>(model.measurements.size()) - static_cast<double>(fit.faults.size()));
    // Of χ² with as many degrees of freedom: mean n, variance 2·n.
    return fit.chi_squared() <
           degrees_of_freedom + standard_deviations * std::sqrt(2.0 * degrees_of_freedom) + rounding;
}

}  // namespace voltwright
