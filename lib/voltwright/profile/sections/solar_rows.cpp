#include "voltwright/profile/sections/solar.hpp"

#include "voltwright/profile/formats/cable.hpp"
#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"
#include "voltwright/sizing/panel_current.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

/// A default as one would write it.
Entry in_tenths(double number, std::string_view unit) { return rounded(std::round(10.0 * number) / 10.0, unit); }

std::optional<Entry> towards_equator(const Profile& profile, const Tables&, std::size_t) {
    if (!profile.trip.latitude) return {};
    return text_entry(profile.trip.latitude->value < degrees(0.0) ? "0 deg" : "180 deg");
}

// ---- what is printed on the panel -------------------------------------------------------------------------------------

const PanelPlateRow& usual_plate(const Tables& tables) { return tables.panel_plates.front(); }

Voltage most_power_voltage(const PanelPlateRow& plate) { return plate.power / plate.most_power; }

/// Of one panel; empty as long as nobody says what all of them give.
std::optional<Power> one_panel(const SolarKeys& solar) {
    if (!solar.panel) return {};
    const int panels = solar.series.value_or(1) * solar.parallel.value_or(1);
    return solar.panel->value / static_cast<double>(std::max(panels, 1));
}

/// By the voltage that is printed, if one is; else as of a panel for 12 V.
std::optional<Entry> short_circuit_by_power(const Profile& profile, const Tables& tables, std::size_t) {
    const auto power = profile.solar ? one_panel(*profile.solar) : std::nullopt;
    if (!power) return {};
    const PanelPlateRow& plate = usual_plate(tables);
    Voltage best = most_power_voltage(plate);
    if (const auto& told = profile.solar->most_power_voltage)
        best = told->value;
    else if (const auto& open = profile.solar->open_circuit)
        best *= open->value / plate.open_circuit;
    const Current current = *power / best * (plate.short_circuit / plate.most_power);
    return in_tenths(in_amperes(current), "A");
}

std::optional<Entry> most_power_voltage_by_current(const Profile& profile, const Tables& tables, std::size_t) {
    const auto power = profile.solar ? one_panel(*profile.solar) : std::nullopt;
    if (!power || !profile.solar->short_circuit || !(profile.solar->short_circuit->value > Current{})) return {};
    const PanelPlateRow& plate = usual_plate(tables);
    const Current best = profile.solar->short_circuit->value * (plate.most_power / plate.short_circuit);
    return in_tenths(in_volts(*power / best), "V");
}

std::optional<Entry> open_circuit_by_voltage(const Profile& profile, const Tables& tables, std::size_t) {
    if (!profile.solar || !profile.solar->most_power_voltage) return {};
    const PanelPlateRow& plate = usual_plate(tables);
    return in_tenths(
        in_volts(profile.solar->most_power_voltage->value * (plate.open_circuit / most_power_voltage(plate))), "V");
}

/// What the panels can bring: with mppt all their power at the lowest voltage of a battery that is charged, with pwm
/// their greatest current.
std::optional<Entry> output_by_panel(const Profile& profile, const Tables& tables, std::size_t) {
    if (!profile.solar || !profile.solar->panel || !profile.solar->short_circuit) return {};
    const SolarKeys& solar = *profile.solar;
    if (solar.regulator == Regulator::pwm) {
        const Current all = solar.short_circuit->value * static_cast<double>(solar.parallel.value_or(1));
        return in_tenths(in_amperes(panel_design_current(all, tables).most), "A");
    }
    return in_tenths(in_amperes(solar.panel->value / nominal_voltage), "A");
}

std::optional<Entry> where_the_battery_is(const Profile& profile, const Tables&, std::size_t) {
    if (!profile.battery.where) return {};
    const Somewhere& where = *profile.battery.where;
    if (const auto* place = std::get_if<std::string>(&where)) return text_entry(*place);
    return text_entry(show(std::get<Spread<Temperature>>(where).value));
}

std::span<const Key> solar_rows() {
    static const Key rows[] = {
        key<&SolarKeys::panel>("panel", Required{R"("100 W")"}, {up_to(watts(5000.0))},
                               "rated power of the panels together"),
        key<&SolarKeys::series>("series", usual(1), {counts(1, 20)},
                                "panels one behind the other: their voltages add up"),
        key<&SolarKeys::parallel>("parallel", usual(1), {counts(1, 50)},
                                  "panels, or strings of them, side by side: their currents add up"),
        key<&SolarKeys::short_circuit>("short_circuit", ByRule{"by its power", &short_circuit_by_power, R"("6 A")"},
                                       {up_to(amperes(50.0))}, "short-circuit current (Isc) printed on one panel"),
        key<&SolarKeys::most_power_voltage>(
            "most_power_voltage", ByRule{"by power and short_circuit", &most_power_voltage_by_current, R"("18 V")"},
            {up_to(volts(200.0))}, "voltage at which one panel gives most (Vmp), as printed on it"),
        key<&SolarKeys::open_circuit>("open_circuit",
                                      ByRule{"by most_power_voltage", &open_circuit_by_voltage, R"("22 V")"},
                                      {up_to(volts(250.0))}, "open-circuit voltage (Voc) printed on one panel"),
        key<&SolarKeys::tilt>("tilt", usual("0 deg"), {between(degrees(0.0), degrees(90.0))},
                              "tilt of the panel; 0 deg lies flat on the roof"),
        key<&SolarKeys::azimuth>("azimuth", ByRule{"towards the equator", &towards_equator},
                                 {between(degrees(-180.0), degrees(360.0))},
                                 "where a tilted panel looks, from north by east: east is 90 deg"),
        key<&SolarKeys::regulator>("regulator", usual("mppt"), {},
                                   "kind of the regulator: \"mppt\" finds the panel's best voltage, \"pwm\" does not"),
        key<&SolarKeys::shade>("shade", usual("0 %"), {share()}, "share of the sun lost to trees, racks and dust"),
        key<&SolarKeys::output>("output", ByRule{"what the panels can bring", &output_by_panel},
                                {up_to(amperes(500.0))}, "most current that the regulator gives, printed on it"),
        key<&SolarKeys::fuse_max>("fuse_max", Absent{"no limit of its own", R"("30 A")"}, {fuse_rating()},
                                  "largest fuse that the regulator's manual allows towards the battery"),
        key<&SolarKeys::terminal>("terminal", Absent{"it takes any size", R"("6 mm2")"}, {},
                                  "largest cable that the regulator's terminals take"),
        key<&SolarKeys::where>("where", ByRule{"where the battery is", &where_the_battery_is}, {surroundings()},
                               "where the regulator stands: a place or a temperature"),
    };
    return rows;
}

void look_through_solar(const WholeProfile& whole, Faults& faults) {
    if (!whole.given.solar || !whole.complete.solar) return;
    const SolarKeys& given = *whole.given.solar;
    const SolarKeys& keys = *whole.complete.solar;
    place_of_table(given.where, "solar.where", whole.tables, faults);
    if (given.terminal) size_of_table(*given.terminal, "solar.terminal", whole.tables, faults);
    if (given.most_power_voltage || given.open_circuit)
        not_above(keys.most_power_voltage, keys.open_circuit,
                  given.most_power_voltage ? "solar.most_power_voltage" : "solar.open_circuit", "most_power_voltage",
                  "open_circuit", faults, false);
    const auto power = one_panel(keys);
    if (!given.short_circuit || !given.most_power_voltage || !power) return;
    if (const Current best = *power / keys.most_power_voltage->value; best > keys.short_circuit->value)
        add(faults, "solar.short_circuit",
            show(*power) + " at " + show(keys.most_power_voltage->value) + " are " + show(best) +
                ", more than the panel gives when it is short-circuited",
            "series and parallel count the panels of `panel` together");
}

}  // namespace

SectionRow solar_section() {
    SectionRow row = optional_section<&Profile::solar>("solar", "a solar panel and its regulator", solar_rows());
    row.contradictions = &look_through_solar;
    return row;
}

}  // namespace voltwright
