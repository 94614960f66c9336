#include "voltwright/energy/charging_efficiency.hpp"

#include <cmath>

namespace voltwright {

Ratio copetti_charge_efficiency(Ratio soc, Ratio over_ten_hour_rate, Ratio gassing_fall) {
    if (!(soc < 1.0)) return ratio(0.0);
    return -std::expm1(in_ratio(gassing_fall) * (in_ratio(soc) - 1.0) / (in_ratio(over_ten_hour_rate) + 0.55));
}

}  // namespace voltwright
