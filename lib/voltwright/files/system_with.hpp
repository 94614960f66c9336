#pragma once

#include "voltwright/files/load.hpp"
#include "voltwright/planning/tried_remedies.hpp"
#include "voltwright/tables/tables.hpp"

namespace voltwright {

/// How a plan tries what its findings say is to be done: the vehicle of a profile with changes made. The profile and the tables
/// have to outlive it.
SystemWith system_with(const LoadedSystem& profile, const Tables& tables = built_in_tables());

}  // namespace voltwright
