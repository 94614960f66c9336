// The estimator alone, on circuits of one or two resistors whose answers are worked out by hand beside each case (own
// derivations from Ohm's law and the weighted mean).

#include "voltwright/diagnosis/least_squares.hpp"
#include "testing.hpp"

#include <cmath>

namespace voltwright {

namespace {

/// y = y0 + B·p + F·m, which a linear circuit is, in uncertainties.
LeastSquaresProblem linear(const Vector& measured, const Jacobian& slopes) {
    return {.residuals = [=](const Estimate& at) -> std::optional<Vector> {
                const Vector by_priors = product(slopes.priors, at.priors);
                const Vector by_magnitudes = product(slopes.magnitudes, at.magnitudes);
                Vector left = measured;
                for (std::size_t i = 0; i < left.size(); ++i) left[i] -= by_priors[i] + by_magnitudes[i];
                return left;
            },
            .jacobian = [=](const Estimate&) { return std::optional(slopes); }};
}

Matrix column_of(const Vector& numbers) {
    Matrix one(numbers.size(), 1);
    for (std::size_t i = 0; i < numbers.size(); ++i) one(i, 0) = numbers[i];
    return one;
}

}  // namespace

// Two readings of one resistor: 10.1 mΩ ± 0.1 and 10.3 mΩ ± 0.2. The weighted mean is
// (10.1/0.01 + 10.3/0.04)/(1/0.01 + 1/0.04) = 1267.5/125 = 10.14 mΩ, its variance 1/125, and what is left
// (0.04/0.1)² + (0.16/0.2)² = 0.16 + 0.64.
TEST_CASE("estimator: two readings of one resistor give their weighted mean and its variance") {
    const auto found =
        fit(linear({10.1 / 0.1, 10.3 / 0.2}, {Matrix(2, 0), column_of({1 / 0.1, 1 / 0.2})}), {{}, {0.0}});
    REQUIRE(found);
    CHECK(found->estimate.magnitudes[0] == near(10.14, 1e-9));
    CHECK(found->covariance(0, 0) == near(1.0 / 125.0, 1e-9));
    CHECK(found->chi_squared == near(0.8, 1e-9));
}

// 10 A through two resistors in a row. The first is taken to have 10 mΩ ± 1; across it stand 120 mV ± 10, which is 12 mΩ ± 1:
// of two that are as good the middle, 11 mΩ, with χ² = 1 + 1. Across both stand 410 mV ± 10, 41 mΩ ± 1. The second, of
// which nothing is known, has what is left: 30 mΩ, with the variance of the first, 1/2, and of the reading, 1.
TEST_CASE("estimator: of two resistors the known one is drawn to its reading and the unknown one has the rest") {
    Jacobian slopes{Matrix(2, 1), Matrix(2, 1)};
    slopes.priors(0, 0) = slopes.priors(1, 0) = 1.0;
    slopes.magnitudes(1, 0) = 1.0;
    const auto found = fit(linear({12.0 - 10.0, 41.0 - 10.0}, slopes), {{0.0}, {0.0}});
    REQUIRE(found);
    CHECK(found->estimate.priors[0] == near(1.0, 1e-9));
    CHECK(found->estimate.magnitudes[0] == near(30.0, 1e-9));
    CHECK(found->covariance(0, 0) == near(1.5, 1e-9));
    CHECK(found->chi_squared == near(2.0, 1e-9));
}

// 12 V over 1 Ω and an unknown resistor: 4 A ± 0.01 flow, so it has 2 Ω. The slope is −12 V/(3 Ω)², so its standard
// deviation is 0.01 A · 9/12 = 7.5 mΩ.
TEST_CASE("estimator: a circuit that is not linear is solved by steps, from far off too") {
    const LeastSquaresProblem problem{.residuals = [](const Estimate& at) -> std::optional<Vector> {
                                          const double all = 1.0 + at.magnitudes[0];
                                          if (!(all > 0.0)) return {};
                                          return Vector{(4.0 - 12.0 / all) / 0.01};
                                      },
                                      .jacobian = [](const Estimate& at) -> std::optional<Jacobian> {
                                          const double all = 1.0 + at.magnitudes[0];
                                          return Jacobian{Matrix(1, 0), column_of({-12.0 / (all * all) / 0.01})};
                                      }};
    for (const double from : {0.0, 1.0, 5.0, 20.0}) {
        CAPTURE(from);
        const auto found = fit(problem, {{}, {from}});
        REQUIRE(found);
        CHECK(found->estimate.magnitudes[0] == near(2.0, 1e-4));
        CHECK(std::sqrt(found->covariance(0, 0)) == near(7.5e-3, 1e-4));
    }
}

TEST_CASE("estimator: where the model has no answer there is none") {
    const LeastSquaresProblem problem{.residuals = [](const Estimate&) { return std::optional<Vector>(); },
                                      .jacobian = [](const Estimate&) { return std::optional<Jacobian>(); }};
    CHECK_FALSE(fit(problem, {{0.0}, {0.0}}));
}

// One reading is 3 uncertainties off, and a prior moves it by one: its variance is 1 + 1. A fault that moves it by 2 for each
// unit needs 3/2 and takes away all that is left, 3²/2.
TEST_CASE("score test: one reading that a fault can explain wholly") {
    const auto tests = score_tests({3.0}, {{0.0}, {}}, {column_of({1.0}), Matrix(1, 0)}, column_of({2.0}));
    REQUIRE(tests.size() == 1);
    REQUIRE(tests[0]);
    CHECK(tests[0]->magnitude == near(1.5, 1e-12));
    CHECK(tests[0]->gain == near(4.5, 1e-12));
}

// The fault at hand explains the first of two readings, whatever it is; so of a fault in both only the second counts, which
// is 2 uncertainties off.
TEST_CASE("score test: what the faults at hand explain counts for no other, and what no reading shows is no test") {
    Matrix candidates(2, 3);
    candidates(0, 0) = candidates(1, 0) = 1.0;  // in both readings
    candidates(0, 1) = 1.0;                     // in the first alone
    const auto tests = score_tests({5.0, 2.0}, {{}, {0.0}}, {Matrix(2, 0), column_of({1.0, 0.0})}, candidates);
    REQUIRE(tests.size() == 3);
    REQUIRE(tests[0]);
    CHECK(tests[0]->magnitude == near(2.0, 1e-12));
    CHECK(tests[0]->gain == near(4.0, 1e-12));
    CHECK_FALSE(tests[1]);
    CHECK_FALSE(tests[2]);
}

// A law of linear least squares: the score tells by how much χ² falls when the unknown is fitted.
TEST_CASE("score test: in a linear circuit the gain is what a fit with that fault lowers the sum by") {
    const Vector measured = {1.0, -2.0, 4.0};
    Jacobian slopes{Matrix(3, 2), Matrix(3, 0)};
    slopes.priors(0, 0) = 0.5;
    slopes.priors(1, 1) = 2.0;
    slopes.priors(2, 0) = 1.0;
    const Matrix fault = column_of({0.3, -1.0, 2.0});
    const auto without = fit(linear(measured, slopes), {{0.0, 0.0}, {}});
    const auto with = fit(linear(measured, {slopes.priors, fault}), {{0.0, 0.0}, {0.0}});
    REQUIRE(without);
    REQUIRE(with);
    const auto left = linear(measured, slopes).residuals(without->estimate);
    const auto tests = score_tests(*left, without->estimate, slopes, fault);
    REQUIRE(tests[0]);
    CHECK(tests[0]->gain == near(without->chi_squared - with->chi_squared, 1e-9));
    CHECK(tests[0]->magnitude == near(with->estimate.magnitudes[0], 1e-9));
}

}  // namespace voltwright
