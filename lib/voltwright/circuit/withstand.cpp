#include "voltwright/circuit/withstand.hpp"

#include <cmath>

namespace voltwright {

JouleIntegralPerArea2 copper_k_squared(Temperature start, Temperature limit) {
    if (!(limit > start)) return {};
    return copper_heat * std::log(double(above_no_resistance(limit) / above_no_resistance(start)));
}

Withstand withstand(Area area, Temperature start, Temperature limit, Current fault, Duration time) {
    return {area, start, limit, fault, time, fault * fault * time, copper_k_squared(start, limit) * area * area};
}

}  // namespace voltwright
