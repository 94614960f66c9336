#pragma once

#include "voltwright/vehicle/layout.hpp"

#include <vector>

namespace voltwright {

struct Profile;

/// The runs as told, with one main fuse on the post of a battery where blades of small branches there could not break what a
/// dead short draws.
///
///     I = V_oc/(R_i + R_link + R_holder)
///
/// No cable is counted, as the fuse may sit right at the post; R_i is the battery's as expected. Where this is more than one
/// of the branches' blades breaks, a run of the plan's own leads from the battery to a fuse block, its fuse on the post, and
/// all branches of that battery that would have a blade begin at that block. A run of the profile from the battery to a
/// place of its own gets its fuse on the post instead. Branches whose current asks for a larger fuse stay as they are.
///
/// The profile may name the main fuse, or want none; where its shelf has none that would do, there is none.
std::vector<ToldRun> with_main_fuses(const Layout& layout, const Profile& complete, const Rules& rules);

}  // namespace voltwright
