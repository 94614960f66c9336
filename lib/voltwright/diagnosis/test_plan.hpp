#pragma once

#include "voltwright/diagnosis/planned_reading.hpp"
#include "voltwright/vehicle/system.hpp"

#include <string>
#include <vector>

/// What a multimeter should show, from the first check before anything is connected to the last load.
namespace voltwright {

struct Plan;
struct SoundVehicle;

/// What has no readings, and why.
struct NotMeasured {
    enum class Reason {
        no_size_fits,   ///< the run has no cable that would do
        by_the_sun,     ///< the run carries what the sun gives
        nothing_draws,  ///< nothing in the profile draws through the run
        no_run,         ///< no run leads to the load
    };
    Reason reason;
    std::string subject;  ///< where the run leads to, or the load
};

/// All of them, in order.
struct TestPlan {
    std::vector<PlannedReading> readings;
    std::vector<NotMeasured> not_measured;
    bool relay = false;  ///< joins the batteries, in a charger's place

    [[nodiscard]] const PlannedReading* find(std::string_view id) const;
};

/// Throws nothing; a run that cannot be sized has no readings of its own.
TestPlan test_plan(const System& system, const Plan& plan, const Tables& tables = built_in_tables());
TestPlan test_plan(const SoundVehicle& sound);

}  // namespace voltwright
