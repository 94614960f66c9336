#include "voltwright/energy/kinetics.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace voltwright {

namespace {

/// φ(x) = (1 − e⁻ˣ)/x, which is 1 at nothing.
double phi(double x) { return x > 0.0 ? -std::expm1(-x) / x : 1.0; }

/// The share of the flow that the available well has to carry itself over a step of x = k·Δt.
double burden(double c, double x) {
    const double p = phi(x);
    return p + c * (1.0 - p);
}

/// What the available well would hold after a step without current.
Charge levelled(Wells wells, double c, double x) {
    const double moved = -std::expm1(-x);
    return wells.available + (c * (wells.available + wells.bound) - wells.available) * moved;
}

/// The root of a continuous function that changes its sign between the two ends.
template <class Function>
double root_between(Function function, double low, double high) {
    std::uintmax_t most = 200;
    const auto [below, above] =
        boost::math::tools::toms748_solve(function, low, high, boost::math::tools::eps_tolerance<double>(50), most);
    return (below + above) / 2.0;
}

constexpr Kinetics one_well{ratio(1.0), ChargeRate{}, ratio(1.0)};

}  // namespace

Duration peukert_time(Charge capacity, Duration rated_over, double exponent, Current current) {
    return rated_over * std::pow(in_ratio(capacity / (current * rated_over)), exponent);
}

Duration capped_peukert_time(Charge capacity, Duration rated_over, double exponent, Current current) {
    return std::min<Duration>(peukert_time(capacity, rated_over, exponent, current), capacity / current);
}

Charge peukert_capacity(Charge capacity, Duration rated_over, double exponent, Duration over) {
    return capacity * std::pow(in_ratio(over / rated_over), 1.0 - 1.0 / exponent);
}

Charge kinetic_charge(const Kinetics& kinetics, Charge capacity_20_h, Duration over) {
    const double c = in_ratio(kinetics.available);
    return kinetics.whole * capacity_20_h * c / (c + (1.0 - c) * phi(in_ratio(kinetics.rate * over)));
}

std::optional<Kinetics> fit_kinetics(Charge at_20_h, Charge at_5_h, Charge at_1_h) {
    if (!(at_1_h > Charge{} && at_5_h >= at_1_h && at_20_h >= at_5_h)) return {};
    // 1/Q over 1/Q₂₀: with φ it is a straight line, 1/Q = (1 + φ·(1 − c)/c)/Q_max.
    const double inverse_5 = in_ratio(at_20_h / at_5_h), inverse_1 = in_ratio(at_20_h / at_1_h);
    if (inverse_1 - 1.0 < 1e-6) return one_well;

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
    return Kinetics{ratio(inverse_whole / (inverse_whole + slope)), per_hour(k), ratio(1.0 / inverse_whole)};
}

Kinetics kinetics_of_exponent(double exponent) {
    const Charge rated = ampere_hours(100.0);
    const auto at = [&](double over) { return peukert_capacity(rated, hours(20.0), exponent, hours(over)); };
    return fit_kinetics(rated, at(5.0), at(1.0)).value();
}

Wells full_wells(const Kinetics& kinetics, Charge whole) { return wells_at(kinetics, whole, ratio(1.0)); }

Wells wells_at(const Kinetics& kinetics, Charge whole, Ratio soc) {
    const Charge available = kinetics.available * whole * soc;
    return {available, whole * soc - available};
}

Wells rested_step(Wells wells, const Kinetics& kinetics, Current out, Duration over) {
    const double c = in_ratio(kinetics.available), x = in_ratio(kinetics.rate * over);
    const Charge drawn = out * over;
    const Charge available = levelled(wells, c, x) - drawn * burden(c, x);
    return {available, wells.available + wells.bound - drawn - available};
}

Current largest_discharge(Wells wells, const Kinetics& kinetics, Duration over) {
    const double c = in_ratio(kinetics.available), x = in_ratio(kinetics.rate * over);
    return levelled(wells, c, x) / (over * burden(c, x));
}

Current largest_charge(Wells wells, const Kinetics& kinetics, Charge whole, Duration over) {
    const double c = in_ratio(kinetics.available), x = in_ratio(kinetics.rate * over);
    return (levelled(wells, c, x) - kinetics.available * whole) / (over * burden(c, x));
}

std::optional<Duration> time_to_empty(Wells wells, const Kinetics& kinetics, Current out) {
    if (!(out > Current{})) return {};
    if (!(wells.available > Charge{})) return Duration{};
    // By then both wells together are empty, so the available one has been. Before, its level has one zero alone: it
    // falls all the way, or bends down all the way.
    const Duration latest = (wells.available + wells.bound) / out;
    const auto left = [&](double share) {
        return in_ratio(rested_step(wells, kinetics, out, latest * share).available / (out * latest));
    };
    if (!(left(1.0) < 0.0)) return latest;
    return latest * root_between(left, 0.0, 1.0);
}

}  // namespace voltwright
