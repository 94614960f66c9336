#pragma once

#include "voltwright/planning/diagnose.hpp"

#include <optional>
#include <vector>

/// What readings tell by themselves, before any sum.
namespace voltwright {

/// Where to put the leads next, and in what state.
struct Ask {
    Probe probe;
    RigState state;
    std::vector<std::string> across;
    std::string through = {};
    std::string run;
    Proves proves;
};

/// What is left for the sum once that has been seen.
struct Sifted {
    std::vector<Remark> remarks;
    std::vector<Shown> used;    ///< what lies behind an open place counts as switched off
    std::vector<bool> idle;     ///< of each: the charger does nothing in its state
    std::vector<bool> anchors;  ///< of each: its battery stands at this voltage, unusual as it is
    std::optional<Ask> next;    ///< halves the way in which something is open
};

/// An open place has the whole voltage of its battery across it, and nothing flows: 10 V or more, or half a volt where a
/// clamp shows nothing (common practice, no source). What has no volts across it then is sound, and so is all that brings
/// 10 V or more to a place; a place with less than 6 V has the break before it.
Sifted sift(const Rig& rig, const std::vector<Shown>& readings, const TestLimits& limits, const System& system,
            const Tables& tables);

/// Every reading past its limit that nothing of what was sifted accounts for, by how much the worst first.
std::vector<Remark> beyond_limits(const Rig& rig, const std::vector<Shown>& readings, const Sifted& sifted,
                                  const TestLimits& limits);

}  // namespace voltwright
