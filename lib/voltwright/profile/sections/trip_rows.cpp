#include "voltwright/profile/sections/trip.hpp"

#include "voltwright/energy/sun.hpp"
#include "voltwright/profile/formats/calendar.hpp"
#include "voltwright/profile/formats/clock.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

#include <cmath>

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

/// The sky of the first day, where the sun counts.
std::optional<Entry> usual_sky(const Profile& profile, const Tables& tables, std::size_t) {
    if (!profile.solar || !profile.trip.latitude || !profile.trip.start) return {};
    const ClearnessIndexRow* row =
        find_clearness_index(tables, profile.trip.latitude->value, profile.trip.start->month);
    if (!row) return {};
    return rounded(std::round(in_percent(of_clear_sky(row->usual))), "%");
}

std::optional<Entry> usual_dull_days(const Profile& profile, const Tables&, std::size_t) {
    if (!profile.solar) return {};
    return usual_entry(usual(3));
}

std::span<const Key> trip_rows() {
    static const Key rows[] = {
        asked(key<&TripKeys::days>("days", usual(1), {counts(1, 366)}, "how many days the trip lasts"),
              "a whole number, without quotes"),
        asked(key<&TripKeys::low>("low", Required{R"("14 degC")"}, {outside_air()},
                                  "outside temperature at the coldest of the night"),
              "degC, what is usual for the place and the month"),
        asked(key<&TripKeys::high>("high", Required{R"("31 degC")"}, {outside_air()},
                                   "outside temperature at the hottest of the day"),
              "degC, of a hot day there"),
        asked(key_with_rule<&TripKeys::drives, &check_drives>(
                  "drives", usual("none"), {}, "when the engine runs on a usual day: from and to, one text or a list"),
              R"(hours such as "08:00-09:30"; "none" when you stay)"),
        key<&TripKeys::start>("start", Absent{"only the sun needs it"}, {},
                              "date of the first day; needed with [solar]"),
        key<&TripKeys::latitude>("latitude", Absent{"only the sun needs it"}, {between(degrees(-90.0), degrees(90.0))},
                                 "latitude of the trip, south negative; needed with [solar]"),
        key<&TripKeys::clearness>(
            "clearness", ByRule{"by latitude and month, from weather stations; the plan says how much", &usual_sky},
            {share()}, "share of the clear sky's sun that comes through the clouds, on an ordinary day"),
        key<&TripKeys::dull_days>("dull_days", ByRule{"3 with [solar]", &usual_dull_days, "3"}, {counts(0, 30)},
                                  "dull days in a row that a trip on the sun is judged on: one day in ten is as dull; "
                                  "0 for ordinary days alone"),
    };
    return rows;
}

void look_through_trip(const WholeProfile& whole, Faults& faults) {
    not_above(whole.given.trip.low, whole.given.trip.high, "trip.low", "the night's low", "the day's high", faults);
}

}  // namespace

SectionRow trip_section() {
    SectionRow row = one_section<&Profile::trip>("trip", "how long, how warm, and when the engine runs", trip_rows());
    row.contradictions = &look_through_trip;
    return row;
}

}  // namespace voltwright
