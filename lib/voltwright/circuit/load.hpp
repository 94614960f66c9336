#pragma once

#include "voltwright/units/quantities.hpp"

#include <variant>

namespace voltwright {

using Conductance = units::quantity<si::conductance>;

/// What something draws, by the voltage at its terminals:
///
///     constant power       I = P/V     a charger, a fridge, electronics; never negative
///     constant current     I           negative for a charger that feeds in
///     constant resistance  I = V/R     a heater, a lamp; above zero
///
/// Source: the three parts of the ZIP load model of distribution engineering textbooks, from memory.
using LoadLaw = std::variant<Power, Current, Resistance>;

/// A current, and how it follows the voltage.
struct LoadCurrent {
    Current current;
    Conductance slope;  ///< dI/dV
};

/// What it draws at a voltage above zero; the slope is −P/V², 0 or 1/R.
LoadCurrent drawn(const LoadLaw& load, Voltage voltage);
inline Current current_at(const LoadLaw& load, Voltage voltage) { return drawn(load, voltage).current; }

/// The most that it draws anywhere between two voltages: constant power at the lower, a resistance at the higher.
Current most_current(const LoadLaw& load, Voltage lowest, Voltage highest);

/// The law of a load at the end of a cable, by the voltage at the cable's beginning; made once, asked often. Of a load that
/// runs a share of the time it gives the mean.
///
///     power       I = 2·P/(V + √(V² − 4·P·R))      resistance   I = V/(R_load + R)      current   I
///
/// Power that cannot come through the cable draws V/(2·R), the most that comes through. Source: Ohm's law and P = V·I, the
/// upper root; closed form.
class LoadThroughCable {
public:
    LoadThroughCable(const LoadLaw& load, Resistance loop, Ratio share_of_time = 1.0);

    [[nodiscard]] LoadCurrent at(Voltage begins) const {
        if (law_ == Law::power) {
            const auto inside = begins * begins - drop_;
            if (inside < 0.0 * inside) return {share_ * (begins / (2.0 * loop_)), share_ / (2.0 * loop_)};
            // P = (V − I·R)·I, so dI/dV = −I/(V − 2·I·R), and that is the root.
            const Voltage root = sqrt(inside);
            const Conductance slope = twice_ / ((begins + root) * root);
            return {slope * root, -slope};
        }
        if (law_ == Law::resistance) return {share_ * (begins / loop_), share_ / loop_};
        return {share_ * current_, Conductance{}};
    }

private:
    enum class Law : unsigned char { power, resistance, current } law_;
    Resistance loop_;  ///< of the cable; of the load as well where that is a resistance
    Power twice_{};    ///< 2·d·P, where d is the share of the time
    units::quantity<units::multiply_typeof_helper<si::power, si::resistance>::type>
        drop_{};  ///< 4·P·R, a voltage squared
    Current current_{};
    double share_;
};

}  // namespace voltwright
