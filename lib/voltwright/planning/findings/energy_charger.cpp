#include "voltwright/energy/charger.hpp"
#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/units/show.hpp"

#include <utility>

namespace voltwright {

namespace {

Finding about_charger(Level level, FindingCode code, Source source) {
    return {.level = level,
            .code = code,
            .about = {FindingSubject::Kind::charger},
            .source = source,
            .concern = Concern::trip};
}

}  // namespace

void find_charge_voltage(const EnergyContext& of, Findings& found) {
    // A relay brings the alternator's.
    if (!of.system.holds_voltage()) return;
    const ChemistryRow& chemistry = *of.system.house.chemistry;
    const Voltage absorption = of.system.charger.absorption;
    const bool high = absorption > chemistry.absorption_high;
    if (!high && !(absorption < chemistry.absorption_low)) return;
    const Voltage nearest = high ? chemistry.absorption_high : chemistry.absorption_low;
    Finding one = high ? about_charger(Level::stop, FindingCode::charge_voltage_high, chemistry.source)
                       : about_charger(Level::warn, FindingCode::charge_voltage_low, chemistry.source);
    one.found = absorption;
    one.allowed = nearest;
    one.arguments = {{"chemistry", std::string(chemistry.chemistry)},
                     {"least", chemistry.absorption_low},
                     {"most", chemistry.absorption_high}};
    one.remedy.changes = {{"charger.absorption", write(Spread<Voltage>{nearest, {}})}};
    found.push_back(std::move(one));
}

namespace {

/// The charger and the sun may both charge while somebody drives.
void find_charge_of_both(const EnergyContext& of, Findings& found) {
    if (!of.system.solar || !of.drives()) return;
    const Current sun = full_sun_current(*of.system.solar, of.system.charger.absorption);
    const Current limit = of.system.house.charge_limit;
    if (!(of.system.charger.output + sun > limit)) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::charged_by_both,
                     .about = {FindingSubject::Kind::house_battery},
                     .found = Current(of.system.charger.output + sun),
                     .allowed = limit,
                     .source = of.system.house.chemistry->source,
                     .concern = Concern::trip});
}

/// What a battery of that kind would have to hold to take so much; nothing where the profile gives the limit itself.
std::optional<Charge> capacity_for(const BatteryBank& house, Current output) {
    const Charge whole = house.capacity * static_cast<double>(house.count);
    const Current by_kind = house.chemistry->charge_limit * whole;
    if (house.charge_limit < 0.995 * by_kind || house.charge_limit > 1.005 * by_kind) return {};
    return Charge(output / house.chemistry->charge_limit);
}

}  // namespace

void find_charge_limit(const EnergyContext& of, Findings& found) {
    const Current output = of.system.charger.output;
    const Current limit = of.system.house.charge_limit;
    if (!(output > limit)) return find_charge_of_both(of, found);
    Finding one{.level = of.lead() ? Level::warn : Level::stop,
                .code = FindingCode::charged_too_hard,
                .about = {FindingSubject::Kind::house_battery},
                .found = output,
                .allowed = limit,
                .remedy = {{{of.lead() ? RemedyCode::gentler_charger : RemedyCode::smaller_charger, {}}}, {}},
                .source = of.system.house.chemistry->source,
                .concern = Concern::trip};
    if (const auto capacity = capacity_for(of.system.house, output)) one.arguments = {{"capacity", *capacity}};
    found.push_back(std::move(one));
}

void find_charger_input(const EnergyContext& of, Findings& found) {
    const ChargerPoint& charger = of.energy.charger;
    if (!of.drives() || of.system.relay) return;
    if (!charger.starts()) {
        Finding one = about_charger(Level::stop, FindingCode::charger_does_not_start, sources::input_window);
        one.found = charger.unloaded;
        one.allowed = charger.input_on;
        found.push_back(std::move(one));
    } else if (!(charger.loaded > Voltage{})) {
        Finding one = about_charger(Level::stop, FindingCode::charger_not_fed, sources::power_delivery);
        one.found = of.system.charger.output;
        found.push_back(std::move(one));
    } else if (charger.cycles()) {
        Finding one = about_charger(Level::stop, FindingCode::charger_hunts, sources::input_window);
        one.found = charger.loaded;
        one.allowed = charger.input_off;
        found.push_back(std::move(one));
    }
}

void find_no_charger(const EnergyContext& of, Findings& found) {
    if (of.system.charged_by_driving || of.system.no_charger_told || !(of.energy.trip.driven > Duration{})) return;
    Finding one = about_charger(Level::note, FindingCode::no_charger, sources::trip);
    one.about = {FindingSubject::Kind::house_battery};
    one.found = of.energy.trip.driven;
    found.push_back(std::move(one));
}

namespace {

/// More than nobody would notice, of a full battery that the charger only holds. Common practice, no source.
bool loses(const EnergyContext& of) {
    constexpr Ratio noticed = 0.001;
    const auto& driving = of.energy.driving;
    return driving && driving->an_hour < -noticed * of.energy.battery.capacity;
}

}  // namespace

bool driving_loses(const EnergyContext& of) {
    return loses(of) && of.energy.charger.output > Current{} && !(of.energy.trip.refused > Duration{});
}

void find_driving_that_loses(const EnergyContext& of, Findings& found) {
    const auto& driving = of.energy.driving;
    if (!loses(of)) return;
    Finding one = about_charger(Level::warn, FindingCode::driving_loses, sources::trip);
    if (of.system.relay) {
        // One that never closes is told as such.
        if (!(of.energy.charger.output > Current{})) return;
        one.about = {FindingSubject::Kind::relay};
        one.remedy.steps = {{RemedyCode::charger_instead, {}}};
    }
    one.found = Charge(-driving->an_hour);
    found.push_back(std::move(one));
}

void find_cold_voltage(const EnergyContext& of, Findings& found) {
    // Where lamps and fridges begin to suffer. Common practice, no source.
    constexpr Voltage bearable = volts(15);
    if (!of.system.holds_voltage()) return;
    const Voltage highest = of.energy.trip.highest_target;
    if (!(highest > bearable + millivolts(0.5))) return;
    Finding one = about_charger(Level::warn, FindingCode::charge_voltage_cold, sources::practice);
    one.found = highest;
    one.allowed = bearable;
    one.arguments = {{"absorption", of.system.charger.absorption}};
    const Voltage lower = of.system.charger.absorption - (highest - bearable);
    if (lower >= of.system.house.chemistry->absorption_low) {
        one.remedy.steps = {{RemedyCode::lower_absorption, {{"lower", lower}}}};
        one.remedy.changes = {{"charger.absorption", write(Spread<Voltage>{lower, {}})}};
    }
    found.push_back(std::move(one));
}

void find_assumed_sensor(const EnergyContext& of, Findings& found) {
    const auto& bare = of.energy.without_sensor;
    if (!bare || bare->holds || !of.energy.trip.holds()) return;
    Finding one = about_charger(Level::warn, FindingCode::sensor_assumed, sources::practice);
    one.found = bare->lowest;
    found.push_back(std::move(one));
}

void find_hot_charger(const EnergyContext& of, Findings& found) {
    const Current full = of.energy.charger.output;
    if (!of.drives() || !(full > Current{}) || !(of.energy.least_charger < full)) return;
    Finding one = about_charger(Level::warn, FindingCode::charger_hot, sources::practice);
    one.found = of.energy.least_charger;
    one.allowed = full;
    found.push_back(std::move(one));
}

void find_spare_current(const EnergyContext& of, Findings& found) {
    const auto& spare = of.system.starter.spare_current;
    if (of.system.relay || !spare || !of.drives() || !(of.energy.charger.asks > *spare)) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::spare_current,
                     .about = {FindingSubject::Kind::starter_battery},
                     .found = of.energy.charger.asks,
                     .allowed = *spare,
                     .remedy = {{}, {{"charger.input_limit", write(Spread<Current>{*spare, {}})}}},
                     .source = sources::spare_current,
                     .concern = Concern::trip});
}

}  // namespace voltwright
