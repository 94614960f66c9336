#pragma once

#include "voltwright/planning/findings/run_context.hpp"

namespace voltwright {

/// What cures a short that heats a run too much: another cable, another fuse in place of a given one, a shorter run, a
/// battery that gives more or is known to. Each was chosen again as it would be.
Remedy cure_of_short(const RunContext& of, bool given_fuse);

}  // namespace voltwright
