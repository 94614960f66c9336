#include "voltwright/diagnosis/least_squares.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

constexpr int most_steps = 30;
/// A step that lowers χ² by less has arrived.
constexpr double arrived = 1e-3;
/// The first damping after a whole step, by how much it grows, and where shorter steps are no use any more.
constexpr double first_damping = 1e-2, damping_grows = 10.0, most_damping = 1e6;
/// Beside the curvature of anything that is measured this is nothing; a magnitude that nothing shows stays where it is.
constexpr double least_curvature = 1e-12;
/// A column of less than this, or that the others leave less of, shows nothing.
constexpr double least_column = 1e-12, least_sharpness = 1e-9;

double chi_squared(const Vector& residuals, const Estimate& estimate) {
    return squared_norm(residuals) + squared_norm(estimate.priors);
}

/// I + A/k
Matrix beside_identity(const Matrix& a, double k) {
    Matrix sum = identity(a.rows());
    for (std::size_t i = 0; i < a.columns(); ++i) {
        const auto from = a.column(i);
        const auto to = sum.column(i);
        for (std::size_t j = 0; j < to.size(); ++j) to[j] += from[j] / k;
    }
    return sum;
}

/// a + b/k
Vector sum_with_part(const Vector& a, const Vector& b, double k) {
    Vector sum = a;
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += b[i] / k;
    return sum;
}

/// The model around an estimate.
struct Linearised {
    Jacobian slopes;
    Matrix priors_across, magnitudes_across;  ///< transposed
    Matrix products;                          ///< B·Bᵀ
    Vector residuals;
    Vector leant;  ///< B·p
};

Linearised linearised(Jacobian slopes, const Vector& residuals, const Estimate& estimate) {
    Linearised model{.slopes = std::move(slopes),
                     .priors_across = {},
                     .magnitudes_across = {},
                     .products = {},
                     .residuals = residuals,
                     .leant = {}};
    model.priors_across = transposed(model.slopes.priors);
    model.magnitudes_across = transposed(model.slopes.magnitudes);
    model.products = product(model.slopes.priors, model.priors_across);
    model.leant = product(model.slopes.priors, estimate.priors);
    return model;
}

/// One step from an estimate. A whole one (damping 0) also tells the covariance of the magnitudes.
Estimate stepped(const Linearised& model, const Estimate& from, double damping, Matrix& covariance) {
    const double stiffness = 1.0 + damping;
    const PositiveDefinite among_measurements(beside_identity(model.products, stiffness));
    const Vector wanted = sum_with_part(model.residuals, model.leant, stiffness);
    Vector left = wanted;
    Estimate next = from;
    const std::size_t magnitudes = from.magnitudes.size();
    if (magnitudes > 0) {
        Matrix curvature = product(model.magnitudes_across, among_measurements.solve(model.slopes.magnitudes));
        for (std::size_t f = 0; f < magnitudes; ++f) curvature(f, f) += least_curvature;
        if (!(damping > 0.0)) covariance = PositiveDefinite(curvature).solve(identity(magnitudes));
        for (std::size_t f = 0; f < magnitudes; ++f) curvature(f, f) *= stiffness;
        const Vector pull = product(model.magnitudes_across, among_measurements.solve(wanted));
        const Vector step = PositiveDefinite(curvature).solve(pull);
        for (std::size_t f = 0; f < magnitudes; ++f) next.magnitudes[f] += step[f];
        left = sum_of(left, -1.0, product(model.slopes.magnitudes, step));
    }
    const Vector pulled = product(model.priors_across, among_measurements.solve(left));
    for (std::size_t i = 0; i < next.priors.size(); ++i) next.priors[i] += (pulled[i] - from.priors[i]) / stiffness;
    return next;
}

/// A fit with what the model leaves over there.
struct Progress {
    LeastSquaresFit fit;
    Vector residuals;
};

/// The first step, whole or shorter, that lowers χ². False when none does so by enough to go on.
bool improve(const LeastSquaresProblem& problem, const Linearised& model, Progress& at) {
    for (double damping = 0.0; damping < most_damping; damping = std::max(first_damping, damping_grows * damping)) {
        Estimate next = stepped(model, at.fit.estimate, damping, at.fit.covariance);
        auto residuals = problem.residuals(next);
        if (!residuals) continue;
        const double chi = chi_squared(*residuals, next);
        if (!(chi < at.fit.chi_squared)) continue;
        const bool better = at.fit.chi_squared - chi > arrived;
        at.fit.estimate = std::move(next);
        at.fit.chi_squared = chi;
        at.residuals = std::move(*residuals);
        return better;
    }
    return false;
}

}  // namespace

std::optional<LeastSquaresFit> fit(const LeastSquaresProblem& problem, Estimate from) {
    auto residuals = problem.residuals(from);
    if (!residuals) return {};
    const double chi = chi_squared(*residuals, from);
    Progress at{{.estimate = std::move(from), .chi_squared = chi}, std::move(*residuals)};
    for (int step = 0; step < most_steps; ++step) {
        auto slopes = problem.jacobian(at.fit.estimate);
        if (!slopes) {
            // At the edge of what can be fed the last good estimate stands; without a fault it needs no more than that.
            if (at.fit.estimate.magnitudes.empty() || !at.fit.covariance.empty()) break;
            return {};
        }
        if (!improve(problem, linearised(std::move(*slopes), at.residuals, at.fit.estimate), at)) break;
    }
    return std::move(at.fit);
}

std::vector<std::optional<ScoreTest>> score_tests(const Vector& residuals, const Estimate& estimate,
                                                  const Jacobian& jacobian, const Matrix& candidates) {
    const Matrix& faults = jacobian.magnitudes;
    const Matrix faults_across = transposed(faults);
    const PositiveDefinite spread(beside_identity(product(jacobian.priors, transposed(jacobian.priors)), 1.0));
    const Vector wanted = sum_of(residuals, 1.0, product(jacobian.priors, estimate.priors));
    // A matrix without a row is not to be decomposed.
    Matrix weighted_faults;
    std::optional<PositiveDefinite> among_faults;
    if (!faults.empty()) {
        weighted_faults = spread.solve(faults);
        among_faults.emplace(product(faults_across, weighted_faults));
    }
    std::vector<std::optional<ScoreTest>> tests(candidates.columns());
    for (std::size_t h = 0; h < candidates.columns(); ++h) {
        const auto column = candidates.column(h);
        if (!(squared_norm(column) > least_column)) continue;
        Vector weighted = spread.solve(column);
        if (among_faults)
            weighted =
                sum_of(weighted, -1.0, product(weighted_faults, among_faults->solve(product(faults_across, weighted))));
        const double sharpness = dot(weighted, column);
        if (!(sharpness > least_sharpness)) continue;
        const double magnitude = dot(weighted, wanted) / sharpness;
        tests[h] = ScoreTest{magnitude, magnitude * magnitude * sharpness};
    }
    return tests;
}

}  // namespace voltwright
