#pragma once

#include "voltwright/planning/run_plan.hpp"
#include "voltwright/simulation/relay_link.hpp"

#include <cstddef>
#include <optional>
#include <vector>

/// The two runs of a relay's link, which carry what their own resistance lets through.
namespace voltwright {

struct LinkChoice {
    std::size_t feed, output;  ///< the runs that lead to the relay and on from it
    LinkEnds ends;
};

/// Empty where no relay joins the batteries.
std::optional<LinkChoice> link_choice(const System& system, const Tables& tables);

/// Before anything is chosen: the drop is judged at what the battery would take, and nothing flows.
void begin_link(const LinkChoice& link, std::vector<RunPlan>& runs);

/// Sets what flows through the sizes that are taken now, and what each run has to bear beside: the other's fuse feeds a fault
/// in it, and its own fuse protects the other too. False when that is what they were judged by. What they are held against
/// only grows: a thicker cable lets more through, so from the thinnest size upwards this ends. Where no size passes it does
/// not grow: more would not pass either.
bool settle_link(const LinkChoice& link, std::vector<RunPlan>& runs, const Tables& tables);

/// Once all is chosen: both runs carry what really flows when charging begins.
void end_link(const LinkChoice& link, const System& system, std::vector<RunPlan>& runs, const Tables& tables);

}  // namespace voltwright
