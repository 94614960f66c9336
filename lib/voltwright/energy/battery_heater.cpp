#include "voltwright/energy/battery_heater.hpp"

#include "voltwright/energy/weather.hpp"

#include <cmath>

namespace voltwright {

namespace {

/// Temperatures closer than this are the same.
constexpr TemperatureRise same_warmth = kelvins(1e-6);

/// When a body on its way towards a temperature passes another.
Duration time_until(Temperature passes, Temperature from, Temperature towards, Duration time_constant) {
    return time_constant * std::log(double((from - towards) / (passes - towards)));
}

/// To `warms_to` from below or from above, towards what is always on or off.
HeaterStep on_the_way(const BatteryHeater& heater, Temperature cells, Temperature towards, bool heats, Duration most) {
    const bool arrives = heats ? towards > heater.warms_to + same_warmth : towards < heater.warms_to - same_warmth;
    const HeaterStep whole{most, lagged(cells, towards, most, heater.time_constant), heats ? 1.0 : 0.0,
                           heats && arrives};
    if (!arrives) return whole;
    const Duration until = time_until(heater.warms_to, cells, towards, heater.time_constant);
    return until < most ? HeaterStep{until, heater.warms_to, whole.duty, whole.warming} : whole;
}

}  // namespace

BatteryHeater battery_heater(const BatteryHeaterRow& row, Power power, Charge bank, Duration time_constant) {
    return {power, row.mass * row.heat * double(bank / row.capacity) / time_constant, time_constant, row.warms_to};
}

HeaterStep heater_step(const BatteryHeater& heater, Temperature cells, Temperature around, Duration most) {
    const Temperature warm = heater.warms_to;
    if (cells < warm - same_warmth) return on_the_way(heater, cells, heater.most(around), true, most);
    if (cells > warm + same_warmth || !(around < warm)) return on_the_way(heater, cells, around, false, most);
    const Ratio held = heater.loss * (warm - around) / heater.power;
    if (held <= Ratio{1.0}) return {most, warm, held, false};
    return {most, lagged(cells, heater.most(around), most, heater.time_constant), 1.0, false};
}

}  // namespace voltwright
