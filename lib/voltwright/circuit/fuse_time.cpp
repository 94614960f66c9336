#include "voltwright/circuit/fuse_time.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

struct Point {
    Ratio multiple;
    Duration time;
    const Source* source;
};

/// One of the two limits of a family: its latest times, or its soonest.
struct Limit {
    const Tables& tables;
    std::string_view family;
    bool most;

    template <class Use>
    void each(Use use) const {
        for (const TimeLimitRow& row : tables.time_limits) {
            if (row.family != family) continue;
            const std::optional<Duration> time = most ? row.at_most : std::optional(row.at_least);
            if (time) use(Point{row.multiple, *time, &row.source});
        }
    }

    [[nodiscard]] std::optional<Point> first() const {
        std::optional<Point> found;
        each([&](const Point& point) { found = found.value_or(point); });
        return found;
    }

    /// The printed points on both sides of a multiple.
    struct Place {
        std::optional<Point> below, above;
    };
    [[nodiscard]] Place around(Ratio multiple) const {
        Place place;
        each([&](const Point& point) {
            if (point.multiple <= multiple)
                place.below = point;
            else if (!place.above)
                place.above = point;
        });
        return place;
    }

    /// The least multiple at which the time is within this.
    [[nodiscard]] std::optional<Ratio> within(Duration time) const {
        std::optional<Point> before;
        std::optional<Ratio> found;
        each([&](const Point& point) {
            if (!found && point.time <= time) {
                found = point.multiple;
                if (before && point.time < time) {
                    const double slope = std::log(double(point.multiple / before->multiple)) /
                                         std::log(double(point.time / before->time));
                    found = before->multiple * std::pow(double(time / before->time), slope);
                }
            }
            before = point;
        });
        if (!found && before) found = before->multiple * std::sqrt(double(before->time / time));
        return found;
    }
};

/// Empty below the first point.
std::optional<Duration> time_at(const Limit::Place& place, Ratio multiple) {
    if (!place.below) return {};
    const Point& below = *place.below;
    const double further = double(multiple / below.multiple);
    if (!place.above) return below.time / (further * further);
    const double slope =
        std::log(double(place.above->time / below.time)) / std::log(double(place.above->multiple / below.multiple));
    return below.time * std::pow(further, slope);
}

}  // namespace

std::optional<FuseTime> fuse_time(const Tables& tables, std::string_view family, Current rating, Current current) {
    const Limit soonest{tables, family, false}, latest{tables, family, true};
    const std::optional<Point> first = soonest.first();
    if (!first || !(rating > Current{})) return {};
    const Ratio multiple = current / rating;
    FuseTime time{rating, current, time_at(soonest.around(multiple), multiple).value_or(first->time), {}};
    time.source = *first->source;
    const Limit::Place place = latest.around(multiple);
    time.at_most = time_at(place, multiple);
    if (!time.at_most) return time;
    time.printed_current = place.below->multiple * rating;
    time.printed_time = place.below->time;
    time.source = *place.below->source;
    if (place.above) {
        time.next_current = place.above->multiple * rating;
        time.next_time = place.above->time;
    }
    return time;
}

std::optional<Current> surely_clears(const Tables& tables, std::string_view family, Current rating, Duration within) {
    if (!(within > Duration{})) return {};
    const auto multiple = Limit{tables, family, true}.within(within);
    if (!multiple) return {};
    return *multiple * rating;
}

std::optional<Current> first_cleared(const Tables& tables, std::string_view family, Current rating) {
    const std::optional<Point> first = Limit{tables, family, true}.first();
    if (!first) return {};
    return first->multiple * rating;
}

std::optional<JouleIntegral> let_through(const Tables& tables, std::string_view family, Current rating,
                                         Current current) {
    const auto time = fuse_time(tables, family, rating, current);
    if (!time || !time->at_most) return {};
    return current * current * *time->at_most;
}

std::optional<FuseTime> most_let_through(const Tables& tables, std::string_view family, Current rating, Current lowest,
                                         Current highest) {
    std::optional<FuseTime> worst = fuse_time(tables, family, rating, lowest);
    if (!worst || !worst->at_most) return {};
    const auto heat = [](const FuseTime& time) { return time.current * time.current * *time.at_most; };
    const auto look = [&](Current current) {
        const auto time = fuse_time(tables, family, rating, current);
        if (heat(*time) > heat(*worst)) worst = time;
    };
    Limit{tables, family, true}.each([&](const Point& point) {
        const Current current = point.multiple * rating;
        if (current > lowest && current < highest) look(current);
    });
    look(std::max(lowest, highest));
    return worst;
}

bool rides_through(const Tables& tables, std::string_view family, Current rating, Current current, Duration lasts) {
    const auto time = fuse_time(tables, family, rating, current);
    return time ? time->at_least >= lasts : current <= rating;
}

std::optional<bool> is_selective(const Tables& tables, FuseInPlace in_front, FuseInPlace behind, Current fault) {
    const auto first = fuse_time(tables, in_front.family, in_front.rating, fault);
    const auto second = fuse_time(tables, behind.family, behind.rating, fault);
    if (!first || !second) return {};
    return second->at_most && *second->at_most < first->at_least;
}

JouleIntegral ramp_let_through(Current first, Current last, Duration time) {
    return (first * first + first * last + last * last) * time / 3.0;
}

JouleIntegral half_sine_let_through(Current peak, Duration time) { return peak * peak * time / 2.0; }

JouleIntegral exponential_let_through(Current peak, Duration time_constant) {
    return peak * peak * time_constant / 2.0;
}

std::optional<PulseEndurance> pulse_endurance(const Tables& tables, JouleIntegral pulse, int pulses) {
    const PulseShareRow* row = find_pulse_share(tables, pulses);
    if (!row) return {};
    return PulseEndurance{pulse, pulses, {row->share, row->source}, pulse / row->share};
}

}  // namespace voltwright
