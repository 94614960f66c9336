#include "cli/load_and_plan.hpp"

#include "voltwright/files/read_prices.hpp"
#include "voltwright/files/system_with.hpp"
#include "voltwright/shopping/cable_cost.hpp"

#include <utility>

namespace voltwright::cli {

std::optional<Prices> prices_of(const Call& call) {
    if (!call.given("--prices")) return Prices{};
    auto read = read_prices(call.text("--prices"));
    if (read) return Prices{*std::move(read)};
    refuse(call, read.wrong());
    return {};
}

std::optional<Planned> planned(const Call& call, PlanDetail detail) {
    if (call.text("--prices") == "-" && call.text("PROFILE") == "-") {
        call.complain("the profile and the prices cannot both come from standard input");
        return {};
    }
    auto prices = prices_of(call);
    if (!prices) return {};
    auto profile = open_profile(call);
    if (!profile) return {};
    if (prices->list) detail.objective = least_money(*prices->list);
    Plan plan = make_plan(profile->system, built_in_tables(), detail);
    try_remedies(plan, system_with(*profile), detail.objective);
    return Planned{*std::move(prices), *std::move(profile), std::move(plan)};
}

std::optional<Plan> plan_of(const Call& call, PlanDetail detail) {
    auto all = planned(call, std::move(detail));
    if (!all) return {};
    return std::move(all->plan);
}

}  // namespace voltwright::cli
