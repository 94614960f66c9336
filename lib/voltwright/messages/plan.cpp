#include "voltwright/messages/plan.hpp"

namespace voltwright {

std::string_view show(NotJudged what) {
    switch (what) {
        case NotJudged::starts_not_given: return "motors whose starting current is not given";
        case NotJudged::post_fuse_times: return "how soon fuses on battery posts clear: their times are not known";
        case NotJudged::solar_cables: return "the cables between panel, regulator and battery";
    }
    return "";
}

std::vector<std::string> each_shown(const std::vector<NotJudged>& list) {
    std::vector<std::string> lines;
    for (const NotJudged what : list) lines.emplace_back(show(what));
    return lines;
}

std::string_view show(Aspect what) {
    switch (what) {
        case Aspect::length: return "length";
        case Aspect::size: return "size";
        case Aspect::fuse: return "fuse";
        case Aspect::drop: return "drop";
        case Aspect::worst_current: return "worst current";
        case Aspect::hours_from_full: return "hours from full";
        case Aspect::used_between_drives: return "used between two drives";
        case Aspect::used_in_a_day_and_a_night: return "used in a day and a night";
        case Aspect::days: return "days";
        case Aspect::used_a_day: return "used a day";
        case Aspect::charged_a_day: return "charged a day";
        case Aspect::lowest_soc: return "lowest state of charge";
        case Aspect::soc_at_the_end: return "state of charge at the end";
        case Aspect::essential_off: return "essential loads off";
        case Aspect::an_hour_puts_back: return "an hour puts back";
        case Aspect::most_a_day: return "takes a day, at most";
    }
    return "";
}

}  // namespace voltwright
