#pragma once

#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/planning/run_plan.hpp"

#include <vector>

/// What there is to say of the vehicle as a whole, a function for each concern: each adds what it finds.
namespace voltwright {

/// The vehicle with its runs, and all that its findings are made from.
struct SystemContext {
    const System& system;
    const std::vector<RunPlan>& runs;
    const Tables& tables;
};

// ---- system_findings.cpp ----------------------------------------------------------------------------------------------
/// A charger that is woken by voltage sleeps only when the resting starter battery reads less than its threshold.
void find_sleepless_charger(const SystemContext& of, Findings& found);
void find_assumed_runs(const SystemContext& of, Findings& found);
void find_basis_from_memory(const SystemContext& of, Findings& found);
/// A smart alternator is steered by a sensor on the starter battery's negative post: what returns there goes unseen.
void find_battery_sensor(const SystemContext& of, Findings& found);
/// How near to the battery a fuse has to sit.
void find_fuse_distance(const SystemContext& of, Findings& found);
/// Whether a load sits at the battery because no run leads to it.
bool has_no_run(const System& system, const LoadUnit& load);
/// Whether it draws so much that its cable and fuse want to be in the plan.
bool wants_a_run(const LoadUnit& load);
/// Those of them that want one.
void find_unfed_loads(const SystemContext& of, Findings& found);

// ---- breaking_findings.cpp --------------------------------------------------------------------------------------------
/// Fuses that are not made to interrupt a dead short just behind them, and have none in front that is: one finding for all.
void find_weak_fuses(const SystemContext& of, Findings& found);

// ---- system_relay.cpp -------------------------------------------------------------------------------------------------
/// A relay between the batteries: whether it closes, what it lets through, and who bears that.
void find_in_relay(const SystemContext& of, Findings& found);

// ---- solar_findings.cpp -----------------------------------------------------------------------------------------------
/// What is assumed of the panels, and what they ask beside their cables.
void find_about_the_sun(const SystemContext& of, Findings& found);

}  // namespace voltwright
