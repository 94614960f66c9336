#include "voltwright/planning/night.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/trip/operating_points.hpp"

#include <algorithm>

namespace voltwright {

namespace {

constexpr Duration whole_day = hours(24);

bool knows_guards(const System& system) {
    const auto& fridges = system.complete.fridges;
    return std::all_of(fridges.begin(), fridges.end(), [&](const FridgeKeys& fridge) {
        return fridge.cut_out || fridge.cut_in || source_of(system, *fridge.name) == PlaceKind::starter_battery;
    });
}

/// From the end of the last drive of a day to the first of the next; without drives a whole day.
Duration night_length(const System& system, Duration evening) {
    const auto& drives = system.complete.trip.drives;
    if (!drives || drives->empty()) return whole_day;
    Duration first = whole_day;
    for (const ClockWindow& drive : *drives) first = std::min(first, minutes(drive.from.minutes));
    return whole_day - evening + first;
}

std::optional<DrivingWorth> worth_of_driving(const System& system, const std::vector<LaidRun>& runs, const Trip& trip,
                                             GuardSetting guard, const Tables& tables) {
    if (!(trip.driven > Duration{})) return {};
    DrivingWorth worth{trip.kept_while_driving / (trip.driven / hours(1)), {}};
    worth.first_hour = worth.an_hour;
    if (const auto hour = make_one_drive(system, runs, hours(1), tables)) {
        MarchOptions from_the_limit;
        from_the_limit.start_soc = 1.0 - hour->depth_limit;
        from_the_limit.guard = guard;
        worth.first_hour = march(*hour, from_the_limit).kept_while_driving;
    }
    return worth;
}

bool any_cut_out(const Trip& trip) {
    return std::any_of(trip.served.begin(), trip.served.end(),
                       [](const Served& served) { return served.cut_outs > 0; });
}

/// How long it lasts with each setting of the guard: the journey is looked at further only where it is not through.
struct Lasts {
    Autonomy standard, high;
};

Lasts lasts_from(const System& system, const std::vector<LaidRun>& runs, Ratio from, Duration clock,
                 const Tables& tables, Charge* a_night = nullptr, Duration night = {}) {
    Journey standing = make_standing(system, runs, clock, usual_autonomy_days, tables);
    if (a_night) {
        MarchOptions one_night;
        one_night.start_soc = Ratio{1.0};
        one_night.until = clock + night;
        *a_night = march(standing, one_night).ledger.used;
    }
    Autonomy high = autonomy(standing, from, GuardSetting::high);
    if (high.ended_by == EndedBy::trip) {
        standing = make_standing(system, runs, clock, longest_autonomy_days, tables);
        high = autonomy(standing, from, GuardSetting::high);
    }
    // What no guard ended at its high setting goes as far at the standard one.
    if (high.ended_by != EndedBy::cut_out && high.cut_outs == 0) return {high, high};
    Autonomy standard = autonomy(standing, from, GuardSetting::standard);
    if (standard.ended_by == EndedBy::trip) {
        standing = make_standing(system, runs, clock, longest_autonomy_days, tables);
        standard = autonomy(standing, from, GuardSetting::standard);
    }
    return {standard, high};
}

/// All that is on together, with every compressor running, from a flat battery.
Current most_drawn(const Journey& journey) {
    Current most{};
    for (std::size_t interval = 0; interval < journey.intervals.size(); ++interval) {
        const Ratio* needs = journey.needs_of(interval);
        Current sum{};
        for (std::size_t i = 0; i < journey.consumers.size(); ++i)
            if (needs[i] > Ratio{}) sum += drawn_by(journey.consumers[i], end_of_rating);
        most = std::max(most, sum);
    }
    return most;
}

/// The trip that is worse to live with.
bool worse(const Trip& a, const Trip& b) {
    if (a.holds() != b.holds()) return !a.holds();
    if (a.essential_off() != b.essential_off()) return a.essential_off() > b.essential_off();
    return a.lowest < b.lowest;
}

Settings settings_of(const System& system, bool guard_known, const Tables& tables) {
    const ChargerKeys& charger = system.complete.charger;
    Settings settings{.guard = {},
                      .absorption = charger.absorption->value,
                      .float_ = charger.float_->value,
                      .compensated = system.charger.compensation.per_kelvin < VoltagePerKelvin{},
                      .wake_wire = *charger.wake == Wake::ignition};
    if (!guard_known)
        settings.guard = Settings::GuardChoice{find_fridge_guard(tables, "standard")->cut_out,
                                               find_fridge_guard(tables, "high")->cut_out};
    const FridgeGuardRow& for_starting = *find_fridge_guard(tables, "high");
    for (const FridgeKeys& fridge : system.complete.fridges)
        if (!fridge.cut_out && !fridge.cut_in && source_of(system, *fridge.name) == PlaceKind::starter_battery)
            settings.starter_guards.push_back({*fridge.name, {for_starting.cut_out, for_starting.cut_in}});
    return settings;
}

}  // namespace

Night make_night(const System& system, const std::vector<LaidRun>& runs, const Tables& tables, bool points) {
    const Journey journey = make_journey(system, runs, tables);
    Night night{};
    night.guard_known = knows_guards(system);
    night.charger = journey.charger;
    night.least_charger = journey.charger.output;
    for (const Interval& interval : journey.intervals)
        if (interval.driving) night.least_charger = std::min(night.least_charger, interval.charger);
    night.most_drawn = most_drawn(journey);
    night.fridges = journey.fridges;
    night.starter = starter_loads(system, runs, tables);
    if (night.starter)
        night.fridges.insert(night.fridges.end(), night.starter->fridges.begin(), night.starter->fridges.end());
    night.battery = journey.battery;
    night.first_day = journey.first_day;
    night.best_sun = journey.best_sun;
    night.depth_limit = journey.depth_limit;

    MarchOptions options;
    options.points = points;
    options.guard = GuardSetting::high;
    night.trip = march(journey, options);
    night.guard = GuardSetting::high;
    const Duration evening = evening_of(system), length = night_length(system, evening);
    const Lasts lasts = lasts_from(system, runs, Ratio{1.0}, evening, tables, &night.a_night, length);
    night.autonomy = lasts.high;
    // A guard that never trips at its high setting does not at the standard one.
    // One that the depth limit ends is not saved by a setting.
    if (!night.guard_known && any_cut_out(night.trip) && !night.trip.below_limit) {
        options.guard = GuardSetting::standard;
        night.other = march(journey, options);
    }
    if (!night.guard_known && lasts.standard.lasts != lasts.high.lasts) night.other_autonomy = lasts.standard;
    if (night.other && worse(*night.other, night.trip)) {
        std::swap(*night.other, night.trip);
        night.guard = GuardSetting::standard;
    }
    night.driving = worth_of_driving(system, runs, night.trip, night.guard, tables);
    night.night_from = evening;
    night.night_to = evening + length;
    night.settings = settings_of(system, night.guard_known, tables);
    return night;
}

std::optional<AutonomyAnswer> answer_autonomy(const System& system, const std::vector<LaidRun>& runs,
                                              const AutonomyQuestion& question, const Tables& tables) {
    Ratio from = question.from.value_or(Ratio{1.0});
    if (question.rested) {
        const auto soc = soc_at_rest(tables, system.house.chemistry->chemistry, *question.rested);
        if (!soc) return {};
        from = *soc;
    }
    const Lasts lasts = lasts_from(system, runs, from, question.at.value_or(evening_of(system)), tables);
    const Journey journey = make_journey(system, runs, tables);
    AutonomyAnswer answer{lasts.standard, {}, {}, {}, journey.depth_limit};
    if (!knows_guards(system) && lasts.high.lasts != lasts.standard.lasts) answer.high = lasts.high;
    answer.driving = worth_of_driving(system, runs, march(journey), GuardSetting::standard, tables);
    if (answer.driving && answer.driving->first_hour > Charge{})
        answer.to_put_back = answer.standard.used / answer.driving->first_hour * hours(1);
    return answer;
}

}  // namespace voltwright
