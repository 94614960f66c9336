#include "voltwright/vehicle/layout.hpp"

#include "voltwright/units/show.hpp"

#include <algorithm>

namespace voltwright {

std::optional<std::size_t> run_to(const Layout& layout, const Place& place) {
    const auto found =
        std::find_if(layout.runs.begin(), layout.runs.end(), [&](const ToldRun& run) { return run.to == place; });
    if (found == layout.runs.end()) return {};
    return static_cast<std::size_t>(found - layout.runs.begin());
}

const Place& source_of(const Layout& layout, std::size_t run) { return layout.runs[layout.tree.root[run]].from; }

std::vector<Place> consumers_behind(const Layout& layout, std::size_t run) {
    std::vector<Place> places;
    for (const std::size_t i : layout.tree.from(run)) {
        const Place& to = layout.runs[i].to;
        if (to.kind == PlaceKind::consumer || to.kind == PlaceKind::inverter || to.kind == PlaceKind::charger ||
            to.kind == PlaceKind::regulator)
            places.push_back(to);
    }
    return places;
}

// ---- surroundings ------------------------------------------------------------------------------------------------------

WayPart surroundings_at(const Layout& layout, const Somewhere& where, Length length, bool driving) {
    if (const auto* temperature = std::get_if<Spread<Temperature>>(&where))
        return {show(temperature->value), length, temperature->value};
    const SurroundingsRow& row = *find_surroundings(layout.tables, std::get<std::string>(where));
    const TemperatureRise rise = row.always + (driving ? row.driving : std::max(row.driving, row.sun));
    const Temperature hottest = hottest_air(layout.has.trip) + rise;
    return {std::string(row.place), length, std::max<Temperature>(hottest, row.floor.value_or(hottest))};
}

namespace {

const Somewhere roof = std::string("roof");

}  // namespace

const Somewhere& where_is(const Layout& layout, const Place& place) {
    const Equipment& has = layout.has;
    if (place.kind == PlaceKind::starter_battery) return has.starter.where;
    if (place.kind == PlaceKind::charger) return has.charger.where;
    if (place.kind == PlaceKind::regulator && has.solar) return has.solar->where;
    if (place.kind == PlaceKind::panel) return roof;
    if (const LoadUnit* load = find_load(has, place.name)) return load->where;
    if (const FridgeUnit* fridge = find_fridge(has, place.name)) return fridge->where;
    const auto run = place.kind == PlaceKind::house_battery ? std::nullopt : run_to(layout, place);
    if (!run) return has.house.where;
    const RunKeys& keys = layout.runs[*run].keys;
    if (!keys.where) return where_is(layout, layout.runs[*run].from);
    if (const auto* somewhere = std::get_if<Somewhere>(&*keys.where)) return *somewhere;
    return std::get<std::vector<WaySection>>(*keys.where).back().place;
}

std::vector<WayPart> way_of(const Layout& layout, std::size_t run, bool driving) {
    const RunKeys& keys = layout.runs[run].keys;
    const Length length = keys.length->value;
    if (!keys.where) {
        const Somewhere& from = where_is(layout, layout.runs[run].from);
        const Somewhere& to = where_is(layout, layout.runs[run].to);
        if (from == to) return {surroundings_at(layout, from, length, driving)};
        return {surroundings_at(layout, from, length / 2.0, driving),
                surroundings_at(layout, to, length / 2.0, driving)};
    }
    if (const auto* place = std::get_if<Somewhere>(&*keys.where))
        return {surroundings_at(layout, *place, length, driving)};
    std::vector<WayPart> way;
    for (const WaySection& section : std::get<std::vector<WaySection>>(*keys.where))
        way.push_back(surroundings_at(layout, section.place, section.length.value, driving));
    return way;
}

// ---- where its fuse sits -----------------------------------------------------------------------------------------------

FuseEnd fused_end(const Layout& layout, std::size_t run, bool driving) {
    const ToldRun& told = layout.runs[run];
    const bool backwards = told.role == RunRole::output || told.role == RunRole::solar;
    const Place& at = backwards ? told.to : told.from;
    const bool by_starter = !backwards && source_of(layout, run).kind == PlaceKind::starter_battery;
    const Equipment& has = layout.has;
    const ChemistryRow& chemistry = by_starter ? *find_chemistry(layout.tables, "flooded") : *has.house.chemistry;
    return {.at = at,
            .around = surroundings_at(layout, where_is(layout, at), Length{}, driving).around,
            .open_circuit = chemistry.full,
            .highest = by_starter ? has.starter.running : highest_absorption(has).voltage,
            .internal = by_starter ? has.starter.internal : has.house.internal,
            .electronics = chemistry.group == "lithium"};
}

FuseOfRating fuse_of(const FuseChoice& choice, const Tables& tables) {
    return {choice.rating, std::string(find_fuse_family(tables, choice.family)->family)};
}

}  // namespace voltwright
