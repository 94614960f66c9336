#include "voltwright/profile/sections/day.hpp"

#include "voltwright/profile/formats/calendar.hpp"
#include "voltwright/profile/formats/clock.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

std::span<const Key> day_rows() {
    static const Key rows[] = {
        key<&DayKeys::on>("on", Required{R"("2-3")"}, {},
                          "the days that are unlike the others, counted from 1: \"2-4\", 3 or [1, 6]"),
        key_with_rule<&DayKeys::drives, &check_drives>("drives", Absent{"as on the usual day", R"("09:00-12:00")"}, {},
                                                       "when the engine runs on those days; \"none\" for not at all"),
        key<&DayKeys::low>("low", Absent{"as on the usual day", R"("10 degC")"}, {outside_air()},
                           "coldest of the night on those days"),
        key<&DayKeys::high>("high", Absent{"as on the usual day", R"("33 degC")"}, {outside_air()},
                            "hottest of the day on those days"),
        key<&DayKeys::clearness>("clearness", Absent{"as on the usual day"}, {share()},
                                 "share of the clear sky's sun on those days"),
    };
    return rows;
}

/// The first of its days that the trip does not have, or that another one described.
void days_once(const DayKeys& day, int last, const std::string& path, std::set<int>& told, Faults& faults) {
    for (const int number : day.on->days) {
        if (number > last) return beyond_the_trip(number, last, path, faults);
        if (!told.insert(number).second)
            return add(faults, path, "day " + std::to_string(number) + " is described twice");
    }
}

void look_through_day(const WholeProfile& whole, Faults& faults) {
    const TripKeys& trip = whole.given.trip;
    std::set<int> told;
    for (std::size_t i = 0; i < whole.given.days.size(); ++i) {
        const DayKeys& day = whole.given.days[i];
        not_above(day.low ? day.low : trip.low, day.high ? day.high : trip.high, at("day", i, day.low ? "low" : "high"),
                  "the night's low of these days", "their high", faults);
        if (day.on) days_once(day, trip.days.value_or(1), at("day", i, "on"), told, faults);
    }
}

/// "2-4" or "6,9", as written in its `on`.
std::string name_of_days(const Profile& profile, std::size_t index) {
    const auto& on = profile.days.at(index).on;
    if (!on) return {};
    std::string text = Format<TripDays>::write(*on);
    std::erase_if(text, [](char c) { return c == '"' || c == '[' || c == ']' || c == ' '; });
    return text;
}

}  // namespace

SectionRow day_section() {
    SectionRow row =
        list_section<&Profile::days>("day", 366, "days of the trip that are unlike the others", day_rows());
    row.contradictions = &look_through_day;
    row.name_of = &name_of_days;
    return row;
}

}  // namespace voltwright
