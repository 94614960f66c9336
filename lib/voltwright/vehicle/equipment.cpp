#include "voltwright/vehicle/equipment.hpp"

#include "voltwright/energy/house_battery.hpp"

#include <algorithm>

namespace voltwright {

namespace {

template <class Named>
const Named* find_named(const std::vector<Named>& all, std::string_view name) {
    const auto found = std::find_if(all.begin(), all.end(), [name](const Named& one) { return one.name == name; });
    return found == all.end() ? nullptr : &*found;
}

}  // namespace

const LoadUnit* find_load(const Equipment& has, std::string_view name) { return find_named(has.loads, name); }
const FridgeUnit* find_fridge(const Equipment& has, std::string_view name) { return find_named(has.fridges, name); }

Current full_sun_current(const SolarPanel& solar, Voltage absorption) {
    const Current all = solar.regulator == Regulator::pwm ? solar.most_power_current()
                                                          : Current(solar.efficiency * solar.panel / absorption);
    return std::min(all, solar.output);
}

std::optional<Stud> stud_at(const Equipment& has, const Place& place) {
    switch (place.kind) {
        case PlaceKind::starter_battery: return has.starter.stud;
        case PlaceKind::house_battery: return has.house.stud;
        case PlaceKind::charger: return has.charger.stud;
        default: return {};
    }
}

CompensatedVoltage highest_absorption(const Equipment& has) {
    const CompensatedVoltage charged =
        compensated_voltage(has.charger.absorption, has.charger.compensation, coldest_air(has.trip));
    if (!has.relay || (has.solar && charged.voltage > has.starter.running)) return charged;
    return compensated_voltage(has.starter.running, Compensation{}, coldest_air(has.trip));
}

Temperature coldest_air(const TripPlan& trip) {
    Temperature coldest = trip.low;
    for (const SpecialDay& day : trip.special) coldest = std::min(coldest, day.low.value_or(coldest));
    return coldest;
}

Temperature hottest_air(const TripPlan& trip) {
    Temperature hottest = trip.high;
    for (const SpecialDay& day : trip.special) hottest = std::max(hottest, day.high.value_or(hottest));
    return hottest;
}

RunLoad run_load(const LoadUnit& load, Voltage highest) {
    if (const auto* power = std::get_if<Power>(&load.draw))
        return PowerLoad{
            .power = *power, .cut_out = load.cut_out.value_or(end_of_rating), .short_time = load.short_time};
    if (const auto* current = std::get_if<Current>(&load.draw))
        return SteadyLoad{.current = *current, .short_time = load.short_time};
    return ResistiveLoad{
        .resistance = std::get<Resistance>(load.draw), .highest = highest, .short_time = load.short_time};
}

}  // namespace voltwright
