#pragma once

/// The whole library for whoever uses it from outside: what stands here, and what these headers show, is promised.
///
///     #include <voltwright/voltwright.hpp>
///
///     const auto profile = voltwright::load_system("bus.toml");
///     if (!profile) std::cerr << voltwright::show(profile.wrong());
///     else std::cout << voltwright::plan_page(voltwright::make_plan(profile->system));
///
/// Link `voltwright::voltwright` for what computes, `voltwright::files` beside it for what reads files (load_system), and
/// `voltwright::report` for pages and JSON. Errors: `units/result.hpp`. Every function may be called from several threads at
/// once; none prints, exits, or reads the clock, and none keeps a reference to what it was given unless its comment says so.

#include "voltwright/files/load.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/planning/replan.hpp"
#include "voltwright/profile/profile.hpp"
#include "voltwright/report/diagnostics.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/literals.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/quantities.hpp"
#include "voltwright/units/result.hpp"
#include "voltwright/units/show.hpp"
#include "voltwright/vehicle/resolve.hpp"
