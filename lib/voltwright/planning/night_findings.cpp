#include "voltwright/energy/charger.hpp"
#include "voltwright/planning/night.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// Lead that is not charged beyond this for days sulphates. Common practice, no source.
constexpr Ratio as_good_as_full = 0.95;
/// A guard that trips more often than this a day is hunting. Common practice, no source.
constexpr double cut_outs_a_day = 4.0;
constexpr int minutes_a_day = 24 * 60;

/// Looks at the energy side and gathers what there is to say.
class Look {
public:
    Look(const Night& night, const System& system, const Tables& tables)
        : night_(night), system_(system), profile_(system.complete), tables_(tables) {}

    Findings all() && {
        charge_voltage();
        charge_limit();
        charger_input();
        depth_limit();
        on_the_starter();
        low_guards_on_the_starter();
        switched_off();
        hunting();
        overwhelmed_fridges();
        driving_that_loses();
        never_full();
        frozen_lithium();
        freezing_acid();
        cold_voltage();
        sky();
        hot_charger();
        spare_current();
        discharge_limit();
        inverter_output();
        inverter_input();
        guessed_fridges();
        return std::move(findings_);
    }

private:
    void add(Level level, std::string_view code, std::string about, std::optional<Measure> found,
             std::optional<Measure> allowed, std::string remedy, std::string source, std::string detail = {},
             Concern concern = Concern::trip) {
        findings_.push_back({level, code, std::move(about), found, allowed, std::move(remedy), std::move(source),
                             std::move(detail), concern});
    }

    [[nodiscard]] bool lead() const { return !system_.house.chemistry->charge_above.has_value(); }
    [[nodiscard]] bool drives() const { return night_.trip.driven > Duration{}; }

    /// What gives more charge back, from what the profile has.
    [[nodiscard]] std::string more_charge() const {
        if (!drives()) return profile_.solar ? "A larger panel" : "A drive a day or a panel";
        return profile_.solar ? "Longer drives or a larger panel" : "Longer drives or a panel";
    }

    // ---- the charger -------------------------------------------------------------------------------------------------

    void charge_voltage() {
        const ChemistryRow& chemistry = *system_.house.chemistry;
        const Voltage absorption = profile_.charger.absorption->value;
        const std::string right = show(chemistry.absorption_low) + " to " + show(chemistry.absorption_high);
        if (absorption > chemistry.absorption_high)
            add(Level::stop, "charge-voltage-high", "charger", absorption, chemistry.absorption_high,
                "Set its absorption to " + right + ", or as the battery's sheet says.",
                std::string(chemistry.source.cite), std::string(chemistry.chemistry));
        else if (absorption < chemistry.absorption_low)
            add(Level::warn, "charge-voltage-low", "charger", absorption, chemistry.absorption_low,
                "Set its absorption to " + right + ", or as the battery's sheet says.",
                std::string(chemistry.source.cite), std::string(chemistry.chemistry));
    }

    void charge_limit() {
        const Current output = profile_.charger.output->value;
        const Current limit = profile_.battery.charge_limit->value;
        if (!(output > limit)) return;
        add(lead() ? Level::warn : Level::stop, "charged-too-hard", "battery", output, limit,
            lead() ? "A larger battery or a smaller charger lasts longer; see what the battery's sheet allows."
                   : "The battery's own switch would cut the charger off. Take a smaller charger, or see its sheet.",
            std::string(system_.house.chemistry->source.cite));
    }

    void charger_input() {
        const ChargerPoint& charger = night_.charger;
        if (!drives()) return;
        if (!charger.starts())
            add(Level::stop, "charger-does-not-start", "charger", charger.unloaded, charger.input_on,
                "Have the alternator looked at, set input_on lower, or take a charger made for a smart alternator.",
                "the charger's input window");
        else if (!(charger.loaded > Voltage{}))
            add(Level::stop, "charger-not-fed", "charger", profile_.charger.output->value, {},
                "A thicker or shorter feed, or a charger with a smaller output.", "P = V·I through a resistance");
        else if (charger.cycles())
            add(Level::stop, "charger-hunts", "charger", charger.loaded, charger.input_off,
                "A thicker or shorter feed leaves it more volts.", "the charger's input window");
    }

    void hot_charger() {
        const Current full = night_.charger.output;
        if (!drives() || !(full > Current{}) || !(night_.least_charger < full)) return;
        add(Level::warn, "charger-hot", "charger", night_.least_charger, full,
            "Let it stand cooler, with air around it.", "common practice, no source");
    }

    void spare_current() {
        if (!profile_.starter.spare_current || !drives()) return;
        const Current spare = profile_.starter.spare_current->value;
        if (!(night_.charger.input > spare)) return;
        add(Level::warn, "spare-current", "starter", night_.charger.input, spare,
            "Set the charger's input limit, or take a smaller one.", "the profile's spare_current");
    }

    void frozen_lithium() {
        if (!(night_.trip.refused > Duration{})) return;
        add(Level::warn, "too-cold-to-charge", "battery", night_.trip.refused, night_.trip.driven,
            "Let the battery stand where it is warmer, or take one with a heater.",
            std::string(system_.house.chemistry->source.cite), show(*system_.house.chemistry->charge_above));
    }

    void freezing_acid() {
        // Colder places, a thermometer's error and a cell that is weaker than the rest. Common practice, no source.
        constexpr TemperatureRise margin = kelvins(5);
        const auto& near = night_.trip.near_freezing;
        if (!near || near->battery > near->freezes + margin) return;
        add(Level::stop, "acid-freezes", "battery", near->battery, near->freezes,
            more_charge() + ", a larger battery, or a warmer place for it.",
            std::string(tables_.electrolyte_freezing.front().source.cite),
            show(near->soc) + " charged, " + when(near->at));
    }

    /// Lamps, fridges and heaters are made for a vehicle's voltage. Where they begin to suffer: common practice, no source.
    void cold_voltage() {
        constexpr Voltage bearable = volts(15);
        const Voltage highest = night_.trip.highest_target;
        if (!(highest > bearable + millivolts(0.5))) return;
        add(Level::warn, "charge-voltage-cold", "charger", highest, bearable,
            "Set its absorption lower for the winter, or see what lamps, fridge and heater bear.",
            "common practice, no source", show(profile_.charger.absorption->value));
    }

    /// How much sun comes through decides a trip on solar, and nobody said.
    void sky() {
        if (!profile_.solar || system_.given.trip.clearness || !profile_.trip.start || !profile_.trip.latitude) return;
        const ClearnessIndexRow* row =
            find_clearness_index(tables_, profile_.trip.latitude->value, profile_.trip.start->month);
        add(Level::warn, "clearness-assumed", "sun", of_clear_sky(row->usual), of_clear_sky(row->least),
            "Give clearness in [trip] for your region and month. A few dull days in a row bring half of it.",
            std::string(row->source.cite), show(of_clear_sky(row->most)));
    }

    // ---- the battery -------------------------------------------------------------------------------------------------

    /// Why the limit is not the one that the profile gives; nothing where it is.
    [[nodiscard]] std::string more_in_the_cold(const Trip& trip) const {
        const Ratio warm = 1.0 - night_.depth_limit;
        return show(trip.deepest_allowed) == show(warm) ? "" : " (" + show(warm) + ", more in the cold)";
    }

    [[nodiscard]] bool house_cools() const {
        return std::any_of(night_.fridges.begin(), night_.fridges.end(),
                           [](const FridgeNeed& fridge) { return fridge.fed_by == FedBy::house; });
    }

    void depth_limit() {
        const Trip& trip = night_.trip;
        if (!trip.below_limit) return;
        add(Level::stop, "depth-limit", "battery", trip.lowest, trip.deepest_allowed,
            more_charge() +
                (!house_cools() ? " or a larger battery." : ", a larger battery, or a cooler place for the fridge."),
            "the battery's depth limit", more_in_the_cold(trip) + ", first " + when(*trip.below_limit));
    }

    void never_full() {
        if (!lead() || !drives() || night_.trip.days.size() < 2) return;
        if (night_.trip.highest_after_start >= as_good_as_full) return;
        add(Level::warn, "never-full", "battery", night_.trip.highest_after_start, as_good_as_full,
            "Charge it from the mains or in the sun when you are back: lead that stays part charged wears out.",
            "common practice, no source");
    }

    void driving_that_loses() {
        if (!night_.driving || night_.driving->an_hour >= Charge{}) return;
        add(Level::warn, "driving-loses", "charger", -night_.driving->an_hour, {},
            "A larger charger, or fewer loads while driving.", "the trip, hour by hour");
    }

    void discharge_limit() {
        const Current limit = profile_.battery.discharge_limit->value;
        if (!(night_.most_drawn > limit)) return;
        add(lead() ? Level::warn : Level::stop, "discharged-too-hard", "battery", night_.most_drawn, limit,
            "A larger battery, or not everything at once.", std::string(system_.house.chemistry->source.cite), {},
            Concern::engine_off);
    }

    // ---- the starter battery -----------------------------------------------------------------------------------------

    void on_the_starter() {
        if (!night_.starter) return;
        const StarterLoads& loads = *night_.starter;
        std::string reached = show(loads.least);
        // Rounded down: what lasts is never told longer than it is.
        if (loads.lasts) {
            const Duration step = *loads.lasts < hours(10) ? minutes(10) : hours(1);
            reached += ", after " + show(step * std::floor(in_hours(*loads.lasts) / in_hours(step)));
        }
        // What switches itself off in time spares the engine, and is off.
        const bool essential =
            std::any_of(loads.loads.begin(), loads.loads.end(), [](const StarterLoad& load) { return load.essential; });
        const bool stopped = !loads.saved_by_guards || essential;
        // One drive left out, and the engine does not start: worth a look before.
        const bool one_drive_away = loads.lasts && *loads.lasts < 2.0 * loads.stand;
        if (loads.holds())
            add(one_drive_away ? Level::warn : Level::note, "starter-load", loads.names(), loads.taken, loads.allowed,
                "Start the engine before that, or feed it from the house battery.", loads.source, reached,
                Concern::engine_off);
        else
            add(stopped ? Level::stop : Level::warn, "starter-drained", loads.names(), loads.taken, loads.allowed,
                "Feed it from the house battery.", loads.source, reached, Concern::engine_off);
        if (loads.capacity_assumed)
            add(Level::warn, "starter-capacity-assumed", "starter", loads.capacity, {},
                "Give capacity in [starter], as printed on the battery.", loads.source, {}, Concern::trip);
    }

    void low_guards_on_the_starter() {
        const FridgeGuardRow& made_for_it = *find_fridge_guard(tables_, "high");
        for (const FridgeKeys& fridge : profile_.fridges)
            if (fridge.cut_out && fridge.cut_out->value < made_for_it.cut_out &&
                source_of(system_, *fridge.name) == PlaceKind::starter_battery)
                add(Level::warn, "starter-guard-low", *fridge.name, fridge.cut_out->value, made_for_it.cut_out,
                    "Set its guard to the high setting.", std::string(made_for_it.source.cite));
    }

    // ---- the inverter ------------------------------------------------------------------------------------------------

    /// What hangs on the inverter and is on at one time.
    struct Together {
        Power draw{};
        int count = 0;
        std::string names;
    };

    [[nodiscard]] Together inverted_at(int minute) const {
        Together sum;
        for (const LoadKeys& load : profile_.loads) {
            const bool on = std::any_of(load.hours->begin(), load.hours->end(),
                                        [&](const ClockWindow& window) { return window.holds(minute); });
            if (!load.through || !on) continue;
            sum.draw += std::get<Spread<Power>>(*load.draw).value;
            ++sum.count;
            sum.names += (sum.names.empty() ? "" : ", ") + *load.name;
        }
        return sum;
    }

    /// The most that it is asked for: the sum grows only where the hours of one begin.
    [[nodiscard]] Together most_inverted() const {
        Together most;
        for (const LoadKeys& load : profile_.loads) {
            if (!load.through) continue;
            for (const ClockWindow& window : *load.hours)
                if (Together then = inverted_at(window.from.minutes % minutes_a_day); then.draw > most.draw)
                    most = std::move(then);
        }
        return most;
    }

    void inverter_output() {
        if (!profile_.inverter) return;
        Together most = most_inverted();
        const Power output = profile_.inverter->output->value;
        if (!(most.draw > output)) return;
        add(Level::stop, "inverter-overloaded", "inverter", most.draw, output,
            most.count > 1 ? "Use them at different hours and say so in `hours`, or take a larger inverter."
                           : "Take a larger inverter, or an appliance that draws less.",
            "the inverter's rated output", std::move(most.names), Concern::engine_off);
    }

    /// What it may draw at its rated output, from a battery at the end of its rating.
    void inverter_input() {
        if (!profile_.inverter) return;
        const InverterKeys& inverter = *profile_.inverter;
        const Current input = inverter.output->value / inverter.efficiency->value / end_of_rating;
        const Current limit = profile_.battery.discharge_limit->value;
        if (!(input > limit)) return;
        const Power bearable = limit * end_of_rating * inverter.efficiency->value;
        const Power step = watts(bearable < watts(100) ? 1 : 10);
        add(Level::warn, "inverter-above-battery", "inverter", input, limit,
            "Keep what hangs on it below " + show(Power{std::floor(bearable / step) * step}) +
                ", or take a larger battery.",
            std::string(system_.house.chemistry->source.cite));
    }

    // ---- what is fed -------------------------------------------------------------------------------------------------

    void switched_off() {
        for (const Served& served : night_.trip.served) {
            if (!(served.off > Duration{}) || !served.first_off) continue;
            const bool by_guard = served.cut_outs > 0;
            std::string remedy = more_charge() + " or a larger battery keeps it on.";
            if (by_guard && !night_.guard_known && night_.guard == GuardSetting::high) {
                if (night_.other && night_.other->holds())
                    remedy = "Set its guard to the standard setting: it then stays on.";
                else
                    remedy += " Its guard at the standard setting helps, and does not do alone.";
            }
            add(served.essential ? Level::stop : Level::warn, by_guard ? "cut-out" : "without-power", served.name,
                served.off, {}, std::move(remedy), "the trip, hour by hour", when(*served.first_off));
        }
    }

    void hunting() {
        const double days = static_cast<double>(std::max<std::size_t>(night_.trip.days.size(), 1));
        for (const Served& served : night_.trip.served) {
            if (!(served.cut_outs > cut_outs_a_day * days)) continue;
            add(Level::warn, "guard-hunts", served.name, served.off, {},
                "A thicker cable to it, or a lower setting of its guard.", "the trip, hour by hour",
                std::to_string(served.cut_outs));
        }
    }

    [[nodiscard]] bool essential(const std::string& name) const {
        return std::any_of(night_.trip.served.begin(), night_.trip.served.end(),
                           [&](const Served& served) { return served.name == name && served.essential; }) ||
               (night_.starter &&
                std::any_of(night_.starter->loads.begin(), night_.starter->loads.end(),
                            [&](const StarterLoad& load) { return load.name == name && load.essential; }));
    }

    void overwhelmed_fridges() {
        for (const FridgeNeed& fridge : night_.fridges) {
            if (!(fridge.overwhelmed > Duration{})) continue;
            add(essential(fridge.name) ? Level::stop : Level::warn, "fridge-overwhelmed", fridge.name,
                fridge.greatest_duty, Ratio{1.0}, "Park it in the shade, set it warmer, or take one that cools more.",
                "heat through its walls", show(fridge.hottest), Concern::engine_off);
        }
    }

    void guessed_fridges() {
        for (const FridgeNeed& fridge : night_.fridges) {
            if (fridge.fridge.by_rule_of_thumb)
                add(Level::warn, "fridge-guessed", fridge.name, fridge.a_day_hot, {},
                    "Count its ampere-hours for a day at a known temperature and give them as rated.",
                    std::string(tables_.fridges.front().source.cite));
            else if (fridge.fridge.fit == FridgeFit::assumed_share)
                add(Level::note, "fridge-one-point", fridge.name, fridge.a_day_hot, {},
                    "Count its ampere-hours for a day at another temperature, and give both.",
                    std::string(tables_.fridges.front().source.cite));
            else if (fridge.fridge.fit == FridgeFit::contradicting)
                add(Level::warn, "fridge-contradicts", fridge.name, fridge.a_day_cool, fridge.a_day_hot,
                    "Measure again: the hotter day should take more.", "heat through its walls");
        }
    }

    const Night& night_;
    const System& system_;
    const Profile& profile_;
    const Tables& tables_;
    Findings findings_;
};

}  // namespace

Findings find_in_night(const Night& night, const System& system, const Tables& tables) {
    return Look(night, system, tables).all();
}

}  // namespace voltwright
