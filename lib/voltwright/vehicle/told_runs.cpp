#include "voltwright/vehicle/told_runs.hpp"

#include "voltwright/profile/complete.hpp"
#include "voltwright/tables/practice.hpp"
#include "voltwright/tables/tables.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

/// Lengths of the runs that people forget to describe. data/practice/lengths.toml.
const Length assumed_output_length = in_practice(PracticeLength::assumed_output);
const Length assumed_fridge_length = in_practice(PracticeLength::assumed_fridge);
const Length assumed_inverter_length = in_practice(PracticeLength::assumed_inverter);
const Length assumed_panel_length = in_practice(PracticeLength::assumed_panel);
const Length assumed_regulator_length = in_practice(PracticeLength::assumed_regulator);

Place place_in(const Profile& profile, const std::string& name) {
    const auto bears = [&](const auto& one) { return one.name == name; };
    const bool consumer = std::any_of(profile.loads.begin(), profile.loads.end(), bears) ||
                          std::any_of(profile.fridges.begin(), profile.fridges.end(), bears);
    return consumer ? Place{PlaceKind::consumer, name} : place_named(name);
}

RunRole role_of(const Place& from, const Place& to) {
    switch (to.kind) {
        case PlaceKind::regulator: return RunRole::panel;
        case PlaceKind::charger: return RunRole::feed;
        case PlaceKind::house_battery: return from.kind == PlaceKind::regulator ? RunRole::solar : RunRole::output;
        case PlaceKind::inverter: return RunRole::inverter;
        case PlaceKind::consumer: return RunRole::appliance;
        default: return RunRole::trunk;
    }
}

ToldRun told(const Profile& profile, RunKeys keys, bool assumed, std::string path) {
    Place from = place_in(profile, *keys.from), to = place_in(profile, *keys.to);
    const RunRole role = role_of(from, to);
    return {std::move(keys), assumed, std::move(path), std::move(from), std::move(to), role};
}

/// A run of which only this is known, with the usual of everything else.
RunKeys lone_run(const Profile& complete_profile, const std::optional<std::string>& from, std::string to, Length length,
                 const Tables& tables) {
    Profile lone;
    lone.charger.kind = complete_profile.charger.kind;
    lone.runs.push_back({});
    lone.runs.front().from = from;
    lone.runs.front().to = std::move(to);
    lone.runs.front().length = Spread<Length>{length};
    return voltwright::complete(lone, tables).runs.front();
}

/// The sun's runs stand behind all others.
int rank(const ToldRun& run) {
    switch (run.role) {
        case RunRole::feed: return 0;
        case RunRole::output: return 1;
        case RunRole::panel: return 3;
        case RunRole::solar: return 4;
        default: return 2;
    }
}

}  // namespace

std::vector<ToldRun> told_runs(const Profile& complete, const Tables& tables) {
    std::vector<ToldRun> runs;
    for (std::size_t i = 0; i < complete.runs.size(); ++i)
        runs.push_back(told(complete, complete.runs[i], false, "run[" + std::to_string(i) + "]"));
    const auto assume_unless = [&](auto leads_there, const std::string& to, Length length,
                                   const std::optional<std::string>& from = {}) {
        if (std::none_of(runs.begin(), runs.end(), leads_there))
            runs.push_back(told(complete, lone_run(complete, from, to, length, tables), true, {}));
    };
    const auto leads_to = [](const std::string& name) {
        return [&name](const ToldRun& run) { return run.to.name == name; };
    };
    if (complete.charger.kind != Coupling::none)
        assume_unless([](const ToldRun& run) { return run.role == RunRole::output; },
                      the(PlaceKind::house_battery).name, assumed_output_length);
    for (const FridgeKeys& fridge : complete.fridges)
        assume_unless(leads_to(*fridge.name), *fridge.name, assumed_fridge_length);
    if (complete.inverter) {
        const std::string inverter = the(PlaceKind::inverter).name;
        assume_unless(leads_to(inverter), inverter, assumed_inverter_length);
    }
    if (complete.solar) {
        const std::string regulator = the(PlaceKind::regulator).name;
        assume_unless(leads_to(regulator), regulator, assumed_panel_length);
        assume_unless([](const ToldRun& run) { return run.role == RunRole::solar; }, the(PlaceKind::house_battery).name,
                      assumed_regulator_length, regulator);
    }
    std::stable_sort(runs.begin(), runs.end(), [](const ToldRun& a, const ToldRun& b) { return rank(a) < rank(b); });
    return runs;
}

}  // namespace voltwright
