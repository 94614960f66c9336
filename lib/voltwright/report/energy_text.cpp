#include "voltwright/report/energy_text.hpp"

#include "voltwright/report/energy_words.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <cmath>

namespace voltwright {

namespace {

std::string drives_words(const Plan& plan) {
    const TripResult& trip = plan.energy.trip;
    const std::size_t days = trip.days.size();
    if (!(trip.driven > Duration{})) return counted(days, "day, no driving", "days, no driving");
    // To the minute: of a sum of many steps the last digits are chance, of half a minute too.
    const Duration a_day = minutes(std::floor(in_minutes(trip.driven / static_cast<double>(days)) + 0.5 + 1e-6));
    return counted(days, "day, ", "days, ") + show(a_day) + " driving a day";
}

std::string trip_words(const EnergyPlan& energy) {
    const TripResult& trip = energy.trip;
    // The battery that it rests on is not the one whose lowest is known.
    if (energy.house_idle()) return energy.holds() ? "holds" : "does not hold";
    const std::string lowest = "lowest " + show(trip.lowest) + ", " + show(trip.lowest_at);
    if (energy.holds()) return "holds; " + lowest + limit_then_words(energy, trip);
    std::string words = "does not hold; " + lowest;
    if (trip.essential_off() > Duration{}) words += "; essential loads off for " + show(trip.essential_off());
    return words;
}

std::string fridge_words(const FridgeNeed& fridge) {
    const std::string cool = amount(fridge.a_day_cool), hot = amount(fridge.a_day_hot);
    const std::string least = show(fridge.least_duty), most = show(fridge.greatest_duty);
    return "takes " + (cool == hot ? hot : cool + " to " + hot) + " a day; runs " +
           (least == most ? most : least + " to " + most) + " of the time";
}

/// What the lid takes, and what is put in warm: nothing is said of what is not there.
void add_warmth_let_in(const FridgeNeed& fridge, std::vector<EnergyWords>& lines) {
    if (fridge.lid_counted && fridge.lid.electric > Energy{}) {
        const auto times = static_cast<std::size_t>(fridge.lid.a_day);
        lines.push_back({{},
                         "of that the lid takes up to " + amount(fridge.lid.electric / fridge.counted_at) +
                             ", opened " + counted(times, "time a day", "times a day")});
    }
    if (fridge.all_put_in > Charge{})
        lines.push_back({{}, "things put in warm take " + amount(fridge.all_put_in) + " more on this trip"});
}

}  // namespace

std::vector<SettingWords> settings_in_words(const EnergyPlan& energy) {
    const Settings& settings = energy.settings;
    std::vector<SettingWords> words;
    if (settings.guard) {
        const std::string high = show(settings.guard->high);
        words.push_back({"fridge-guard",
                         {{"off_at", settings.guard->standard}, {"not_at", settings.guard->high}},
                         "fridge guard",
                         "off at " + show(settings.guard->standard) + ", not at " + high,
                         energy.other_autonomy
                             ? "from full it runs " + autonomy_words(*energy.other_autonomy, energy.depth_limit) +
                                   "; at " + high + " " + autonomy_words(energy.autonomy, energy.depth_limit)
                             : "the cables are chosen for it"});
    }
    for (const Settings::StarterGuard& guard : settings.starter_guards)
        words.push_back({"starter-guard",
                         {{"of", guard.name},
                          {"off_at", guard.set.cut_off},
                          {"on_at", guard.set.reconnect.value_or(guard.set.cut_off)}},
                         guard.name + " guard",
                         "off at " + show(guard.set.cut_off) + ", on again at " +
                             show(guard.set.reconnect.value_or(guard.set.cut_off)),
                         "made for a battery that also starts the engine"});
    if (settings.charger || settings.regulator)
        words.push_back(
            {"charger-profile",
             {{"absorption", settings.absorption}, {"float", settings.float_}, {"compensated", settings.compensated}},
             settings.charger ? "charger profile" : "regulator profile",
             show(settings.absorption) + " absorption, " + show(settings.float_) + " float" +
                 (settings.compensated    ? ", with temperature compensation"
                  : settings.lacks_sensor ? ", without a temperature sensor"
                                          : ", no temperature compensation"),
             settings.lacks_sensor ? "what a house battery of this kind wants at 25 degC"
                                   : "what a house battery of this kind wants"});
    if (settings.wake_wire)
        words.push_back(
            {"wake-wire",
             {},
             settings.relay ? "relay's signal wire" : "charger's wake wire",
             "to a circuit that the ignition switches, with its own small fuse",
             settings.relay ? "so that it opens when the engine stops" : "so that it sleeps when the engine does"});
    return words;
}

std::vector<EnergyWords> energy_in_words(const Plan& plan) {
    const EnergyPlan& energy = plan.energy;
    std::vector<EnergyWords> lines;
    if (energy.starter) lines.push_back({"from the starter battery", starter_words(*energy.starter)});
    if (energy.house_idle())
        lines.push_back({"from the house battery", "no load"});
    else
        lines.push_back({(energy.starter ? std::string("from the house battery, full") : std::string("from full")) +
                             (energy.settings.regulator ? ", without sun" : "") + on_day_words(energy.autonomy.day),
                         autonomy_words(energy.autonomy, energy.depth_limit)});
    if (energy.other_autonomy)
        lines.push_back(
            {"guard at its standard setting", autonomy_words(*energy.other_autonomy, energy.depth_limit), true});
    lines.push_back({drives_words(plan), trip_words(energy)});
    if (energy.dull && !energy.house_idle()) {
        lines.push_back({"in the usual sun", usual_sun_words(energy), true});
        lines.push_back({{}, "the trip is judged on " + dull_words(*energy.dull)});
    }
    if (!energy.house_idle()) lines.push_back({{}, energy_words(energy)});
    if (!energy.house_idle() && energy.driving)
        if (std::string filling = filling_words(*energy.driving); !filling.empty())
            lines.push_back({{}, std::move(filling)});
    for (const FridgeNeed& fridge : energy.fridges) {
        lines.push_back({{}, "the " + fridge.name + " " + fridge_words(fridge)});
        add_warmth_let_in(fridge, lines);
    }
    return lines;
}

std::string energy_sections(const Plan& plan, const Style& style) {
    const EnergyPlan& energy = plan.energy;
    std::string text = heading("Set these", style);
    for (const SettingWords& setting : settings_in_words(energy))
        text += wrap(printable(spelled(setting.what + ": " + setting.value + "; " + setting.why, style), style), style,
                     "  ", 4);
    text += heading(energy.fridges.empty() ? "With the engine off" : "Fridge and loads with the engine off", style);
    for (const EnergyWords& line : energy_in_words(plan))
        text += line.what.empty() ? wrap(printable(spelled(line.words, style), style), style, "  ", 4)
                                  : labelled((line.beneath ? "  " : "") + line.what, line.words, style);
    return text;
}

}  // namespace voltwright
