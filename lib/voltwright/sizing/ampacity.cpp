#include "voltwright/sizing/ampacity.hpp"

#include "voltwright/circuit/conductor.hpp"

#include <algorithm>

namespace voltwright {

Ratio ambient_factor(Temperature rated, Temperature reference, Temperature around) {
    if (!(around < rated)) return Ratio{};
    return sqrt((rated - around) / (rated - reference));
}

namespace {

ResistancePerLength cold(const ConductorRow& row) { return resistance_per_length(row, Coating::plain, celsius(20)); }

/// The row of the basis for this conductor, or for the thickest that has no more copper.
const AmpacityRow* row_for(const Tables& tables, std::string_view basis, const ConductorRow& conductor,
                           Temperature insulation) {
    if (const AmpacityRow* exact = find_ampacity(tables, basis, conductor.gauge, insulation)) return exact;
    // The nearest first: the ampacities are the longest table, and are looked through no oftener than they must be.
    const ResistancePerLength least = cold(conductor);
    const ConductorRow* last = nullptr;
    ResistancePerLength last_resistance{};
    while (true) {
        const ConductorRow* next = nullptr;
        ResistancePerLength next_resistance{};
        for (const ConductorRow& other : tables.conductors) {
            const ResistancePerLength resistance = cold(other);
            if (resistance < least || (next && resistance >= next_resistance)) continue;
            if (last && (resistance < last_resistance || (resistance == last_resistance && &other <= last))) continue;
            next = &other;
            next_resistance = resistance;
        }
        if (!next) return nullptr;
        if (const AmpacityRow* row = find_ampacity(tables, basis, next->gauge, insulation)) return row;
        last = next;
        last_resistance = next_resistance;
    }
}

/// The law, but no more than the table and than what the basis prints for engine spaces as hot.
Ratio ambient_of(const Tables& tables, const AmpacityBasisRow& rules, Temperature insulation, Temperature around) {
    Ratio factor = std::min<Ratio>(ambient_factor(insulation, rules.ambient, around), 1.0);
    for (const EngineSpaceRow& row : tables.engine_spaces)
        if (row.basis == rules.basis && row.insulation == insulation && !(around < row.from))
            factor = std::min(factor, row.factor);
    return factor;
}

}  // namespace

std::optional<Ampacity> ampacity(const Tables& tables, std::string_view basis, const ConductorRow& conductor,
                                 Temperature insulation, Temperature around, int loaded, Voltage system) {
    const AmpacityBasisRow* rules = find_ampacity_basis(tables, basis);
    const AmpacityRow* row = row_for(tables, basis, conductor, insulation);
    if (!rules || !row) return {};
    const GroupingRow* group = system < rules->grouping_from ? nullptr : find_grouping(tables, basis, loaded);
    const Ratio grouping = group ? group->factor : percent(100);
    const Ratio ambient = ambient_of(tables, *rules, row->insulation, around);
    return Ampacity{{row->current, row->source},
                    row->gauge,
                    row->insulation,
                    rules->ambient,
                    around,
                    ambient,
                    loaded,
                    grouping,
                    row->current * ambient * grouping};
}

std::optional<ConductorRow> conductor_of(const Tables& tables, Gauge gauge) {
    if (const ConductorRow* row = find_conductor(tables, gauge)) return *row;
    const TradeSizeRow* trade_size = find_trade_size(tables, gauge);
    if (!trade_size) return {};
    const ConductorRow* base = nullptr;
    for (const ConductorRow& row : tables.conductors)
        if (row.gauge.system == GaugeSystem::metric && row.area <= trade_size->area && (!base || row.area > base->area))
            base = &row;
    if (!base) return {};
    ConductorRow scaled = *base;
    scaled.gauge = gauge;
    scaled.area = trade_size->area;
    scaled.plain = base->plain * base->area / trade_size->area;
    scaled.tinned = base->tinned * base->area / trade_size->area;
    scaled.source = trade_size->source;
    return scaled;
}

}  // namespace voltwright
