#include "voltwright/units/clock.hpp"

#include <cmath>
#include <cstdio>

namespace voltwright {

namespace {

bool ends_its_day(const Moment& moment) { return std::lround(in_minutes(moment.clock)) == minutes_in_a_day; }

}  // namespace

Moment moment(Duration since_first_midnight) {
    const double days = std::floor(since_first_midnight / hours(24));
    return {static_cast<int>(days) + 1, since_first_midnight - days * hours(24)};
}

std::string clock_of(Duration since_midnight) {
    const int rounded = static_cast<int>(std::lround(in_minutes(since_midnight)));
    const int minute = rounded > minutes_in_a_day ? rounded % minutes_in_a_day : rounded;
    char text[16];
    std::snprintf(text, sizeof text, "%02d:%02d", minute / 60, minute % 60);
    return text;
}

std::string show(const Moment& moment) {
    const std::string day = "day " + std::to_string(moment.day);
    return ends_its_day(moment) ? "the end of " + day : day + " at " + clock_of(moment.clock);
}

std::string when(const Moment& moment) { return (ends_its_day(moment) ? "at " : "on ") + show(moment); }

}  // namespace voltwright
