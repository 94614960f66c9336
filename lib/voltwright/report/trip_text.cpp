#include "voltwright/report/trip_text.hpp"

#include "voltwright/messages/findings.hpp"
#include "voltwright/report/energy_words.hpp"
#include "voltwright/report/findings_text.hpp"
#include "voltwright/report/soc_chart.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

namespace {

std::string setting_of_guard(CutOffSetting setting) {
    return setting == CutOffSetting::high ? "high setting" : "standard setting";
}

std::string day_table(const TripResult& trip) {
    std::string text = "  day   used Ah   charged Ah   lowest   at midnight\n";
    for (const DayTotals& day : trip.days)
        text += fmt::format("  {:>3}{:>10.1f}{:>13.1f}{:>8.0f} %{:>12.0f} %\n", day.day, in_ampere_hours(day.used),
                            in_ampere_hours(day.charged), in_percent(day.lowest), in_percent(day.end));
    return text;
}

std::string where_it_went(const EnergyPlan& energy, const Style& style) {
    const TripResult& trip = energy.trip;
    const Ledger& ledger = trip.ledger;
    std::size_t widest = 24;
    for (const ConsumerResult& served : trip.served)
        widest = std::max(widest, columns_of(printable(served.name, style)) + 2);
    const auto line = [&](std::string_view what, Charge charge, const std::string& more = {}) {
        return "  " + padded(printable(what, style), widest) + padded_left(amount(charge), 9) +
               (more.empty() ? "" : "   " + more) + "\n";
    };
    std::string text;
    if (energy.settings.charger || energy.settings.relay)
        text += line(energy.settings.relay ? "through the relay" : "from the charger", ledger.from_charger);
    if (ledger.from_sun > Charge{}) text += line("from the sun", ledger.from_sun);
    for (const ConsumerResult& served : trip.served)
        text += line(
            served.name, -served.used,
            served.off > Duration{} ? "off for " + show(served.off) + ", " + show(served.unserved) + " missed" : "");
    text += line("lost in charging", -ledger.gassed);
    text += line("self-discharge", -ledger.leaked);
    text +=
        line(ledger.now < ledger.at_start ? "out of the battery" : "into the battery", ledger.at_start - ledger.now);
    return text;
}

}  // namespace

std::string trip_line(const Plan& plan) {
    const TripResult& trip = plan.energy.trip;
    const std::string verdict = plan.energy.holds() ? "THE TRIP HOLDS." : "THE TRIP DOES NOT HOLD.";
    if (plan.energy.house_idle())
        return verdict + "  The house battery feeds no load." + wiring_words(plan.energy.wiring_stops);
    return verdict + "  Lowest " + show(trip.lowest) + ", " + show(trip.lowest_at) + "." +
           wiring_words(plan.energy.wiring_stops);
}

std::string trip_page(const Plan& plan, const Style& style) {
    const EnergyPlan& energy = plan.energy;
    const std::string verdict = headline(printable(spelled(trip_line(plan), style), style), style);
    std::string page = energy.holds() ? bold(verdict, style) : red(verdict, style);
    if (!plan.title.empty()) page += printable(plan.title, style) + "\n";
    const auto stop = std::find_if(energy.findings.begin(), energy.findings.end(),
                                   [](const Finding& finding) { return finding.stops(); });
    if (stop != energy.findings.end())
        page += "\n" + wrap(printable(spelled(show(*stop), style), style), style, "  ", 2);
    if (!energy.guard_known && energy.other)
        page += "\n" + wrap("The fridge's guard is taken at its " + setting_of_guard(energy.guard) +
                                ", the worse of the two usual ones" +
                                (energy.other->holds() != energy.trip.holds()
                                     ? "; at the other nothing that is essential goes off."
                                     : "."),
                            style);
    if (energy.dull && !energy.house_idle())
        page += "\n" + wrap("Judged on " + dull_words(*energy.dull) + ". In the usual sun the trip " +
                                usual_sun_words(energy) + ".",
                            style);
    page +=
        heading("State of charge", style) + soc_chart(energy.trip.points, energy.depth_limit, style, energy.first_day);
    page += heading("Day by day", style) + day_table(energy.trip);
    if (!energy.house_idle()) page += wrap(printable(spelled(energy_words(energy), style), style), style, "  ", 4);
    if (const std::string filling = energy.driving ? filling_words(*energy.driving) : "";
        !energy.house_idle() && !filling.empty())
        page += wrap(printable(spelled(filling, style), style), style, "  ", 4);
    if (energy.starter)
        page += wrap(
            printable(
                spelled("not in these figures, from the starter battery: " + starter_words(*energy.starter), style),
                style),
            style, "  ", 4);
    page += heading("Where it went", style) + where_it_went(energy, style);
    page += findings_section(energy.findings, Level::stop, "What stops it", style);
    page += findings_section(energy.findings, Level::warn, "Warnings", style);
    page += findings_section(energy.findings, Level::note, "To note", style);
    return page + assumed_section(energy.assumptions, style);
}

std::string trip_csv(const Plan& plan) {
    std::string text = "day,clock,hours,soc_percent,battery_V,battery_A,source_A,driving,outside_C,battery_C\n";
    for (const TimelinePoint& point : plan.energy.trip.points) {
        const Moment then = moment(point.at);
        text += fmt::format("{},{},{:.4f},{:.2f},{:.3f},{:.3f},{:.3f},{},{:.1f},{:.1f}\n", then.day,
                            clock_of(then.clock), in_hours(point.at), in_percent(point.soc), in_volts(point.terminals),
                            in_amperes(point.battery) + 0.0, in_amperes(point.source) + 0.0, point.driving ? 1 : 0,
                            in_celsius(point.air), in_celsius(point.battery_temperature));
    }
    return text;
}

}  // namespace voltwright
