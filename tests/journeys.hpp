#pragma once

/// Scenarios made by hand, for tests of the simulation: one battery, what draws and what charges, hour by hour.

#include "voltwright/files/document.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <doctest/doctest.h>

#include <string>

namespace voltwright::testing {

/// A bank of one usual battery of a chemistry.
inline HouseBattery usual_battery(std::string_view chemistry, Charge capacity) {
    const Tables& tables = built_in_tables();
    const ChemistryRow& row = *find_chemistry(tables, chemistry);
    return house_battery(row, capacity, 1, Ratio{1.0}, internal_resistance(row, capacity, 1), tables);
}

/// Adds an interval at the end; `duties` for each consumer.
inline Interval& add_interval(Scenario& scenario, Duration length, const std::vector<double>& duties,
                              Current charger = Current{}) {
    const bool first = scenario.intervals.empty();
    Interval interval{};
    interval.from = first ? Duration{} : scenario.intervals.back().from + scenario.intervals.back().length;
    interval.length = length;
    interval.day = static_cast<int>(interval.from / hours(24)) + 1;
    interval.driving = charger > Current{};
    interval.air = interval.battery = celsius(25);
    interval.charger = charger;
    interval.absorption = volts(14.4);
    interval.float_ = volts(13.6);
    interval.takes_charge = true;
    scenario.intervals.push_back(interval);
    for (const double duty : duties) scenario.needs.push_back(Ratio{duty});
    return scenario.intervals.back();
}

inline Scenario lone_scenario(HouseBattery battery, std::vector<Consumer> consumers) {
    Scenario scenario{};
    scenario.battery = std::move(battery);
    scenario.depth_limit = Ratio{1.0};
    scenario.start_soc = Ratio{1.0};
    scenario.consumers = std::move(consumers);
    return scenario;
}

/// Every interval in two halves.
inline Scenario halved(const Scenario& scenario) {
    Scenario finer = scenario;
    finer.intervals.clear();
    finer.needs.clear();
    for (std::size_t i = 0; i < scenario.intervals.size(); ++i)
        for (int half = 0; half < 2; ++half) {
            Interval interval = scenario.intervals[i];
            interval.length = interval.length / 2.0;
            if (half == 1) interval.from += interval.length;
            finer.intervals.push_back(interval);
            const Ratio* duties = scenario.needs_of(i);
            finer.needs.insert(finer.needs.end(), duties, duties + scenario.consumers.size());
        }
    return finer;
}

/// The system of a profile's text.
inline System system_of_text(const std::string& text) {
    INFO(text);
    auto read = read_document_text("test", text);
    REQUIRE(std::holds_alternative<Document>(read));
    Faults faults;
    const Profile profile = read_profile(std::get<Document>(read).root, faults);
    for (const Fault& fault : faults) FAIL_CHECK(fault.path << ": " << fault.what);
    auto system = resolve(profile, built_in_tables());
    if (const auto* wrong = std::get_if<Faults>(&system))
        for (const Fault& fault : *wrong) FAIL_CHECK(fault.path << ": " << fault.what);
    REQUIRE(std::holds_alternative<System>(system));
    return std::get<System>(system);
}

}  // namespace voltwright::testing
