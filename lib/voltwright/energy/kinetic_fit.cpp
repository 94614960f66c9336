#include "voltwright/energy/kinetic_fit.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>

namespace voltwright {

namespace {

/// φ(x) = (1 − e⁻ˣ)/x, which is 1 at nothing.
double phi(double x) { return x > 0.0 ? -std::expm1(-x) / x : 1.0; }

/// The root of a continuous function that changes its sign between the two ends.
template <class Function>
double root_between(Function function, double low, double high) {
    std::uintmax_t most = 200;
    const auto [below, above] =
        boost::math::tools::toms748_solve(function, low, high, boost::math::tools::eps_tolerance<double>(50), most);
    return (below + above) / 2.0;
}

constexpr KineticParameters all_available{ratio(1.0), ChargeRate{}, ratio(1.0)};

}  // namespace

Charge peukert_capacity(Charge capacity, Duration rated_over, double exponent, Duration over) {
    return capacity * std::pow(in_ratio(over / rated_over), 1.0 - 1.0 / exponent);
}

Charge kinetic_charge(const KineticParameters& kinetics, Charge capacity_20_h, Duration over) {
    const double c = in_ratio(kinetics.available);
    return kinetics.whole * capacity_20_h * c / (c + (1.0 - c) * phi(in_ratio(kinetics.rate * over)));
}

std::optional<KineticParameters> fit_kinetics(Charge at_20_h, Charge at_5_h, Charge at_1_h) {
    if (!(at_1_h > Charge{} && at_5_h >= at_1_h && at_20_h >= at_5_h)) return {};
    // 1/Q over 1/Q₂₀: with φ it is a straight line, 1/Q = (1 + φ·(1 − c)/c)/Q_max.
    const double inverse_5 = in_ratio(at_20_h / at_5_h), inverse_1 = in_ratio(at_20_h / at_1_h);
    if (inverse_1 - 1.0 < 1e-6) return all_available;

    // In ln k, per hour: k itself may be of any magnitude.
    const auto off = [&](double ln_k) {
        const double k = std::exp(ln_k);
        return (inverse_1 - inverse_5) * (phi(5.0 * k) - phi(20.0 * k)) - (inverse_5 - 1.0) * (phi(k) - phi(5.0 * k));
    };
    const double slowest = std::log(1e-4), fastest = std::log(1e4);
    if (!(off(slowest) > 0.0 && off(fastest) < 0.0)) return {};
    const double k = std::exp(root_between(off, slowest, fastest));

    const double slope = (inverse_5 - 1.0) / (phi(5.0 * k) - phi(20.0 * k));
    const double inverse_whole = 1.0 - slope * phi(20.0 * k);
    if (!(inverse_whole > 0.0)) return {};
    // (1 − c)/c = slope/inverse_whole
    return KineticParameters{ratio(inverse_whole / (inverse_whole + slope)), per_hour(k), ratio(1.0 / inverse_whole)};
}

KineticParameters kinetics_of_exponent(double exponent) {
    const Charge rated = ampere_hours(100.0);
    const auto at = [&](double over) { return peukert_capacity(rated, hours(20.0), exponent, hours(over)); };
    return fit_kinetics(rated, at(5.0), at(1.0)).value();
}

}  // namespace voltwright
