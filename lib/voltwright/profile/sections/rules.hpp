#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <vector>

namespace voltwright {

/// What the plan is judged by, and what the shop has. One member a key; what each means, its range and its default stand in its row.
struct RulesKeys {
    Given<AmpacityBasis> ampacity;
    Given<SizesChoice> sizes;
    Given<std::vector<FuseChoice>> fuses;
    Given<Spread<Ratio>> feed_drop, output_drop, panel_drop, essential_drop, other_drop, fuse_use;
    Given<Spread<Area>> smallest;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow rules_section();

}  // namespace voltwright
