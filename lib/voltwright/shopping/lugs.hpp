#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts_list.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// What a lug is bolted to.
enum class LugsAt {
    end,          ///< of the run
    between,      ///< somewhere in the run
    fuse,         ///< on the studs of one that is bolted
    earth_point,  ///< on the body
};

/// Ring lugs of one size at one place of a run.
struct PlacedLugs {
    LugsAt at;
    std::optional<Place> end;  ///< of a run: where
    Gauge size;
    int count;
};

/// The ring lugs of a run in one size: those of its joints, on the body, and on the studs of bolted fuses that are to be
/// bought.
std::vector<PlacedLugs> lugs_of(const SystemRun& run, const Candidate& candidate,
                                const Tables& tables = built_in_tables());

/// The line of the list that buys them, with the hole for the stud where the profile names it.
Part lug_for(const System& system, const PlacedLugs& lugs, const Tables& tables = built_in_tables());

/// Lugs with their heat-shrink.
void add_lugs(PartsList& list, const System& system, const PlacedLugs& lugs, const std::string& run,
              const Tables& tables);

/// A battery or the charger: what has terminals of its own, whose studs a profile can name.
bool has_terminals(const Place& place);

/// A lug that waits for a stud which nobody has named.
bool wants_stud(const Part& lug);

}  // namespace voltwright
