#include "voltwright/planning/findings/energy_concerns.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace voltwright {

namespace {

/// A guard that trips more often than this a day is hunting. Common practice, no source.
constexpr double cut_outs_a_day = 4.0;

/// More charge or a larger battery; or where its guard switched it off at the high one of two usual settings, the other.
Remedy for_switched_off(const EnergyContext& of, const ConsumerResult& served) {
    const EnergyPlan& energy = of.energy;
    if (served.essential)
        if (auto warm = against_frost(of)) {
            // Why stands at the depth limit already.
            if (energy.trip.below_limit) warm->steps.erase(warm->steps.begin());
            return *std::move(warm);
        }
    Remedy more{{{RemedyCode::keep_it_on, {}}}, {}};
    if (served.cut_offs == 0 || energy.guard_known || energy.guard != CutOffSetting::high) return more;
    if (energy.other && energy.other->holds()) {
        Remedy standard{{{RemedyCode::standard_guard, {}}}, {}};
        if (find_fridge(of.system, served.name))
            standard.changes = guard_changes(served.name, *find_fridge_guard(of.tables, "standard"));
        return standard;
    }
    return more + Remedy{{{RemedyCode::standard_guard_helps, {}}}, {}};
}

bool essential(const EnergyPlan& energy, const std::string& name) {
    const auto needed = [&](const auto& load) { return load.name == name && load.essential; };
    const auto any = [&](const auto& loads) { return std::any_of(loads.begin(), loads.end(), needed); };
    return any(energy.trip.served) || (energy.starter && any(energy.starter->loads));
}

Finding about_fridge(Level level, FindingCode code, const FridgeNeed& fridge, Source source) {
    return {.level = level,
            .code = code,
            .about = {FindingSubject::Kind::load, {fridge.name}},
            .found = fridge.a_day_hot,
            .source = source,
            .concern = Concern::trip};
}

}  // namespace

std::vector<Change> guard_changes(const std::string& fridge, const FridgeGuardRow& guard) {
    const std::string key = "fridge." + fridge + ".";
    return {{key + "cut_out", write(Spread<Voltage>{guard.cut_out, {}})},
            {key + "cut_in", write(Spread<Voltage>{guard.cut_in, {}})}};
}

void find_switched_off(const EnergyContext& of, Findings& found) {
    for (const ConsumerResult& served : of.energy.trip.served) {
        if (!(served.off > Duration{}) || !served.first_off) continue;
        found.push_back({.level = served.essential ? Level::stop : Level::warn,
                         .code = served.cut_offs > 0 ? FindingCode::cut_out : FindingCode::without_power,
                         .about = {FindingSubject::Kind::load, {served.name}},
                         .found = served.off,
                         .arguments = {{"first", *served.first_off}, {"more_charge", more_charge(of)}},
                         .remedy = for_switched_off(of, served),
                         .source = sources::trip,
                         .concern = Concern::trip});
    }
}

void find_hunting_guards(const EnergyContext& of, Findings& found) {
    const double days = static_cast<double>(std::max<std::size_t>(of.energy.trip.days.size(), 1));
    for (const ConsumerResult& served : of.energy.trip.served)
        if (served.cut_offs > cut_outs_a_day * days)
            found.push_back({.level = Level::warn,
                             .code = FindingCode::guard_hunts,
                             .about = {FindingSubject::Kind::load, {served.name}},
                             .found = served.off,
                             .arguments = {{"times", served.cut_offs}},
                             .source = sources::trip,
                             .concern = Concern::trip});
}

void find_overwhelmed_fridges(const EnergyContext& of, Findings& found) {
    for (const FridgeNeed& fridge : of.energy.fridges) {
        if (!(fridge.overwhelmed > Duration{})) continue;
        const bool stops = essential(of.energy, fridge.name) && fridge.warms_to > fridge.may_warm_to;
        found.push_back({.level = stops ? Level::stop : Level::warn,
                         .code = FindingCode::fridge_overwhelmed,
                         .about = {FindingSubject::Kind::load, {fridge.name}},
                         .found = fridge.greatest_duty,
                         .allowed = Ratio{1.0},
                         .arguments = {{"around", fridge.hottest},
                                       {"warms_to", fridge.warms_to},
                                       {"draws", watts(std::ceil(in_watts(fridge.greatest_duty * fridge.draw)))}},
                         .source = sources::walls,
                         .concern = Concern::engine_off});
    }
}

void find_warm_starts(const EnergyContext& of, Findings& found) {
    for (const FridgeNeed& fridge : of.energy.fridges) {
        const std::vector<std::string>& names = of.energy.cool_first;
        if (std::find(names.begin(), names.end(), fridge.name) == names.end()) continue;
        const Restocking& filling = fridge.warm_start;
        found.push_back({.level = Level::warn,
                         .code = FindingCode::fridge_starts_warm,
                         .about = {FindingSubject::Kind::load, {fridge.name}},
                         .found = filling.electric / fridge.counted_at,
                         .arguments = {{"mass", filling.mass}, {"from", filling.from}},
                         .source = of.tables.fridges.front().source,
                         .concern = Concern::trip});
    }
}

void find_untimed_loads(const EnergyContext& of, Findings& found) {
    const UntimedLoads& untimed = of.energy.untimed;
    if (!untimed.decide()) return;
    found.push_back({.level = Level::warn,
                     .code = FindingCode::load_hours,
                     .about = {FindingSubject::Kind::load, untimed.off},
                     .found = *untimed.bearable,
                     .arguments = {{"an_hour", untimed.off_an_hour}},
                     .source = sources::trip,
                     .concern = Concern::trip});
}

void find_guessed_fridges(const EnergyContext& of, Findings& found) {
    const Source& rule_of_thumb = of.tables.fridges.front().source;
    for (const FridgeNeed& fridge : of.energy.fridges) {
        if (fridge.fridge.by_rule_of_thumb)
            found.push_back(about_fridge(Level::warn, FindingCode::fridge_guessed, fridge, rule_of_thumb));
        else if (fridge.fridge.fit == FridgeFit::contradicting) {
            Finding one = about_fridge(Level::warn, FindingCode::fridge_contradicts, fridge, sources::walls);
            one.found = fridge.a_day_cool;
            one.allowed = fridge.a_day_hot;
            found.push_back(std::move(one));
        }
    }
}

}  // namespace voltwright
