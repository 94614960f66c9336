#include "voltwright/energy/kinetic_battery.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

namespace voltwright {

KineticState kinetic_state_at(const KineticParameters& kinetics, Charge whole, Ratio soc) {
    const Charge available = kinetics.available * whole * soc;
    return {available, whole * soc - available};
}

Ratio level(const KineticState& state, const KineticParameters& kinetics, Charge whole) {
    return state.available / (kinetics.available * whole);
}

namespace {

using ChargeTime = units::quantity<units::multiply_typeof_helper<si::time, si::time>::type>;

/// ∫ exp(λ·s) ds from 0 to t, and ∫ of that again.
struct Growth {
    Duration once;
    ChargeTime twice;
};

Growth growth(ChargeRate rate, Duration t) {
    const double x = rate * t;
    if (std::abs(x) < 0.06) {
        // Both by their series: as exact as the other form, and without a difference of equals.
        double twice = 1.0 / 40320.0;
        for (const double next : {5040.0, 720.0, 120.0, 24.0, 6.0, 2.0}) twice = twice * x + 1.0 / next;
        return {t * (1.0 + x * twice), twice * t * t};
    }
    const Duration each = 1.0 / rate;
    const Duration once = std::expm1(x) * each;
    return {once, (once - t) * each};
}

/// Available and bound charge from now on: y(t) = y + first·E1(t) + second·E2(t), for each of them.
class Trajectory {
public:
    Trajectory(const KineticState& state, const KineticParameters& kinetics, Charge whole, const LinearSegment& segment)
        : now_(state),
          room_(kinetics.available * whole),
          low_(segment.low * room_),
          high_(segment.high * room_),
          at_low_(segment.at_low),
          at_high_(segment.at_high) {
        const ChargeRate b = (segment.at_high - segment.at_low) / (high_ - low_);
        const Current inflow = segment.at_low + b * (state.available - low_);
        if (!(kinetics.available < 1.0) || !(kinetics.rate > ChargeRate{})) {
            slow_ = b;
            first_[0] = inflow;
            return;
        }
        const ChargeRate down = kinetics.rate * (1.0 - kinetics.available);  // from available to bound
        const ChargeRate up = kinetics.rate * kinetics.available;
        const ChargeRate trace = b - down - up;
        const auto determinant = -up * b;
        const ChargeRate root = sqrt(trace * trace - 4.0 * determinant);
        // The eigenvalue without cancellation first; the other from the determinant.
        const ChargeRate large = (trace < ChargeRate{} ? trace - root : trace + root) / 2.0;
        const ChargeRate small = determinant / large;
        slow_ = small;
        fast_ = large;
        const Current sinking = down * state.available - up * state.bound;
        const Current rising = inflow - sinking;
        const Duration apart = 1.0 / (small - large);
        first_[0] = ((b - down - large) * rising + up * sinking) * apart;
        second_[0] = rising - first_[0];
        first_[1] = (down * rising - (up + large) * sinking) * apart;
        second_[1] = sinking - first_[1];
    }

    [[nodiscard]] KineticStep at(Duration t) const { return at(t, growth(slow_, t), growth(fast_, t)); }

    /// Until `most`, or until the level leaves the segment.
    [[nodiscard]] KineticStep until(Duration most) const {
        const Growth slow = growth(slow_, most), fast = growth(fast_, most);
        const KineticStep moved = at(most, slow, fast);
        std::optional<Charge> bound = beyond(moved.state.available);
        // It turns on the way only if it rises at one end and falls at the other.
        std::optional<Duration> turn;
        if ((first_[0] + second_[0] > Current{}) != (rising(slow, fast) > Current{})) turn = turning_point(most);
        if (!bound) {
            // It may leave and come back: at its one turning point it would be outside.
            if (!turn) return moved;
            bound = beyond(at(*turn).state.available);
            return bound ? crossing(*bound, Duration{}, *turn) : moved;
        }
        if (!turn) return crossing(*bound, Duration{}, most);
        // It may go in before it goes out; or out, and not all the way back.
        const bool out_first = now_.available != *bound && beyond(at(*turn).state.available);
        return out_first ? crossing(*bound, Duration{}, *turn) : crossing(*bound, *turn, most);
    }

private:
    [[nodiscard]] KineticStep at(Duration t, const Growth& slow, const Growth& fast) const {
        const auto level_time = now_.available * t + first_[0] * slow.twice + second_[0] * fast.twice;
        return {{now_.available + first_[0] * slow.once + second_[0] * fast.once,
                 now_.bound + first_[1] * slow.once + second_[1] * fast.once},
                t,
                level_time / room_};
    }

    /// How fast the available charge rises then.
    [[nodiscard]] Current rising(const Growth& slow, const Growth& fast) const {
        return first_[0] * (1.0 + slow_ * slow.once) + second_[0] * (1.0 + fast_ * fast.once);
    }

    [[nodiscard]] std::optional<Charge> beyond(Charge then) const {
        if (then < low_ && now_.available >= low_) return low_;
        if (then > high_ && now_.available <= high_) return high_;
        return {};
    }

    /// When the level turns, within `most`: two exponentials have one turning point at most.
    [[nodiscard]] std::optional<Duration> turning_point(Duration most) const {
        const double ratio = -(first_[0] / second_[0]);
        if (!(ratio > 0.0) || slow_ == fast_) return {};
        const Duration when = std::log(ratio) / (fast_ - slow_);
        if (!(when > Duration{}) || !(when < most)) return {};
        return when;
    }

    /// Where the level is on the bound, between two times on both sides of it.
    [[nodiscard]] KineticStep crossing(Charge bound, Duration earliest, Duration latest) const {
        const Charge away = now_.available - bound;
        if (away == Charge{} && !(earliest > Duration{})) return {now_, Duration{}, Duration{}};
        KineticStep last{};
        // Coulombs, amperes and seconds: the root finder takes plain numbers.
        const auto off = [&](double t) {
            const Duration then = seconds(t);
            const Growth slow = growth(slow_, then), fast = growth(fast_, then);
            last = at(then, slow, fast);
            const Current by_slow = first_[0] * (1.0 + slow_ * slow.once);
            const Current by_fast = second_[0] * (1.0 + fast_ * fast.once);
            const auto bend = slow_ * by_slow + fast_ * by_fast;
            return std::tuple{(last.state.available - bound).value(), in_amperes(by_slow + by_fast), bend.value()};
        };
        // Halley's method converges cubically: a last relative step of 2^-20 leaves an error below double precision.
        constexpr int bits = 20;
        std::uintmax_t steps = 60;
        const double begin = in_seconds(earliest), end = in_seconds(latest);
        const Duration found =
            seconds(boost::math::tools::halley_iterate(off, guess(away, begin, end), begin, end, bits, steps));
        // The last small step in a straight line. Exactly on the bound; what that leaves open is not lost.
        const Duration rest = found - last.took;
        const Current inflow = bound == low_ ? at_low_ : at_high_;
        const Charge total = last.state.available + last.state.bound + inflow * rest;
        return {{bound, total - bound}, found, last.level_time + bound / room_ * rest};
    }

    /// When it would be on the bound by a parabola, in seconds.
    [[nodiscard]] double guess(Charge away, double begin, double end) const {
        if (begin > 0.0) return (begin + end) / 2.0;
        const Current pace = first_[0] + second_[0];
        const auto inside = pace * pace - 2.0 * (slow_ * first_[0] + fast_ * second_[0]) * away;
        const Current root = inside > 0.0 * inside ? sqrt(inside) : Current{};
        const Duration when = -2.0 * away / (pace > Current{} ? pace + root : pace - root);
        return std::clamp(in_seconds(when), begin, end);
    }

    KineticState now_;
    Charge room_, low_, high_;
    Current at_low_, at_high_;
    ChargeRate slow_{}, fast_{};
    Current first_[2] = {}, second_[2] = {};
};

}  // namespace

KineticStep advance(const KineticState& state, const KineticParameters& kinetics, Charge whole,
                    const LinearSegment& segment, Duration most) {
    return Trajectory(state, kinetics, whole, segment).until(most);
}

Duration time_to_total(const KineticState& state, const KineticParameters& kinetics, Charge whole,
                       const LinearSegment& segment, Charge total, Duration most) {
    const Trajectory trajectory(state, kinetics, whole, segment);
    const auto off = [&](double t) {
        const KineticState then = trajectory.at(seconds(t)).state;
        return (then.available + then.bound - total).value();
    };
    if (!(off(0.0) > 0.0)) return {};
    if (off(in_seconds(most)) > 0.0) return most;
    std::uintmax_t steps = 60;
    const auto [from, to] = boost::math::tools::toms748_solve(off, 0.0, in_seconds(most),
                                                              boost::math::tools::eps_tolerance<double>(40), steps);
    return seconds((from + to) / 2.0);
}

}  // namespace voltwright
