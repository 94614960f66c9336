#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/tables/practice.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

/// Lead that is not charged beyond this for days sulphates. Common practice, no source.
constexpr Ratio as_good_as_full = 0.95;

/// So many days in a row without a full charge, and it begins to tell. Common practice, no source.
constexpr int begins_to_tell = 14;

/// Days in a row on which it never was as good as full, and the fullest that it was in them.
struct PartCharged {
    int days = 0;
    Ratio fullest{};
};

/// The longest run of them.
PartCharged part_charged(const TripResult& trip) {
    PartCharged longest, run;
    for (const DayTotals& day : trip.days) {
        if (day.highest >= as_good_as_full) {
            run = {};
            continue;
        }
        run = {run.days + 1, std::max(run.fullest, day.highest)};
        if (run.days > longest.days) longest = run;
    }
    return longest;
}

Finding about_battery(Level level, FindingCode code, Source source) {
    return {.level = level,
            .code = code,
            .about = {FindingSubject::Kind::house_battery},
            .source = source,
            .concern = Concern::trip};
}

bool house_cools(const EnergyPlan& energy) {
    return std::any_of(energy.fridges.begin(), energy.fridges.end(),
                       [](const FridgeNeed& fridge) { return fridge.fed_by == FedBy::house; });
}

bool starts_below_limit(const TripResult& trip) {
    return trip.below_limit->day == 1 && trip.below_limit->clock < seconds(1) && trip.start < trip.deepest_allowed;
}

/// By more than a lamp left on would take. Common practice, no source.
bool falls(const TripResult& trip) { return trip.lowest < trip.start - Ratio{0.02}; }

}  // namespace

void find_depth_limit(const EnergyContext& of, Findings& found) {
    const TripResult& trip = of.energy.trip;
    if (!trip.below_limit) return;
    Finding one = about_battery(Level::stop, FindingCode::depth_limit, sources::depth_limit);
    one.found = trip.lowest;
    one.allowed = trip.deepest_allowed;
    one.arguments = {{"first", *trip.below_limit}, {"more_charge", more_charge(of)}};
    // The limit that the profile gives, where the cold asks for more.
    const Ratio warm = 1.0 - of.energy.depth_limit;
    if (show(trip.deepest_allowed) != show(warm)) {
        one.arguments.push_back({"battery", trip.limit_at});
        one.arguments.push_back({"warm_limit", warm});
    }
    if (of.energy.dull && of.energy.dull->run.count > 1 && of.energy.dull->usual.holds())
        one.arguments.push_back({"dull_days", of.energy.dull->run.count});
    const RemedyCode more = house_cools(of.energy) ? RemedyCode::more_charge_larger_battery_or_cooler_fridge
                                                   : RemedyCode::more_charge_or_larger_battery;
    one.remedy = against_frost(of).value_or(Remedy{{{more, {}}}, {}});
    if (starts_below_limit(trip)) {
        const Remedy charge{{{RemedyCode::charge_before_leaving, {}}}, {}};
        one.remedy = falls(trip) ? charge + std::move(one.remedy) : charge;
    }
    found.push_back(std::move(one));
}

void find_never_full(const EnergyContext& of, Findings& found) {
    const TripResult& trip = of.energy.trip;
    if (!of.lead() || !of.drives() || trip.days.size() < 2) return;
    // Days in a row after which it is told though the first days were full. Common practice, no source.
    constexpr int many = 7;
    const PartCharged longest = part_charged(trip);
    // Of weeks something worse is told, and a charger that brings nothing at all is told of itself.
    if (longest.days >= begins_to_tell || !(trip.highest_after_start > Ratio{})) return;
    const bool ever = trip.highest_after_start >= as_good_as_full;
    if (ever && longest.days < many) return;
    Finding one = about_battery(Level::warn, FindingCode::never_full, sources::practice);
    one.found = ever ? longest.fullest : trip.highest_after_start;
    one.allowed = as_good_as_full;
    if (ever) one.arguments = {{"days", longest.days}};
    found.push_back(std::move(one));
}

void find_new_battery_only(const EnergyContext& of, Findings& found) {
    if (!of.energy.worn || !of.energy.worn->fails_trip || any_stops(found)) return;
    Finding one = about_battery(Level::warn, FindingCode::new_battery_only,
                                practice(of.tables, PracticeShare::worn_capacity).source);
    one.found = of.energy.worn->health;
    one.allowed = Ratio{1.0};
    found.push_back(std::move(one));
}

void find_fading(const EnergyContext& of, Findings& found) {
    const TripResult& trip = of.energy.trip;
    const ChemistryRow& chemistry = *of.system.house.chemistry;
    if (!chemistry.part_charged_low || !chemistry.part_charged_high) return;
    // Nothing that charges, or a charger that brings nothing at all, is told of itself.
    if (!(trip.highest_after_start > Ratio{})) return;
    const PartCharged longest = part_charged(trip);
    if (longest.days < begins_to_tell) return;
    Finding one = about_battery(Level::warn, FindingCode::part_charged, chemistry.source);
    one.found = longest.fullest;
    one.allowed = as_good_as_full;
    one.arguments = {
        {"days", longest.days}, {"least", *chemistry.part_charged_low}, {"most", *chemistry.part_charged_high}};
    // From the depth limit to as good as full, the last of told_fillings; in tens of minutes, up.
    if (of.energy.driving && of.energy.driving->filled.back())
        one.arguments.push_back(
            {"drive", minutes(10.0 * std::ceil(in_minutes(*of.energy.driving->filled.back()) / 10.0))});
    found.push_back(std::move(one));
}

void find_assumed_sky(const EnergyContext& of, Findings& found) {
    const auto& sky = of.energy.assumed_sky;
    if (!sky || !sky->decides) return;
    const bool holds = of.energy.trip.holds();
    found.push_back({.level = Level::warn,
                     .code = FindingCode::clearness_assumed,
                     .about = {FindingSubject::Kind::sun},
                     .found = sky->usual,
                     .allowed = sky->least,
                     .arguments = {{"least", sky->least},
                                   {"most", sky->most},
                                   {holds ? "fails_at" : "holds_at", holds ? sky->least : sky->most}},
                     .source = sky->source,
                     .concern = Concern::trip});
}

void find_discharge_limit(const EnergyContext& of, Findings& found) {
    const Current limit = of.system.house.discharge_limit;
    if (!(of.energy.most_drawn > limit)) return;
    Finding one = about_battery(of.lead() ? Level::warn : Level::stop, FindingCode::discharged_too_hard,
                                of.system.house.chemistry->source);
    one.found = of.energy.most_drawn;
    one.allowed = limit;
    one.concern = Concern::engine_off;
    found.push_back(std::move(one));
}

}  // namespace voltwright
