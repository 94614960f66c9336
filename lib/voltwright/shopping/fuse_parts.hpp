#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts_list.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// A place, neither a battery nor the charger, where runs get a blade fuse of one family. With two of them or more that
/// is a fuse block, and so is what a main fuse serves.
struct FusePlace {
    Place at;
    std::string family;
    int ways = 0, owned = 0;
    std::vector<std::string> runs = {};
    bool behind_main = false;

    [[nodiscard]] bool is_block() const { return behind_main || ways > 1; }
};

std::vector<FusePlace> fuse_places(const std::vector<RunPlan>& runs);

/// So many fuses of a kind.
void add_fuses(PartsList& list, const std::string& family, Current rating, const std::string& run, int count = 1);

/// What fuses of a family sit in, and whether the leads of one in the cable are thick enough for it.
void add_holders(PartsList& list, const std::string& family, FuseForm form, bool in_line, Area cable,
                 const std::string& run, int count, const Tables& tables);

/// Whether a holder in the cable may carry what the run is held against.
bool holder_carries(const FuseFit& fuse, const Choice& choice);

/// The fuses of a run with their holders; what sits in a block has none. Of one that is there already a note.
void add_fuses_of(PartsList& list, const RunPlan& run, const Candidate& taken, const std::vector<FusePlace>& places,
                  const Tables& tables);

void add_fuse_blocks(PartsList& list, const std::vector<FusePlace>& places);

}  // namespace voltwright
