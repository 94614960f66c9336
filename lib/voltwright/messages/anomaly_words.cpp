#include "voltwright/messages/anomaly_words.hpp"

#include "voltwright/circuit/place.hpp"
#include "voltwright/messages/meter_figures.hpp"

#include <string_view>

namespace voltwright {

std::string places_words(const Anomaly& anomaly) {
    std::string words;
    for (const std::string& place : anomaly.places) words += (words.empty() ? "" : " or ") + place;
    return words;
}

std::string battery_name(Battery battery) {
    return the(battery == Battery::starter ? PlaceKind::starter_battery : PlaceKind::house_battery).name;
}

std::string way_words(const OpenWay& way) {
    const std::string side = way.out && way.back ? "the way" : way.out ? "the way out" : "the way back";
    return side + (way.run.empty() ? " between " + way.from + " and " + way.to : " of the run " + way.run);
}

std::string the_run(const std::string& name) {
    constexpr std::string_view needs_no_more = "feed";
    return name == needs_no_more ? "the feed" : "the run " + name;
}

namespace {

/// Where the leads or the clamp were.
std::string where_read(const Anomaly& anomaly) {
    if (anomaly.leads.size() == 2) return "from " + anomaly.leads[0] + " to " + anomaly.leads[1];
    if (anomaly.found && std::holds_alternative<Current>(*anomaly.found)) return "through the run " + anomaly.run;
    return (anomaly.drop ? "across the " : "at ") + anomaly.leads.at(0);
}

}  // namespace

std::string beyond_words(const Anomaly& anomaly) {
    const auto [found, limit] = in_one_unit(*anomaly.found, *anomaly.limit);
    return found + " " + where_read(anomaly) + "; " + (anomaly.above ? "at most " : "at least ") + limit +
           at_current(anomaly.at);
}

std::string lost_words(const Anomaly& anomaly, const std::string& after_figure) {
    const auto [lost, most] = in_one_unit(*anomaly.found, *anomaly.limit);
    return lost + after_figure + "; at most " + most + at_current(anomaly.at);
}

}  // namespace voltwright
