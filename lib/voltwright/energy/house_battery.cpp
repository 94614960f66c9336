#include "voltwright/energy/house_battery.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/energy/charging_efficiency.hpp"
#include "voltwright/energy/kinetic_fit.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace voltwright {

namespace {

constexpr std::array<double, battery_marks> level_marks = {0.0,  0.05, 0.1, 0.15, 0.2,   0.35, 0.5,  0.6,   0.7,   0.76,
                                                           0.81, 0.86, 0.9, 0.93, 0.955, 0.98, 0.99, 0.995, 0.998, 1.0};
/// A mark counts only while something charges where the voltage passes it this straight, and the next ones are not
/// further apart than this: the currents of loads differ by less than a ten-thousandth.
constexpr Voltage straight = millivolts(0.5);
constexpr double apart = 0.25;
/// Where lead's voltage begins to fall faster than at rest.
constexpr double knee = 0.2;
/// Keeps the acceptance finite: a full lead battery still takes a trickle.
constexpr double trickle = 0.0003;
constexpr Duration month = hours(730.5);

/// The open-circuit voltages between two marks lie in a straight line.
bool straight_between(const BatteryLevel* from, const BatteryLevel* to) {
    if (to->level - from->level > apart) return false;
    const auto slope = (to->open - from->open) / (to->level - from->level);
    return std::all_of(from + 1, to, [&](const BatteryLevel& mark) {
        return abs(mark.open - from->open - slope * (mark.level - from->level)) < straight;
    });
}

void mark_charging_only(std::array<BatteryLevel, battery_marks>& levels) {
    BatteryLevel* kept = levels.data();
    for (BatteryLevel* mark = kept + 1; mark + 1 < levels.data() + levels.size(); ++mark) {
        mark->charging_only = straight_between(kept, mark + 1);
        if (!mark->charging_only) kept = mark;
    }
}

}  // namespace

HouseBattery house_battery(const ChemistryRow& chemistry, Charge capacity_of_one, int count, Ratio health,
                           const InternalResistance& bank, const Tables& tables) {
    HouseBattery battery{.chemistry = std::string(chemistry.chemistry),
                         .capacity = capacity_of_one * static_cast<double>(count) * health,
                         .whole = {},
                         .kinetics = kinetics_of_exponent(chemistry.exponent),
                         .levels = {},
                         .ten_hour_rate = {},
                         .charge_efficiency = chemistry.charge_efficiency,
                         .gassing_fall = chemistry.gassing_fall.value_or(Ratio{}),
                         .one_well = false,
                         .charge_above = chemistry.charge_above,
                         .charge_below = chemistry.charge_below,
                         .self_discharge = {},
                         .charged_levelling = chemistry.charged_levelling.value_or(Ratio{1.0}),
                         .acceptance_halves = chemistry.acceptance_halves,
                         .acceptance_fall = chemistry.acceptance_fall};
    for (const ElectrolyteFreezingRow& row : tables.electrolyte_freezing)
        if (row.group == chemistry.group) battery.freezing.push_back({row.soc, row.temperature});
    for (const ColdChargeLimitRow& row : tables.cold_charge_limits)
        if (row.chemistry == chemistry.chemistry)
            battery.cold_limits.push_back({row.below, row.limit * capacity_of_one * static_cast<double>(count)});
    battery.one_well = !(battery.kinetics.available < 1.0);
    battery.whole = battery.kinetics.whole * battery.capacity;
    battery.ten_hour_rate = kinetic_charge(battery.kinetics, battery.capacity, hours(10)) / hours(10);
    battery.self_discharge = chemistry.self_discharge * battery.capacity / month;

    const auto rest = [&](double level) {
        const Ratio soc = 1.0 - (1.0 - level) * battery.whole / battery.capacity;
        return rest_voltage(tables, chemistry.chemistry, std::max(soc, Ratio{}));
    };
    const Resistance ohmic = bank.expected;
    const Voltage empty = end_of_rating + battery.capacity / hours(20) * ohmic * 2.0;
    const Voltage fall = std::max(rest(0.0) - empty, Voltage{});
    for (std::size_t i = 0; i < level_marks.size(); ++i) {
        const double level = level_marks[i];
        BatteryLevel& mark = battery.levels[i];
        mark.level = level;
        mark.open = rest(level);
        mark.giving = ohmic;
        if (!battery.one_well) {
            mark.giving = ohmic * (2.0 - level);
            if (level < knee) mark.open -= fall * (1.0 - level / knee) * (1.0 - level / knee);
        }
        mark.taking = mark.giving + chemistry.acceptance / battery.capacity *
                                        std::pow(1.0 - level + trickle, -in_ratio(chemistry.acceptance_fall));
    }
    mark_charging_only(battery.levels);
    return battery;
}

KineticParameters kinetics_of(const HouseBattery& battery, bool charged) {
    KineticParameters kinetics = battery.kinetics;
    if (charged) kinetics.rate *= battery.charged_levelling;
    return kinetics;
}

Ratio HouseBattery::soc(const KineticState& state) const {
    return std::clamp<Ratio>(1.0 - (whole - state.available - state.bound) / capacity, 0.0, 1.0);
}

KineticState HouseBattery::at(Ratio soc) const {
    const Charge total = whole - (1.0 - soc) * capacity;
    return {kinetics.available * total, (1.0 - kinetics.available) * total};
}

Ratio level_of_charge(const HouseBattery& battery, const KineticState& state) {
    return level(state, battery.kinetics, battery.whole);
}

BatteryLevel level_of(const HouseBattery& battery, Ratio level) {
    std::size_t above = 1;
    while (above + 1 < battery.levels.size() && battery.levels[above].level < level) ++above;
    const BatteryLevel &low = battery.levels[above - 1], &high = battery.levels[above];
    const double share = (level - low.level) / (high.level - low.level);
    const auto mix = [share](auto a, auto b) { return a + share * (b - a); };
    return {level, mix(low.open, high.open), mix(low.giving, high.giving), mix(low.taking, high.taking), false};
}

double cold_acceptance(const HouseBattery& battery, Temperature temperature) {
    constexpr Temperature reference = celsius(25);
    if (!battery.acceptance_halves || temperature >= reference) return 1.0;
    return std::exp2(double((reference - temperature) / *battery.acceptance_halves));
}

double cold_acceptance(const HouseBattery& battery, Temperature temperature, Ratio derating) {
    const double cold = cold_acceptance(battery, temperature);
    if (!battery.acceptance_halves || !(derating > Ratio{})) return cold;
    return cold * std::pow(in_ratio(1.0 - derating), -in_ratio(battery.acceptance_fall));
}

std::optional<Temperature> freezes_at(const HouseBattery& battery, Ratio soc) {
    if (battery.freezing.empty()) return {};
    const auto above = std::find_if(battery.freezing.begin(), battery.freezing.end(),
                                    [&](const FreezingPoint& point) { return point.soc >= soc; });
    if (above == battery.freezing.begin()) return above->temperature;
    if (above == battery.freezing.end()) return battery.freezing.back().temperature;
    const FreezingPoint& below = *std::prev(above);
    return below.temperature +
           double((soc - below.soc) / (above->soc - below.soc)) * (above->temperature - below.temperature);
}

std::optional<Ratio> charge_that_freezes_at(const HouseBattery& battery, Temperature temperature) {
    if (battery.freezing.empty()) return {};
    const auto colder = std::find_if(battery.freezing.begin(), battery.freezing.end(),
                                     [&](const FreezingPoint& point) { return point.temperature <= temperature; });
    if (colder == battery.freezing.begin()) return colder->soc;
    if (colder == battery.freezing.end()) return Ratio{1.0};
    const FreezingPoint& warmer = *std::prev(colder);
    return warmer.soc + (colder->soc - warmer.soc) *
                            double((warmer.temperature - temperature) / (warmer.temperature - colder->temperature));
}

std::optional<Current> cold_charge_limit(const HouseBattery& battery, Temperature temperature) {
    for (const ColdChargeLimit& limit : battery.cold_limits)
        if (temperature < limit.below) return limit.limit;
    return {};
}

Current stored(const HouseBattery& battery, Ratio level, Current charging) {
    if (battery.one_well) return level < 1.0 ? battery.charge_efficiency * charging : Current{};
    return battery.charge_efficiency *
           copetti_charge_efficiency(level, charging / battery.ten_hour_rate, battery.gassing_fall) * charging;
}

}  // namespace voltwright
