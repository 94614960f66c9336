#include "voltwright/messages/anomalies.hpp"
#include "voltwright/messages/anomaly_words.hpp"
#include "voltwright/messages/meter_figures.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>

namespace voltwright {

namespace {

std::string upper(std::string words) {
    std::transform(words.begin(), words.end(), words.begin(),
                   [](char one) { return one >= 'a' && one <= 'z' ? static_cast<char>(one - 'a' + 'A') : one; });
    return words;
}

std::string open_headline(const Anomaly& anomaly) {
    const std::string& first = anomaly.elements.at(0);
    if (anomaly.elements.size() == 1)
        return "OPEN: the " + first + (anomaly.fuse ? ", blown or without contact." : ".");
    return "OPEN: " + (anomaly.way ? way_words(*anomaly.way) : places_words(anomaly)) + ", most likely the " + first +
           ".";
}

std::string carry_headline(const Anomaly& anomaly) {
    if (!anomaly.gives_up) return "TOO MUCH IS LOST in " + the_run(anomaly.run) + ": " + lost_words(anomaly) + ".";
    return upper(the_run(anomaly.run)) + " CANNOT CARRY: it drops " +
           in_one_unit(*anomaly.found, *anomaly.limit).first + " under load.";
}

std::string battery_headline(const Anomaly& anomaly) {
    const std::string name = battery_name(*anomaly.battery);
    return anomaly.kind == Anomaly::Kind::overcharged ? "TOO MANY VOLTS at the " + name + " while it is charged."
                                                      : "THE BATTERY IS LOW (" + name + "): charge it first.";
}

/// Of a grave one; empty for what the first line leaves to others.
std::string headline(const Anomaly& anomaly) {
    switch (anomaly.kind) {
        case Anomaly::Kind::poles_swapped:
            return "POLES SWAPPED at " + places_words(anomaly) + ", or the meter's leads.";
        case Anomaly::Kind::open_circuit: return open_headline(anomaly);
        case Anomaly::Kind::nothing_arrives: return "NOTHING ARRIVES at " + places_words(anomaly) + ".";
        case Anomaly::Kind::nothing_flows: return "NOTHING FLOWS through the run " + anomaly.run + ".";
        case Anomaly::Kind::overcharged:
        case Anomaly::Kind::low_battery: return battery_headline(anomaly);
        case Anomaly::Kind::not_charged: return "THE ALTERNATOR DOES NOT CHARGE.";
        case Anomaly::Kind::charger_awake: return "THE CHARGER DOES NOT SLEEP.";
        case Anomaly::Kind::charger_idle: return "THE CHARGER DOES NOTHING.";
        case Anomaly::Kind::other_voltage: return "THIS IS A 24 V VEHICLE.";
        case Anomaly::Kind::cannot_carry: return carry_headline(anomaly);
        case Anomaly::Kind::beyond_limit:
            return anomaly.explained ? "" : "OUT OF LIMITS: " + beyond_words(anomaly) + ".";
        case Anomaly::Kind::unexpected_current: return "SOMETHING FLOWS where all was noted as off.";
        case Anomaly::Kind::impossible: return "NO 12 V SYSTEM HAS " + show(*anomaly.found) + ".";
        case Anomaly::Kind::low_charging:
        case Anomaly::Kind::leads_swapped:
        case Anomaly::Kind::no_current:
        case Anomaly::Kind::not_understood: break;
    }
    return "";
}

std::string how_many_more(std::ptrdiff_t more) {
    if (more <= 0) return "";
    return " " + std::to_string(more) +
           (more == 1 ? " more reading is out of its limits." : " more readings are out of their limits.");
}

}  // namespace

std::string headlines(const std::vector<Anomaly>& anomalies) {
    const auto is_beyond = [](const Anomaly& one) { return one.kind == Anomaly::Kind::beyond_limit; };
    const auto beyond = std::count_if(anomalies.begin(), anomalies.end(),
                                      [&](const Anomaly& one) { return is_beyond(one) && !one.explained; });
    std::vector<std::string> said;
    std::string line;
    bool limit_said = false;
    for (const Anomaly& anomaly : anomalies) {
        if (!anomaly.grave()) continue;
        std::string words = headline(anomaly);
        // The worst of those beyond their limits stands for all.
        if (words.empty() || (is_beyond(anomaly) && limit_said)) continue;
        if (is_beyond(anomaly)) words += how_many_more(beyond - 1);
        limit_said = limit_said || is_beyond(anomaly);
        if (std::find(said.begin(), said.end(), words) != said.end()) continue;
        line += (line.empty() ? "" : " ") + words;
        said.push_back(std::move(words));
    }
    return line;
}

}  // namespace voltwright
