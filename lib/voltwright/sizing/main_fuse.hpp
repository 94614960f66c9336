#pragma once

#include "voltwright/sizing/fuse.hpp"

#include <optional>

namespace voltwright {

/// The fuse on a battery's post for a lead that small branches hang on: of those made for the post first, then of the other
/// families that are bolted down, the smallest in the window that breaks the expected fault. Never a blade.
///
/// Empty where one would break it but is larger than this cable may have: then a thicker cable is wanted. Where none breaks
/// it, or what else sits in the run allows none, choose_fuse().
std::optional<FuseFit> choose_main_fuse(const FuseWish& wish, const Rules& rules, const Tables& tables);

/// Whether fuses of a family, on the shelf where there is one, come into question as main fuse.
bool is_main_fuse(const FuseFamilyRow& family, const Rules& rules);

/// Whether a chosen fuse breaks too little only because this cable is too thin for one that breaks enough: then a thicker
/// cable is wanted. Not asked before a single appliance, whose own cord is as thin.
bool wants_thicker_cable(const FuseFit& fuse, const FuseWish& wish, const Rules& rules, const Tables& tables);

}  // namespace voltwright
