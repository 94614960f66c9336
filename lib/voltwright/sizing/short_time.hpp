#pragma once

#include "voltwright/circuit/heating.hpp"
#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/sizing/cable_run.hpp"
#include "voltwright/sizing/run_load.hpp"
#include "voltwright/tables/practice.hpp"

#include <optional>
#include <vector>

/// What a load that runs for a minute asks of cable and fuse.
namespace voltwright {

/// By how much a conductor may carry more than its ampacity for so short a time; 1 where it counts as lasting.
///
///     f = √((1 − e^(−t_cycle/τ))/(1 − e^(−t_on/τ))), and 1 where t_on > τ/2
///
/// One body of copper says little of what takes longer: data/practice/shares.toml. Source: short_time_factor().
Ratio factor_in(const HeatedConductor& conductor, const ShortTimeCurrent& flows);

/// The current that heats this conductor as much if it lasts.
///
///     I_l = √(I_base² + (I² − I_base²)/f²)
///
/// I_base   what it carries all the time     f   see factor_in()
///
/// Heat goes with the square of the current and adds up. Source: the heat balance of HeatedConductor.
Current lasting_current(const DesignCurrent& design, const HeatedConductor& conductor);

/// The same of the thinner conductor of a run.
Current lasting_current(const DesignCurrent& design, const CableRun& run, Area thinner,
                        const std::optional<Ampacity>& ampacity);

/// What its fuse must let pass: every start, and all of a short time. In heat a fuse opens as if it carried more.
std::vector<ShortCurrent> to_let_pass(const CableRun& run, const DesignCurrent& design, Ratio rerating);

}  // namespace voltwright
