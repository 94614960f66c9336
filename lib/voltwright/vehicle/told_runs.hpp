#pragma once

#include "voltwright/profile/profile.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <vector>

namespace voltwright {

struct Tables;

/// A run as its profile tells it, or one that the profile forgot.
struct ToldRun {
    RunKeys keys;
    bool assumed;
    std::string path;  ///< its key's path in the profile; empty when assumed
    Place from, to;
    RunRole role;
    bool main_fuse = false;                      ///< the plan's own, from a main fuse to the block that it serves
    bool on_post = false;                        ///< its fuse is one on a battery's post
    std::optional<Current> largest_behind = {};  ///< of the fuses behind a main fuse: it is larger
};

/// The runs of a complete profile that contradicts nothing: the feed first, then the charger's output, then the rest as
/// written. Where none is described, one from the charger to the battery, to each fridge, to the inverter, and from a panel to its regulator
/// and on to the battery is assumed.
std::vector<ToldRun> told_runs(const Profile& complete, const Tables& tables);

}  // namespace voltwright
