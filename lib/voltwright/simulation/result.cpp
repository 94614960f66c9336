#include "voltwright/simulation/result.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Moments closer than this are the same.
constexpr Duration same_moment_of_failure = seconds(1e-3);

}  // namespace

Duration TripResult::essential_off() const {
    Duration longest{};
    for (const ConsumerResult& one : served)
        if (one.essential) longest = std::max(longest, one.off);
    return longest;
}

bool TripResult::holds() const { return !below_limit && !(essential_off() > Duration{}); }

std::optional<FirstFailure> TripResult::first_failure() const {
    std::optional<FirstFailure> first;
    // Of one moment what goes off counts, as where the autonomy ends.
    const auto since = [](const Moment& at) { return hours(24) * static_cast<double>(at.day) + at.clock; };
    const auto earlier = [&](const Moment& at) {
        return !first || since(at) < since(first->at) + same_moment_of_failure;
    };
    if (below_limit) first = {EndedBy::depth_limit, {}, *below_limit};
    for (const ConsumerResult& one : served)
        if (one.essential && one.off > Duration{} && one.first_off && earlier(*one.first_off))
            first = {one.by_its_cut_off ? EndedBy::cut_off : EndedBy::depleted, one.name, *one.first_off};
    return first;
}

std::string_view show(EndedBy by) {
    switch (by) {
        case EndedBy::trip: return "nothing, in the time looked at";
        case EndedBy::depth_limit: return "the depth limit";
        case EndedBy::cut_off: return "an appliance that switched itself off";
        case EndedBy::depleted: return "a flat battery";
    }
    return "";
}

bool worse(const TripResult& a, const TripResult& b) {
    if (a.holds() != b.holds()) return !a.holds();
    if (a.essential_off() != b.essential_off()) return a.essential_off() > b.essential_off();
    return a.lowest < b.lowest;
}

}  // namespace voltwright
