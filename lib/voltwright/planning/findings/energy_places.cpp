#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <variant>

namespace voltwright {

namespace {

Finding about_house_battery(Level level, FindingCode code, const EnergyContext& of) {
    return {.level = level,
            .code = code,
            .about = {FindingSubject::Kind::house_battery},
            .source = of.system.house.chemistry->source,
            .concern = Concern::trip};
}

/// What the air reaches where the battery stands, in a place that is never taken as cooler than so much: an engine bay.
std::optional<Temperature> air_in_the_engine_bay(const EnergyContext& of) {
    const auto* place = std::get_if<std::string>(&of.system.house.where);
    const SurroundingsRow* row = place ? find_surroundings(of.tables, *place) : nullptr;
    if (!row || !row->floor) return {};
    return std::max<Temperature>(hottest_air(of.system.trip) + row->always + row->driving, *row->floor);
}

/// At its hottest: under the bonnet it warms slowly as a whole, but its cells nearest to the engine do not.
Temperature hottest_cell(const EnergyContext& of) {
    const Temperature battery = of.energy.warmth.battery;
    return std::max<Temperature>(battery, air_in_the_engine_bay(of).value_or(battery));
}

}  // namespace

void find_battery_in_the_heat(const EnergyContext& of, Findings& found) {
    const auto& bears = of.system.house.chemistry->bears;
    if (!bears || hottest_cell(of) <= *bears) return;
    Finding one = about_house_battery(Level::stop, FindingCode::battery_too_hot, of);
    one.found = hottest_cell(of);
    one.allowed = *bears;
    one.concern = Concern::engine_off;
    found.push_back(std::move(one));
}

void find_too_hot_to_charge(const EnergyContext& of, Findings& found) {
    const Warmth& warmth = of.energy.warmth;
    const auto& bears = of.system.house.chemistry->bears;
    if (bears && hottest_cell(of) > *bears) return;
    if (!(warmth.too_hot_to_charge > Duration{})) {
        const auto around = air_in_the_engine_bay(of);
        const auto& most = of.system.house.charge_below;
        if (!around || !most || *around <= *most) return;
        Finding one = about_house_battery(Level::warn, FindingCode::battery_too_hot, of);
        one.found = *around;
        one.allowed = *most;
        return found.push_back(std::move(one));
    }
    Finding one = about_house_battery(Level::warn, FindingCode::too_hot_to_charge, of);
    one.found = warmth.battery;
    one.allowed = *of.system.house.charge_below;
    one.arguments = {{"lasts", warmth.too_hot_to_charge}};
    found.push_back(std::move(one));
}

void find_gas_in_the_living_space(const EnergyContext& of, Findings& found) {
    const auto* place = std::get_if<std::string>(&of.system.house.where);
    const SurroundingsRow* row = place ? find_surroundings(of.tables, *place) : nullptr;
    if (!row || !row->living || !of.system.house.chemistry->vents) return;
    Finding one = about_house_battery(Level::warn, FindingCode::gas_inside, of);
    one.arguments = {{"place", std::string(row->place)}};
    one.source = sources::practice;
    found.push_back(std::move(one));
}

}  // namespace voltwright
