#include "voltwright/shopping/cable_cost.hpp"

#include "voltwright/shopping/cable_parts.hpp"
#include "voltwright/shopping/lugs.hpp"

#include <algorithm>
#include <memory>
#include <utility>

namespace voltwright {

std::optional<Money> cable_cost(const PriceList& list, const System& system, const SystemRun& run,
                                const Candidate& candidate, const Tables& tables) {
    std::optional<Money> sum = Money{};
    const auto add = [&](const Price& price, const Part& part) {
        const auto cost = cost_as_used(price, part, list.decimals);
        sum = sum && cost ? plus(*sum, *cost) : std::nullopt;
    };
    for (const Part& cable : cables_of(run, candidate.size)) {
        const Price* price = find_price(list, cable);
        if (cable.size == candidate.size && !price) return {};
        if (price) add(*price, cable);
    }
    for (const PlacedLugs& lugs : lugs_of(run, candidate, tables)) {
        const Part lug = lug_for(system, lugs, tables);
        if (const Price* price = find_price(list, lug)) add(*price, lug);
    }
    return sum;
}

bool any_size_alike(const PriceList& list, const SystemRun& run, Gauge size) {
    const std::vector<Part> cables = cables_of(run, size);
    return std::any_of(cables.begin(), cables.end(), [&](const Part& cable) {
        const Price* price = cable.size == size ? find_price(list, cable) : nullptr;
        return price && !price->size;
    });
}

Objective least_money(PriceList list) {
    const auto kept = std::make_shared<const PriceList>(std::move(list));
    return {.currency = kept->currency,
            .decimals = kept->decimals,
            .cost = [kept](const System& system, const SystemRun& run, const Candidate& candidate,
                           const Tables& tables) { return cable_cost(*kept, system, run, candidate, tables); },
            .any_size_alike = [kept](const SystemRun& run, Gauge size) { return any_size_alike(*kept, run, size); }};
}

}  // namespace voltwright
