#include "voltwright/energy/fridge.hpp"

#include <algorithm>
#include <cmath>
#include <span>

namespace voltwright {

namespace {

/// Of an ideal refrigerator, for a unit of heat. Surroundings colder than the inside count as equal to it.
Ratio ideal_work(Temperature around, HeldInside inside, const FridgeRow& row) {
    const TemperatureRise evaporating = inside.coldest - row.evaporator - absolute_kelvins(0.0);
    const TemperatureRise across = std::max(around - inside.coldest, TemperatureRise{});
    return (across + row.condenser + row.evaporator) / evaporating;
}

/// What walls of a unit's conductance cost: (T_a − T_i)·x.
TemperatureRise strain(Temperature around, HeldInside inside, const FridgeRow& row) {
    return std::max(around - inside.mean, TemperatureRise{}) * ideal_work(around, inside, row);
}

TemperatureRise strain(const RatedPoint& point, const FridgeRow& row) {
    return strain(point.around, point.inside, row);
}

/// The least squares of P = W·(strain + fixed), with the fixed part in a set proportion to the walls.
Fridge with_share(std::span<const RatedPoint> points, Ratio share, FridgeFit fit, const FridgeRow& row) {
    const TemperatureRise fixed = share / (1.0 - share) * strain(row.share_at, points.front().inside, row);
    auto measured = Power{} * TemperatureRise{};
    auto modelled = TemperatureRise{} * TemperatureRise{};
    Power sum{};
    for (const RatedPoint& point : points) {
        const TemperatureRise each = strain(point, row) + fixed;
        measured += point.mean * each;
        modelled += each * each;
        sum += point.mean;
    }
    // Nothing that the heat could have changed: measured in the cold, and no share assumed.
    if (!(modelled > TemperatureRise{} * TemperatureRise{}))
        return {sum / static_cast<double>(points.size()), ThermalConductance{}, fit, false};
    const ThermalConductance wall = measured / modelled;
    return {wall * fixed, wall, fit, false};
}

}  // namespace

HeldInside two_zones(Temperature fridge, Temperature freezer, Ratio share) {
    return {fridge + share * (freezer - fridge), std::min(fridge, freezer)};
}

std::string_view show(FridgeFit fit) {
    switch (fit) {
        case FridgeFit::assumed_share: return "what it takes at one temperature, and an assumed fixed share";
        case FridgeFit::two_points: return "what it takes at two temperatures";
        case FridgeFit::no_fixed_part: return "two points that leave no fixed part: the nearest fit";
        case FridgeFit::contradicting: return "two points that contradict each other: the nearest fit";
    }
    return {};
}

Fridge fit_fridge(const RatedPoint& only, Ratio fixed_share, const FridgeRow& row) {
    return with_share({&only, 1}, fixed_share, FridgeFit::assumed_share, row);
}

Fridge fit_fridge(const RatedPoint& cool, const RatedPoint& hot, const FridgeRow& row) {
    const TemperatureRise at_cool = strain(cool, row), at_hot = strain(hot, row);
    if (at_hot < at_cool) return fit_fridge(hot, cool, row);

    const RatedPoint both[] = {cool, hot};
    if (at_hot == at_cool) return with_share(both, row.fixed_share, FridgeFit::assumed_share, row);
    if (hot.mean <= cool.mean) return with_share(both, row.fixed_share, FridgeFit::contradicting, row);
    const ThermalConductance wall = (hot.mean - cool.mean) / (at_hot - at_cool);
    const Power fixed = cool.mean - wall * at_cool;
    if (fixed < Power{}) return with_share(both, ratio(0.0), FridgeFit::no_fixed_part, row);
    return {fixed, wall, FridgeFit::two_points, false};
}

Fridge fridge_by_volume(Volume volume, const FridgeRow& row) {
    return fridge_by_volume(volume, row.wall_high, row.fixed_share, row);
}

Fridge fridge_by_volume(Volume volume, ThermalConductance wall, Ratio fixed_share, const FridgeRow& row) {
    const double surface = std::pow(in_ratio(volume / row.volume), 2.0 / 3.0);
    const ThermalConductance over_efficiency = wall * surface / row.efficiency;
    const Power fixed = fixed_share / (1.0 - fixed_share) * over_efficiency * strain(row.share_at, row.inside, row);
    return {fixed, over_efficiency, FridgeFit::assumed_share, true};
}

Power fridge_power(const Fridge& fridge, Temperature around, HeldInside inside, const FridgeRow& row) {
    return fridge.fixed + fridge.wall * strain(around, inside, row);
}

FridgeDuty fridge_duty(const Fridge& fridge, Power draw, Temperature around, HeldInside inside, const FridgeRow& row) {
    const Power power = fridge_power(fridge, around, inside, row);
    const Ratio work = ideal_work(around, inside, row), duty = power / draw;
    return {fridge.fixed, fridge.wall, around, inside.mean, work, power, draw, duty, power <= draw};
}

Restocking restocking(Mass mass, Temperature from, Temperature inside, Temperature around, const FridgeRow& row,
                      std::optional<Temperature> coldest) {
    const Temperature melting = celsius(0.0);
    const auto above = [&](Temperature t) { return std::max(t - melting, TemperatureRise{}); };
    const auto below = [&](Temperature t) { return std::max(melting - t, TemperatureRise{}); };

    const bool warm = from > inside;
    const Energy cooling =
        warm ? mass * (row.water * (above(from) - above(inside)) + row.ice * (below(inside) - below(from))) : Energy{};
    const Energy freezing = warm && from > melting && inside < melting ? mass * row.freezing : Energy{};
    const Energy heat = cooling + freezing;
    const Ratio work = ideal_work(around, coldest.value_or(inside), row);
    return {mass, from, inside, around, cooling, freezing, heat, work, row.efficiency, heat * work / row.efficiency};
}

Restocking warm_start(Volume volume, Temperature inside, Temperature around, const FridgeRow& row,
                      std::optional<Temperature> coldest) {
    return restocking(row.filling * in_ratio(volume / row.volume), row.filled_from, inside, around, row, coldest);
}

Temperature warmed_by(Energy owed, Volume volume, Temperature inside, Temperature around, const FridgeRow& row,
                      std::optional<Temperature> coldest) {
    const Mass filling = row.filling * in_ratio(volume / row.volume);
    const Energy heat = owed * row.efficiency / ideal_work(around, coldest.value_or(inside), row);
    return std::min(inside + heat / (filling * (inside < celsius(0.0) ? row.ice : row.water)),
                    std::max(around, inside));
}

Temperature may_become(Temperature inside, const FridgeRow& row) {
    const bool fresh = inside >= celsius(0.0) && inside <= row.fresh_to - row.may_warm;
    return fresh ? row.fresh_to : inside + row.may_warm;
}

LidOpenings lid_openings(int a_day, Volume volume, Temperature around, HeldInside inside, const FridgeRow& row) {
    const TemperatureRise across = std::max(around - inside.mean, TemperatureRise{});
    const Energy heat = row.lid_heat * (volume / row.lid_volume) * (across / row.lid_across);
    const Ratio work = ideal_work(around, inside, row);
    return {a_day, volume, around,         inside.mean,
            heat,  work,   row.efficiency, static_cast<double>(a_day) * heat * work / row.efficiency};
}

}  // namespace voltwright
