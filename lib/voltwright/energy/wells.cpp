#include "voltwright/energy/wells.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

Ratio level(const Wells& wells, const Kinetics& kinetics, Charge whole) {
    return wells.available / (kinetics.available * whole);
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
    if (std::abs(x) < 1e-2) {
        // Both by their series: as exact as the other form, and without a difference of equals.
        const double twice = 0.5 + x * (1.0 / 6.0 + x * (1.0 / 24.0 + x * (1.0 / 120.0 + x * (1.0 / 720.0))));
        return {t * (1.0 + x * twice), twice * t * t};
    }
    const double once = std::expm1(x) / x;
    return {t * once, (once - 1.0) / x * t * t};
}

/// The way of both wells from now on: y(t) = y + first·E1(t) + second·E2(t), for each well.
class Way {
public:
    Way(const Wells& wells, const Kinetics& kinetics, Charge whole, const Stretch& stretch)
        : now_(wells), room_(kinetics.available * whole), low_(stretch.low * room_), high_(stretch.high * room_) {
        const ChargeRate b = (stretch.at_high - stretch.at_low) / (high_ - low_);
        const Current inflow = stretch.at_low + b * (wells.available - low_);
        if (!(kinetics.available < 1.0)) {
            slow_ = b;
            first_[0] = inflow;
            return;
        }
        const ChargeRate down = kinetics.rate * (1.0 - kinetics.available);  // from the available to the bound well
        const ChargeRate up = kinetics.rate * kinetics.available;
        const ChargeRate trace = b - down - up;
        const auto determinant = -up * b;
        const ChargeRate root = sqrt(trace * trace - 4.0 * determinant);
        // The eigenvalue that is no difference of equals gives the other.
        const ChargeRate large = (trace < ChargeRate{} ? trace - root : trace + root) / 2.0;
        const ChargeRate small = determinant / large;
        slow_ = small;
        fast_ = large;
        const Current sinking = down * wells.available - up * wells.bound;
        const Current rising = inflow - sinking;
        const ChargeRate apart = small - large;
        first_[0] = ((b - down - large) * rising + up * sinking) / apart;
        second_[0] = rising - first_[0];
        first_[1] = (down * rising - (up + large) * sinking) / apart;
        second_[1] = sinking - first_[1];
    }

    [[nodiscard]] Moved at(Duration t) const { return at(t, growth(slow_, t), growth(fast_, t)); }
    [[nodiscard]] Moved at(Duration t, const Growth& slow, const Growth& fast) const {
        const auto level_time = now_.available * t + first_[0] * slow.twice + second_[0] * fast.twice;
        return {{now_.available + first_[0] * slow.once + second_[0] * fast.once,
                 now_.bound + first_[1] * slow.once + second_[1] * fast.once},
                t,
                level_time / room_};
    }

    /// Until `most`, or until the level leaves the stretch.
    [[nodiscard]] Moved until(Duration most) const {
        const Growth slow = growth(slow_, most), fast = growth(fast_, most);
        Moved moved = at(most, slow, fast);
        std::optional<Charge> bound = beyond(moved.wells.available);
        // It turns on the way only if it rises at one end and falls at the other.
        const Current begins = first_[0] + second_[0];
        const Current ends = first_[0] * (1.0 + slow_ * slow.once) + second_[0] * (1.0 + fast_ * fast.once);
        std::optional<Duration> turn;
        if ((begins > Current{}) != (ends > Current{})) turn = turning_point(most);
        Duration earliest{}, latest = most;
        if (!bound) {
            // It may leave and come back: at its one turning point it would be outside.
            if (!turn) return moved;
            bound = beyond(at(*turn).wells.available);
            if (!bound) return moved;
            latest = *turn;
        } else if (now_.available == *bound && turn) {
            earliest = *turn;  // it goes in before it goes out
        }
        moved = at(crossing(*bound, earliest, latest));
        // Exactly on the bound; what the root finder left open is not lost.
        moved.wells.bound += moved.wells.available - *bound;
        moved.wells.available = *bound;
        return moved;
    }

private:
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

    [[nodiscard]] Duration crossing(Charge bound, Duration earliest, Duration latest) const {
        const Charge away = now_.available - bound;
        if (away == Charge{} && !(earliest > Duration{})) return Duration{};
        // Coulombs, amperes and seconds from here on: the root finder takes plain numbers.
        const auto off = [&](double t) {
            const Duration then = seconds(t);
            const Current rising = first_[0] * std::exp(slow_ * then) + second_[0] * std::exp(fast_ * then);
            return std::pair{(at(then).wells.available - bound).value(), in_amperes(rising)};
        };
        const double begin = in_seconds(earliest), end = in_seconds(latest);
        const double slope = in_amperes(first_[0] + second_[0]);
        const double guess =
            begin == 0.0 && slope != 0.0 ? std::clamp(-away.value() / slope, 0.0, end) : (begin + end) / 2.0;
        std::uintmax_t steps = 60;
        return seconds(boost::math::tools::newton_raphson_iterate(off, guess, begin, end, 48, steps));
    }

    Wells now_;
    Charge room_, low_, high_;
    ChargeRate slow_{}, fast_{};
    Current first_[2] = {}, second_[2] = {};
};

}  // namespace

Moved move_wells(const Wells& wells, const Kinetics& kinetics, Charge whole, const Stretch& stretch, Duration most) {
    return Way(wells, kinetics, whole, stretch).until(most);
}

Duration time_to_total(const Wells& wells, const Kinetics& kinetics, Charge whole, const Stretch& stretch, Charge total,
                       Duration most) {
    const Way way(wells, kinetics, whole, stretch);
    const auto off = [&](double t) {
        const Wells then = way.at(seconds(t)).wells;
        return (then.available + then.bound - total).value();
    };
    if ((off(0.0) > 0.0) == (off(in_seconds(most)) > 0.0)) return most;
    std::uintmax_t steps = 60;
    const auto [from, to] = boost::math::tools::toms748_solve(off, 0.0, in_seconds(most),
                                                              boost::math::tools::eps_tolerance<double>(40), steps);
    return seconds((from + to) / 2.0);
}

}  // namespace voltwright
