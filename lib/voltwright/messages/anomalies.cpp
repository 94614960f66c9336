#include "voltwright/messages/anomalies.hpp"

#include "voltwright/messages/anomaly_words.hpp"
#include "voltwright/messages/meter_figures.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

namespace voltwright {

std::string_view show(Verdict verdict) {
    switch (verdict) {
        case Verdict::too_little: return "too little measured";
        case Verdict::nothing_wrong: return "nothing wrong";
        case Verdict::told_by_one: return "told by one reading";
        case Verdict::found: return "found";
        case Verdict::several: return "several possible";
        case Verdict::contradiction: return "contradiction";
    }
    return "";
}

std::string_view show(Anomaly::Kind kind) {
    switch (kind) {
        case Anomaly::Kind::poles_swapped: return "poles swapped";
        case Anomaly::Kind::open_circuit: return "open";
        case Anomaly::Kind::nothing_arrives: return "nothing arrives";
        case Anomaly::Kind::nothing_flows: return "nothing flows";
        case Anomaly::Kind::overcharged: return "overcharged";
        case Anomaly::Kind::not_charged: return "not charged";
        case Anomaly::Kind::charger_awake: return "charger awake";
        case Anomaly::Kind::charger_idle: return "charger idle";
        case Anomaly::Kind::low_battery: return "low battery";
        case Anomaly::Kind::other_voltage: return "other voltage";
        case Anomaly::Kind::cannot_carry: return "cannot carry";
        case Anomaly::Kind::beyond_limit: return "beyond";
        case Anomaly::Kind::low_charging: return "low charging";
        case Anomaly::Kind::leads_swapped: return "leads swapped";
        case Anomaly::Kind::no_current: return "no current";
        case Anomaly::Kind::unexpected_current: return "with missing";
        case Anomaly::Kind::impossible: return "impossible";
        case Anomaly::Kind::not_understood: return "not understood";
    }
    return "";
}

namespace {

constexpr std::string_view blown_fuse =
    "; if a fuse has blown, find out why before a new one goes in: a short burns the next one too";

std::string found_words(const Anomaly& anomaly) { return anomaly.found ? show(*anomaly.found) : ""; }

std::string after_fuse(const Anomaly& anomaly) { return anomaly.fuse ? std::string(blown_fuse) : ""; }

/// Where a break lies, the likeliest first.
std::string likeliest_elements(const Anomaly& anomaly) {
    constexpr std::size_t most = 4;
    const std::size_t count = anomaly.elements.size(), named = count > most ? most - 1 : count;
    std::string words;
    for (std::size_t i = 0; i < named; ++i)
        words += (i == 0 ? "the " : i + 1 == count ? " or the " : ", the ") + anomaly.elements[i];
    return words + (named < count ? " or one of " + std::to_string(count - named) + " more" : "");
}

std::string open_words(const Anomaly& anomaly) {
    const std::string found = found_words(anomaly) + " and no current: ";
    if (anomaly.elements.size() != 1)
        return found + (anomaly.way ? way_words(*anomaly.way) : places_words(anomaly)) + " is open, at " +
               likeliest_elements(anomaly) + after_fuse(anomaly);
    return found + "there is no way through the " + anomaly.elements[0] +
           (anomaly.fuse ? std::string(blown_fuse) : "; with the fuse out, take it apart and make it anew");
}

std::string nothing_arrives_words(const Anomaly& anomaly) {
    return "only " + found_words(anomaly) + " at " + places_words(anomaly) +
           ": a fuse that has blown, a plug that is open or a break before it; look along the way from the battery for "
           "the place behind which the voltage is gone" +
           after_fuse(anomaly);
}

std::string overcharged_words(const Anomaly& anomaly) {
    return found_words(anomaly) + " at the " + battery_name(*anomaly.battery) + " while it is charged: " +
           (anomaly.battery == Battery::starter
                ? "the alternator's regulator has failed; stop the engine"
                : "the charging profile is wrong for it; switch the charger off until it is set right");
}

std::string charger_idle_words(const Anomaly& anomaly) {
    const std::string seen = anomaly.found ? "only " + found_words(anomaly) + " flows through the " + anomaly.run
                                           : "the voltages show no current in the " + anomaly.run;
    const std::string words = "the engine runs and " + seen +
                              ": the charger does nothing. See whether its wake wire is live, whether its input "
                              "reaches the voltage at which it starts, and whether the battery is simply full";
    // Off load even a bad joint passes all volts; the charger gives up behind it.
    if (!anomaly.limit) return words;
    return words +
           ". A bad joint shows only under load: hang a 55 W lamp on the charger's end of the feed. Between the "
           "starter "
           "battery and that end at most " +
           in_one_unit(*anomaly.limit, *anomaly.limit).first + " may then be lost" + at_current(anomaly.at) +
           ". Or read the volts there while the charger tries to start";
}

std::string cannot_carry_words(const Anomaly& anomaly) {
    const std::string words = the_run(anomaly.run) + (anomaly.gives_up ? " cannot carry: it drops " : " drops ") +
                              lost_words(anomaly, " under load");
    if (!anomaly.flows) return words + ". Clamp the cable and add the current: then its resistance is known";
    const Resistance loop = std::get<Voltage>(*anomaly.found) / *anomaly.flows;
    const Resistance planned = std::get<Voltage>(*anomaly.limit) / *anomaly.at;
    return words + fmt::format(". With {:.1f} A that is {:.0f} mOhm out and back; at most {:.0f} mOhm",
                               in_amperes(*anomaly.flows), in_milliohms(loop), in_milliohms(planned));
}

// ---- what to do about a reading that is beyond its limit ---------------------------------------------------------------

std::string after_current(const Anomaly& anomaly) {
    if (anomaly.above)
        return anomaly.nothing_on ? "Something draws while it is off: find out what"
                                  : "More is drawn than the profile says: see what is on, and read its label";
    return anomaly.charging
               ? "The charger holds back, or the battery is nearly full: read it again with a battery half full"
               : "Less is drawn than the profile says: see whether all that was noted is running";
}

std::string after_drop(const Anomaly& anomaly) {
    const std::string what = anomaly.leads.size() == 2 ? "Something in that way" : "It";
    if (!anomaly.flows)
        return what + " has too much resistance, or more current flows: clamp the cable and add the current";
    const double times = in_ratio(*anomaly.flows / *anomaly.at);
    const Voltage scaled = times * std::get<Voltage>(*anomaly.limit);
    return std::get<Voltage>(*anomaly.found) < scaled
               ? "The current does it: " + show(*anomaly.flows) + " flows there. See what draws it"
               : what + " has too much resistance: measure across its joints one by one";
}

std::string after_volts(const Anomaly& anomaly) {
    if (anomaly.above) return "That is more than its battery should have: read the battery in the same state";
    const std::string battery = anomaly.charging ? "battery that feeds it" : "battery";
    return "Too much is lost on the way, or the " + battery + " is low: read it in the same state";
}

std::string after_beyond(const Anomaly& anomaly) {
    if (std::holds_alternative<Current>(*anomaly.found)) return after_current(anomaly);
    return anomaly.drop ? after_drop(anomaly) : after_volts(anomaly);
}

std::string beyond_limit_words(const Anomaly& anomaly) {
    const bool said = anomaly.explained && (anomaly.drop ? anomaly.flows.has_value() : anomaly.source_known);
    return beyond_words(anomaly) + (said ? "" : ". " + after_beyond(anomaly));
}

// ---- each kind ---------------------------------------------------------------------------------------------------------

std::string sentence(const Anomaly& anomaly) {
    const std::string found = found_words(anomaly);
    switch (anomaly.kind) {
        case Anomaly::Kind::poles_swapped:
            return found + " at " + places_words(anomaly) +
                   ": plus and minus are swapped there, or the meter's leads were; pull the fuse and switch nothing on "
                   "until that is right";
        case Anomaly::Kind::open_circuit: return open_words(anomaly);
        case Anomaly::Kind::nothing_flows:
            return "only " + found + " through the run " + anomaly.run +
                   " with its load on: does it run, or wait for its thermostat? If it should run, a fuse has blown, a "
                   "plug is open or there is a break";
        case Anomaly::Kind::overcharged: return overcharged_words(anomaly);
        case Anomaly::Kind::not_charged:
            return "only " + found +
                   " at the starter battery while the engine runs: the alternator does not charge; belt, alternator or "
                   "regulator";
        case Anomaly::Kind::low_battery:
            return "only " + found + " at rest at the " + battery_name(*anomaly.battery) +
                   ": charge it first, a low battery spoils every other reading";
        case Anomaly::Kind::unexpected_current:
            return found +
                   " where nothing is on as it was noted: is with = missing beside it, or a load in it? "
                   "If not, something draws while it is switched off. What was read in that state is not used";
        case Anomaly::Kind::impossible:
            return found + " is more than any 12 V system has: it was read or noted wrongly and is not used";
        case Anomaly::Kind::leads_swapped:
            return "below zero, so the leads were the other way round; taken without its sign";
        case Anomaly::Kind::no_current:
            return "no current flows there with these things on, so it tells nothing of joints";
        case Anomaly::Kind::nothing_arrives: return nothing_arrives_words(anomaly);
        case Anomaly::Kind::charger_idle: return charger_idle_words(anomaly);
        case Anomaly::Kind::other_voltage:
            return found + " at " + places_words(anomaly) +
                   ": this is a 24 V vehicle. All that is planned here is for 12 V: connect nothing of it";
        case Anomaly::Kind::cannot_carry: return cannot_carry_words(anomaly);
        case Anomaly::Kind::beyond_limit: return beyond_limit_words(anomaly);
        case Anomaly::Kind::low_charging:
            return found +
                   " at the starter battery is low, but it charges: a warm regulator or many loads do that. Read it "
                   "again at a fast idle with lights and blower off";
        case Anomaly::Kind::charger_awake:
            return "the engine is off and " + found + " flows through the " + anomaly.run +
                   ": the charger does not sleep and empties the starter battery";
        case Anomaly::Kind::not_understood:
            return "cannot be used: nothing was read there, or its two leads are on circuits of two batteries";
    }
    return "";
}

}  // namespace

std::string show(const Anomaly& anomaly) {
    return "reading " + std::to_string(anomaly.measurement + 1) + ": " + sentence(anomaly);
}

}  // namespace voltwright
