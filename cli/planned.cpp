#include "cli/planned.hpp"

#include "voltwright/files/read_prices.hpp"

#include <utility>
#include <variant>

namespace voltwright::cli {

std::optional<Prices> prices_of(const Call& call) {
    if (!call.given("--prices")) return Prices{};
    auto read = read_prices(call.text("--prices"));
    if (const auto* diagnostics = std::get_if<Diagnostics>(&read)) {
        refuse(call, *diagnostics);
        return {};
    }
    return Prices{std::get<PriceList>(std::move(read))};
}

std::optional<Plan> plan_of(const Call& call, PlanDetail detail) {
    const auto prices = prices_of(call);
    if (!prices) return {};
    const auto profile = open_profile(call);
    if (!profile) return {};
    detail.prices = prices->get();
    return make_plan(profile->system, built_in_tables(), detail);
}

}  // namespace voltwright::cli
