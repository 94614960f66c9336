#pragma once

#include "cli/load_profile.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/prices.hpp"

#include <optional>

namespace voltwright::cli {

inline constexpr Option prices_option = {
    .name = "--prices",
    .takes = Takes::text,
    .value = "PRICES",
    .help = "a price list of your own, a TOML file such as those in examples/prices: cables for the least money"};

/// What `--prices` names.
struct Prices {
    std::optional<PriceList> list;  ///< empty: the option was not given
    [[nodiscard]] const PriceList* get() const { return list ? &*list : nullptr; }
};

/// Reads it, or nothing: what is wrong then stands on standard error, and the verb ends with `unusable`.
std::optional<Prices> prices_of(const Call& call);

/// A profile, its plan, and the prices by which its cables were chosen.
struct Planned {
    Prices prices;
    OpenProfile profile;
    Plan plan;
};

/// The call's PROFILE planned, by its prices where the verb takes them, or nothing: what is wrong then stands on standard
/// error, and the verb ends with `unusable`.
std::optional<Planned> planned(const Call& call, PlanDetail detail = {});

/// The plan alone.
std::optional<Plan> plan_of(const Call& call, PlanDetail detail = {});

}  // namespace voltwright::cli
