#include "voltwright/energy/house_battery.hpp"
#include "voltwright/vehicle/layout.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

namespace {

// ---- what one thing draws ----------------------------------------------------------------------------------------------

/// The highest voltage of what the way to a run begins at.
Voltage highest_at(const Layout& layout, std::size_t run) {
    return source_of(layout, run).kind == PlaceKind::starter_battery ? layout.has.starter.running
                                                                     : highest_absorption(layout.has).voltage;
}

RunLoad charger_load(const Equipment& has) {
    const DcCharger& charger = has.charger;
    return ConverterLoad{.output = charger.output,
                         .absorption = charger.absorption,
                         .highest_absorption = highest_absorption(has),
                         .efficiency = charger.efficiency,
                         .input_off = charger.input_off,
                         .input_limit = charger.input_limit,
                         .fuse_max = charger.fuse_max};
}

/// Of a fridge that does not say: the lower of the two usual settings of its guard, where most current flows. On the starter
/// battery the setting that is made for one.
Voltage usual_cut_out(const Layout& layout, std::size_t run) {
    const bool on_the_starter = source_of(layout, run).kind == PlaceKind::starter_battery;
    return find_fridge_guard(layout.tables, on_the_starter ? "high" : "standard")->cut_out;
}

RunLoad consumer_load(const Layout& layout, std::size_t run) {
    const std::string& name = layout.runs[run].to.name;
    if (const FridgeUnit* fridge = find_fridge(layout.has, name))
        return PowerLoad{.power = fridge->draw,
                         .cut_out = fridge->cut_out ? *fridge->cut_out : usual_cut_out(layout, run),
                         .fuse_max = fridge->fuse_max,
                         .starts_hard = !fridge->inrush};
    return run_load(*find_load(layout.has, name), highest_at(layout, run));
}

RunLoad inverter_load(const Inverter& inverter) {
    return PowerLoad{.power = inverter.output / inverter.efficiency, .cut_out = end_of_rating};
}

/// What the sun brings to the regulator, and what that brings to the battery.
RunLoad panel_load(const SolarPanel& solar) {
    return PanelLoad{.most_power = solar.most_power_current(), .short_circuit = solar.all_short_circuit()};
}

RunLoad regulator_load(const Equipment& has) {
    const SolarPanel& solar = *has.solar;
    return SteadyLoad{
        .current = full_sun_current(solar, has.charger.absorption), .fuse_max = solar.fuse_max, .most = solar.output};
}

/// At the panels' end of their cable; pwm holds them at the voltage of the battery.
Voltage panel_voltage(const Equipment& has) {
    const Voltage best = has.solar->string_voltage();
    return has.solar->regulator == Regulator::pwm ? std::min(best, has.charger.absorption) : best;
}

bool by_the_panel(const Layout& layout, std::size_t run) { return source_of(layout, run).kind == PlaceKind::panel; }

// ---- what may be lost --------------------------------------------------------------------------------------------------

bool is_essential(const Equipment& has, const Place& place) {
    if (const LoadUnit* load = find_load(has, place.name)) return load->essential;
    const FridgeUnit* fridge = find_fridge(has, place.name);
    return fridge && fridge->essential;
}

Ratio drop_limit(const Layout& layout, std::size_t run) {
    const RunRole role = layout.runs[run].role;
    if (role == RunRole::output || role == RunRole::solar) return layout.limits.output;
    if (by_the_panel(layout, run)) return static_cast<double>(layout.has.solar->series) * layout.limits.panel;
    std::optional<Ratio> least;
    for (const Place& place : consumers_behind(layout, run)) {
        const Ratio limit = place.kind == PlaceKind::charger  ? layout.limits.feed
                            : is_essential(layout.has, place) ? layout.limits.essential
                                                              : layout.limits.other;
        least = std::min(least.value_or(limit), limit);
    }
    return least.value_or(layout.limits.other);
}

/// Whether the way that a run hangs on leads to the charger: then it is judged with the engine running. What else hangs on
/// the starter battery is on at rest too.
bool on_the_way_to_the_charger(const Layout& layout, std::size_t run) {
    if (source_of(layout, run).kind != PlaceKind::starter_battery) return false;
    const std::vector<Place> places = consumers_behind(layout, layout.tree.root[run]);
    return std::any_of(places.begin(), places.end(),
                       [](const Place& place) { return place.kind == PlaceKind::charger; });
}

Voltage normal_voltage(const Layout& layout, std::size_t run) {
    return on_the_way_to_the_charger(layout, run) ? layout.has.starter.running : nominal_voltage;
}

// ---- what can be on together -------------------------------------------------------------------------------------------

/// Minutes of the day at which something may be switched on.
std::vector<int> minutes_of_change(const Equipment& has) {
    std::vector<int> minutes = {0};
    for (const LoadUnit& load : has.loads)
        for (const ClockWindow& window : load.hours) minutes.push_back(window.from.minutes % (24 * 60));
    return minutes;
}

/// A fridge, an inverter and a charger may be on at any time.
bool is_on(const Equipment& has, const Place& place, int minute) {
    const LoadUnit* load = find_load(has, place.name);
    return !load || std::any_of(load->hours.begin(), load->hours.end(),
                                [minute](const ClockWindow& window) { return window.holds(minute); });
}

struct Demand {
    Current usual;    ///< at the least voltage that the drop limits leave
    Current most;     ///< the sum of the greatest currents
    Current lasting;  ///< of these what counts as lasting: all but the one that runs for a short time and heats most
    std::optional<ShortTimeCurrent> short_time;

    /// Of two that run for a short time one counts as lasting: they may run together, and one after the other.
    void add_short_time(const ShortTimeCurrent& one) {
        const auto heats = [](const ShortTimeCurrent& each) {
            return each.current * each.current * double(each.on / each.cycle);
        };
        if (short_time) lasting += heats(one) > heats(*short_time) ? short_time->current : one.current;
        if (!short_time || heats(one) > heats(*short_time)) short_time = one;
    }
};

/// Of all that is on behind the end of a run at a minute of the day.
Demand demand_behind(const Layout& layout, std::size_t run, int minute) {
    Demand sum{};
    for (const std::size_t next : layout.tree.after[run]) {
        if (layout.runs[next].role == RunRole::trunk) {
            const Demand more = demand_behind(layout, next, minute);
            sum.usual += more.usual;
            sum.most += more.most;
            sum.lasting += more.lasting;
            if (more.short_time) sum.add_short_time(*more.short_time);
        } else if (is_on(layout.has, layout.runs[next].to, minute)) {
            const RunLoad load = load_of(layout, next);
            const Voltage normal = normal_voltage(layout, next);
            sum.usual += most_current(law_of(load), normal - drop_limit(layout, next) * nominal_voltage, normal);
            const DesignCurrent design = design_current(load);
            sum.most += peak_current(design);
            if (design.short_time)
                sum.add_short_time(*design.short_time);
            else
                sum.lasting += design.current;
        }
    }
    return sum;
}

RunLoad trunk_load(const Layout& layout, std::size_t run) {
    Demand most{};
    for (const int minute : minutes_of_change(layout.has)) {
        const Demand now = demand_behind(layout, run, minute);
        most.usual = std::max(most.usual, now.usual);
        most.lasting = std::max(most.lasting, now.lasting);
        if (now.most > most.most) most.short_time = now.short_time;
        most.most = std::max(most.most, now.most);
    }
    SteadyLoad all{.current = most.usual, .most = std::max(most.usual, most.most)};
    if (most.short_time && most.lasting < most.most)
        all.short_time = ShortTime{most.short_time->on, most.short_time->cycle, most.lasting};
    return all;
}

std::optional<ShortCurrent> inrush_of(const Equipment& has, const Place& place) {
    if (const LoadUnit* load = find_load(has, place.name)) return load->inrush;
    const FridgeUnit* fridge = find_fridge(has, place.name);
    return fridge ? fridge->inrush : std::nullopt;
}

std::vector<ShortCurrent> starting_behind(const Layout& layout, std::size_t trunk) {
    std::vector<ShortCurrent> all;
    for (const std::size_t run : layout.tree.from(trunk)) {
        const Place& place = layout.runs[run].to;
        auto start = inrush_of(layout.has, place);
        if (!start) continue;
        Current others{};
        for (const int minute : minutes_of_change(layout.has))
            if (is_on(layout.has, place, minute)) others = std::max(others, demand_behind(layout, trunk, minute).most);
        start->current += std::max(others - peak_current(design_current(load_of(layout, run))), Current{});
        all.push_back(*start);
    }
    return all;
}

}  // namespace

RunLoad load_of(const Layout& layout, std::size_t run) {
    if (by_the_panel(layout, run)) return panel_load(*layout.has.solar);
    switch (layout.runs[run].role) {
        // Through a relay flows what its cables let through: known once they are chosen.
        case RunRole::feed: return layout.has.relay ? SteadyLoad{.current = Current{}} : charger_load(layout.has);
        case RunRole::output: return SteadyLoad{.current = layout.has.charger.output};
        case RunRole::appliance: return consumer_load(layout, run);
        case RunRole::inverter: return inverter_load(*layout.has.inverter);
        case RunRole::trunk: return trunk_load(layout, run);
        case RunRole::panel: return panel_load(*layout.has.solar);
        case RunRole::solar: return regulator_load(layout.has);
    }
    throw std::logic_error("a run of no kind");
}

Supply supply_of(const Layout& layout, std::size_t run) {
    const Ratio limit = drop_limit(layout, run);
    const RunRole role = layout.runs[run].role;
    if (by_the_panel(layout, run)) {
        const Voltage there = panel_voltage(layout.has);
        return {there, there, limit};
    }
    if (role == RunRole::output || role == RunRole::solar) {
        const bool by_relay = role == RunRole::output && layout.has.relay;
        const Voltage held = by_relay ? layout.has.starter.running : layout.has.charger.absorption;
        return {held, held, limit};
    }
    if (on_the_way_to_the_charger(layout, run))
        return {layout.has.starter.running, layout.has.starter.lowest_running, limit};
    return {nominal_voltage, nominal_voltage, limit};
}

std::vector<ShortCurrent> starting_of(const Layout& layout, std::size_t run) {
    if (layout.runs[run].role == RunRole::trunk) return starting_behind(layout, run);
    const auto start = inrush_of(layout.has, layout.runs[run].to);
    return start ? std::vector{*start} : std::vector<ShortCurrent>{};
}

std::optional<Current> motor_fuse_behind(const Layout& layout, std::size_t run) {
    std::optional<Current> largest;
    for (const Place& place : consumers_behind(layout, run))
        if (const FridgeUnit* fridge = find_fridge(layout.has, place.name); fridge && !fridge->inrush)
            largest = std::max(largest.value_or(Current{}), fridge->fuse_max);
    return largest;
}

bool essential(const Layout& layout, std::size_t run) {
    const RunRole role = layout.runs[run].role;
    const std::vector<Place> places = consumers_behind(layout, run);
    return role == RunRole::feed || role == RunRole::output || role == RunRole::solar || by_the_panel(layout, run) ||
           std::any_of(places.begin(), places.end(),
                       [&](const Place& place) { return is_essential(layout.has, place); });
}

}  // namespace voltwright
