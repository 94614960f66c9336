#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/find.hpp"

namespace voltwright {

MoreCharge more_charge(const EnergyContext& of) {
    const bool panel = of.system.solar.has_value();
    if (!of.system.charged_by_driving && !(of.energy.trip.driven > Duration{}))
        return panel ? MoreCharge::larger_panel : MoreCharge::panel;
    if (!of.system.charged_by_driving)
        return panel ? MoreCharge::larger_panel_or_charger : MoreCharge::charger_or_panel;
    if (!of.drives()) return panel ? MoreCharge::larger_panel : MoreCharge::drive_or_panel;
    if (driving_loses(of))
        return panel ? MoreCharge::larger_charger_or_larger_panel : MoreCharge::larger_charger_or_panel;
    return panel ? MoreCharge::longer_drives_or_larger_panel : MoreCharge::longer_drives_or_panel;
}

Findings find_in_energy(const EnergyPlan& energy, const System& system, const Tables& tables) {
    Findings found;
    const EnergyContext of{energy, system, tables};
    find_charge_voltage(of, found);
    find_charge_limit(of, found);
    find_charger_input(of, found);
    find_no_charger(of, found);
    find_depth_limit(of, found);
    find_loads_on_the_starter(of, found);
    find_low_guards_on_the_starter(of, found);
    find_switched_off(of, found);
    find_hunting_guards(of, found);
    find_overwhelmed_fridges(of, found);
    find_warm_starts(of, found);
    find_untimed_loads(of, found);
    find_driving_that_loses(of, found);
    find_never_full(of, found);
    find_fading(of, found);
    find_lithium_too_cold(of, found);
    find_battery_in_the_cold(of, found);
    find_charge_in_the_cold(of, found);
    find_battery_in_the_heat(of, found);
    find_too_hot_to_charge(of, found);
    find_gas_in_the_living_space(of, found);
    find_freezing_acid(of, found);
    find_cold_voltage(of, found);
    find_assumed_sensor(of, found);
    find_assumed_sky(of, found);
    find_hot_charger(of, found);
    find_spare_current(of, found);
    find_discharge_limit(of, found);
    find_inverter_output(of, found);
    find_inverter_input(of, found);
    find_guessed_fridges(of, found);
    find_new_battery_only(of, found);
    return found;
}

}  // namespace voltwright
