#include "voltwright/sizing/fitting.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

Area circle(Length diameter) { return 0.78539816339744830962 * diameter * diameter; }

std::optional<TubeFill> tube_fill(std::span<const Length> outsides, Length bore, const Tables& tables) {
    const int cables = static_cast<int>(outsides.size());
    const FillRow* row = find_fill(tables, cables);
    if (!row) return {};
    Area taken{};
    for (const Length& outside : outsides) taken += circle(outside);
    return TubeFill{cables, taken, circle(bore), taken / circle(bore), {row->most, row->source}};
}

const TubeRow* tube_for(std::span<const Length> outsides, const Tables& tables) {
    for (const TubeRow& row : tables.tubes)
        if (const auto fill = tube_fill(outsides, row.bore, tables); fill && fill->fits()) return &row;
    return nullptr;
}

std::optional<Length> outside_of(const ConductorRow& conductor) {
    if (conductor.gauge.system == GaugeSystem::trade) return millimetres(conductor.gauge.number);
    return conductor.outside;
}

ShrinkWindow shrink_window(Length supplied, Ratio ratio) {
    const Length recovered = supplied / ratio;
    return {supplied,
            ratio,
            recovered,
            1.1 * recovered,
            std::min<Length>(0.8 * supplied, supplied - 0.75 * (supplied - recovered)),
            0.8 * supplied};
}

const ShrinkTubeRow* shrink_for(Length part, Ratio ratio, const Tables& tables) {
    const ShrinkTubeRow* by_one_rule = nullptr;
    for (const ShrinkTubeRow& row : tables.shrink_tubes) {
        if (row.ratio != ratio) continue;
        const ShrinkWindow window = shrink_window(row.supplied, ratio);
        if (part < window.from || part > window.to_most) continue;
        if (part <= window.to) return &row;
        if (!by_one_rule) by_one_rule = &row;
    }
    return by_one_rule;
}

int supports(Length cable, Length apart) {
    // A whole number of spans is no span more, whatever the last bit says.
    return static_cast<int>(std::ceil(in_ratio(cable / apart) - 1e-9)) + 1;
}

CableMass cable_mass(const ConductorRow& conductor, Length length, const Tables& tables) {
    const CableMassRow& row = tables.cable_masses.front();
    const Ratio millimetres_square = conductor.area / square_millimetres(1.0);
    return {row.copper, conductor.area, row.usual, length, row.copper * millimetres_square * row.usual * length};
}

bool lug_takes(Area conductor, Length stud, const Tables& tables) {
    const LugRow* lug = find_lug(tables, conductor);
    if (!lug) return true;
    const StudRow* hole = find_stud(tables, stud);
    return hole && hole->diameter >= lug->smallest && hole->diameter <= lug->largest;
}

const StudRow* nearest_stud(Area conductor, Length stud, const Tables& tables) {
    const LugRow* lug = find_lug(tables, conductor);
    const StudRow* nearest = nullptr;
    const auto off = [&](const StudRow& row) { return abs(row.diameter - stud); };
    for (const StudRow& row : tables.studs)
        if (lug && row.diameter >= lug->smallest && row.diameter <= lug->largest &&
            (!nearest || off(row) < off(*nearest)))
            nearest = &row;
    return nearest;
}

}  // namespace voltwright
