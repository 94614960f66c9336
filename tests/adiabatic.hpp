#pragma once

#include "voltwright/circuit/withstand.hpp"

#include <cmath>
#include <optional>

/// The adiabatic equation k²·S² = I²·t in the other forms in which standards and handbooks print it, from the k² that the
/// library counts with.
namespace voltwright::testing {

/// k in A·√s/mm².
inline double in_k(JouleIntegralPerArea2 k_squared) {
    return std::sqrt(double(k_squared * square_millimetres(1) * square_millimetres(1) / ampere_squared_seconds(1)));
}

/// How long a conductor stands a current; empty for no current, which it stands for ever.
inline std::optional<Duration> time_withstood(Area area, Temperature start, Temperature limit, Current fault) {
    if (fault == Current{}) return {};
    return Duration(copper_k_squared(start, limit) * area * area / (fault * fault));
}

/// The smallest area that stands a heating effect; empty when it starts at its limit or above.
inline std::optional<Area> smallest_area(Temperature start, Temperature limit, JouleIntegral let_through) {
    const JouleIntegralPerArea2 k_squared = copper_k_squared(start, limit);
    if (!(k_squared > JouleIntegralPerArea2{})) return {};
    return Area(sqrt(let_through / k_squared));
}

}  // namespace voltwright::testing
