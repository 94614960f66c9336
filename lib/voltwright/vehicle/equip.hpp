#pragma once

#include "voltwright/profile/profile.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/vehicle/equipment.hpp"

namespace voltwright {

/// A profile's sections as plain amounts. `complete` is `given` with every default; what a default must not hide, such as
/// a resistance that somebody measured, is taken from `given`.
Equipment equipment_of(const Profile& given, const Profile& complete, const Tables& tables);

}  // namespace voltwright
