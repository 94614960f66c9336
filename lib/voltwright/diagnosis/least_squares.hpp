#pragma once

#include "voltwright/diagnosis/linear_algebra.hpp"

#include <functional>
#include <optional>

/// Weighted least squares with prior knowledge, for a model that is not linear.
namespace voltwright {

/// What is estimated.
struct Estimate {
    Vector priors;      ///< unknowns of which something is known beforehand: how far from that, in standard deviations
    Vector magnitudes;  ///< unknowns of which nothing is known: how large each fault is
};

/// How each measurement follows each unknown, divided by the measurement's standard uncertainty.
struct Jacobian {
    Matrix priors;
    Matrix magnitudes;
};

/// Both are empty where the model has no answer: its loads cannot be fed.
struct LeastSquaresProblem {
    /// What was measured less what the model predicts, each divided by its standard uncertainty.
    std::function<std::optional<Vector>(const Estimate&)> residuals;
    std::function<std::optional<Jacobian>(const Estimate&)> jacobian;
};

struct LeastSquaresFit {
    Estimate estimate;
    double chi_squared = 0.0;
    Matrix covariance = {};  ///< of the magnitudes; empty where there are none
};

/// The estimate with the least χ², from one at hand.
///
///     χ² = Σ r_i² + Σ p_k²
///     (B·Bᵀ + I)·λ = r + B·p − F·Δm        p' = Bᵀ·λ
///     (Fᵀ·S⁻¹·F)·Δm = Fᵀ·S⁻¹·(r + B·p)     S = I + B·Bᵀ
///     cov m = (Fᵀ·S⁻¹·F)⁻¹
///
/// r, p, m   residuals, priors and magnitudes      B, F   Jacobian of the priors and of the magnitudes
///
/// Gauss-Newton steps, solved among the measurements because these are fewer than the unknowns; where a whole step leads
/// nowhere, shorter ones (Levenberg and Marquardt). Source: generalised least squares of statistics textbooks (from memory).
///
/// Empty when the model has no answer at the beginning; and at the edge of what it can answer, as long as no covariance of
/// the magnitudes is known.
std::optional<LeastSquaresFit> fit(const LeastSquaresProblem& problem, Estimate from);

/// What one more unknown would do for a fit, judged by the slopes at hand.
struct ScoreTest {
    double magnitude;  ///< of the unknown
    double gain;       ///< by how much χ² would fall
};

/// Score test of generalised least squares: the priors are marginalised, the magnitudes at hand projected out.
///
///     z = r + B·p        S = I + B·Bᵀ        Q = S⁻¹ − S⁻¹·F·(Fᵀ·S⁻¹·F)⁻¹·Fᵀ·S⁻¹
///     magnitude = gᵀ·Q·z/(gᵀ·Q·g)            gain = (gᵀ·Q·z)²/(gᵀ·Q·g)
///
/// g   a column of `candidates`: how each measurement follows that unknown, in uncertainties
///
/// Of each column; empty for one that no measurement shows, or none by itself.
std::vector<std::optional<ScoreTest>> score_tests(const Vector& residuals, const Estimate& estimate,
                                                  const Jacobian& jacobian, const Matrix& candidates);

}  // namespace voltwright
