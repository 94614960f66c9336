#include "voltwright/report/energy_words.hpp"

#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <cmath>

namespace voltwright {

namespace {

/// In whole minutes, or in tens of them from an hour on.
int rounded_minutes(Duration duration, Towards towards) {
    const double step = duration < hours(1) - minutes(1) ? 1.0 : 10.0;
    const double steps = in_minutes(duration) / step;
    return static_cast<int>(step * (towards == Towards::less ? std::floor(steps + 0.1) : std::ceil(steps - 0.1)));
}

std::string minutes_words(int count) {
    if (count < 1) return "less than a minute";
    std::string words = count < 60 ? "" : std::to_string(count / 60) + " h";
    if (count % 60 > 0) words += (words.empty() ? "" : " ") + std::to_string(count % 60) + " min";
    return words;
}

std::string about_so_long(Duration duration, std::string_view about) {
    const int count = rounded_minutes(duration, Towards::less);
    return (count < 1 ? "" : std::string(about) + " ") + minutes_words(count);
}

/// It began at its limit, or below it.
bool at_limit_already(const Autonomy& autonomy) {
    return autonomy.ended_by == EndedBy::depth_limit && !(autonomy.lasts > Duration{});
}

/// "50 %", or "55.2 % at -4 degC (50 % in the warm)"
std::string limit_words(const Autonomy& autonomy, Ratio depth_limit) {
    const std::string now = show(autonomy.limit), warm = show(Ratio{1.0 - depth_limit});
    return now == warm ? now : now + " at " + show(autonomy.limit_at) + " (" + warm + " in the warm)";
}

}  // namespace

std::string amount(Charge charge) {
    const double count = in_ampere_hours(charge);
    if (std::abs(count) < 0.05) return "0.0 Ah";
    return std::abs(count) < 9.95 ? fmt::format("{:.1f} Ah", count) : fmt::format("{:.0f} Ah", count);
}

std::string hours_words(Duration duration, Towards towards) {
    return minutes_words(rounded_minutes(duration, towards));
}

std::string limit_then_words(const EnergyPlan& energy, const TripResult& trip) {
    const auto above = [&](const Autonomy& autonomy) {
        return autonomy.ended_by == EndedBy::depth_limit && trip.lowest < autonomy.limit;
    };
    if (!above(energy.autonomy) && !(energy.other_autonomy && above(*energy.other_autonomy))) return {};
    return "; its limit then is " + show(trip.deepest_allowed) + ", at " + show(trip.limit_at);
}

std::string wiring_words(int stops) {
    if (stops == 0) return {};
    return "  The wiring does not hold: " +
           (stops == 1 ? std::string("1 thing stops it") : std::to_string(stops) + " things stop it") + " (see plan).";
}

std::string ended_words(const Autonomy& autonomy, Ratio depth_limit) {
    switch (autonomy.ended_by) {
        case EndedBy::trip: return "and more: nothing ended it";
        case EndedBy::depth_limit:
            if (show(autonomy.limit) == show(Ratio{1.0 - depth_limit}))
                return "then " + show(depth_limit) + " of the capacity is used";
            return "then it is down to its limit of " + limit_words(autonomy, depth_limit);
        case EndedBy::cut_off:
            return "then the " + autonomy.ended_name + " switches itself off, at " + show(autonomy.end);
        case EndedBy::depleted: return "then the battery gives no more";
    }
    return {};
}

std::string autonomy_words(const Autonomy& autonomy, Ratio depth_limit, std::string_view about) {
    if (at_limit_already(autonomy)) {
        const bool below = show(autonomy.from) != show(autonomy.limit);
        return "it is " + std::string(below ? "below" : "at") + " its limit of " + limit_words(autonomy, depth_limit) +
               " already";
    }
    return about_so_long(autonomy.lasts, about) + ", " + ended_words(autonomy, depth_limit);
}

std::string on_day_words(ParkedDay day) {
    return day == ParkedDay::usual ? "" : ", on the trip's " + std::string(show(day)) + " day";
}

std::string starter_words(const StarterLoads& starter) {
    const std::string lasts = starter.lasts ? about_so_long(*starter.lasts, "about") : "weeks";
    return lasts + ", then it is down to " + show(starter.least) + "; " + amount(starter.taken) + " in " +
           hours_words(starter.stand, Towards::more) + " without the engine (" + starter.names() + ")";
}

std::string dull_words(const DullDays& dull) {
    const auto [first, count] = dull.run;
    const std::string sun = " with " + show(dull.first.share.value) + " of a usual day's sun";
    if (count == 1) return "a dull day (day " + std::to_string(first) + ")" + sun;
    return std::to_string(count) + " dull days in a row (days " + std::to_string(first) + " to " +
           std::to_string(dull.run.last()) + "), each" + sun;
}

std::string usual_sun_words(const EnergyPlan& energy) {
    const TripResult& usual = energy.in_usual_sun();
    return std::string(energy.holds_in_usual_sun() ? "holds" : "does not hold") + "; lowest " + show(usual.lowest) +
           ", " + show(usual.lowest_at) + (energy.holds_in_usual_sun() ? limit_then_words(energy, usual) : "");
}

std::string driving_words(const DrivingWorth& driving) {
    if (amount(driving.an_hour) == amount(Charge{})) return "an hour of driving puts nothing back";
    if (driving.an_hour < Charge{}) return "an hour of driving costs " + amount(-driving.an_hour);
    return "an hour of driving puts back " + amount(driving.an_hour) + " on this trip, " + amount(driving.first_hour) +
           " when the battery is down to its limit";
}

std::string filling_words(const DrivingWorth& driving) {
    // Where a heater takes the first hour the drive charges all the same.
    if (!(driving.first_hour > Charge{}) && !driving.filled.back()) return {};
    std::string words;
    for (std::size_t i = 0; i < told_fillings.size(); ++i) {
        const Ratio told = told_fillings[i];
        if (told <= driving.from) continue;
        const auto& after = driving.filled[i];
        words += (words.empty() ? "" : ", ") + show(told) + " " +
                 (after ? "after " + hours_words(*after, Towards::more)
                        : "not within " + hours_words(longest_drive, Towards::more));
        if (!after) break;
    }
    return words.empty() ? words : "driving in one go from " + show(driving.from) + ": " + words;
}

std::string energy_words(const EnergyPlan& energy) {
    const std::string use = energy.between_drives()
                                ? "between two drives (" + clock_of(energy.night_from) + " to " +
                                      clock_of(energy.night_to) + ") the loads take " + amount(energy.a_night)
                                : "a day and a night take " + amount(energy.a_night);
    if (!energy.driving) return use;
    const bool for_the_cold = energy.frost && amount(energy.driving->an_hour) == amount(Charge{});
    return use + "; " + driving_words(*energy.driving) + (for_the_cold ? ", for the battery is too cold" : "");
}

}  // namespace voltwright
