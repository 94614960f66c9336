#include "voltwright/circuit/fuse_time.hpp"

#include <cmath>

namespace voltwright {

namespace {

/// One of the two limits of a family, as points of multiple and time.
struct Limit {
    const Tables& tables;
    std::string_view family;
    bool most;  ///< the latest, or the soonest

    [[nodiscard]] std::optional<Duration> time_of(const TimeLimitRow& row) const {
        return most ? row.at_most : std::optional(row.at_least);
    }

    template <class Use>
    void each(Use use) const {
        for (const TimeLimitRow& row : tables.time_limits)
            if (row.family == family)
                if (const auto time = time_of(row)) use(row.multiple, *time);
    }

    /// Empty below the first point.
    [[nodiscard]] std::optional<Duration> at(Ratio multiple) const {
        std::optional<Duration> found;
        Ratio m_before{};
        Duration t_before{};
        bool any = false, beyond = true;
        each([&](Ratio m, Duration t) {
            if (any && beyond && multiple <= m) {
                beyond = false;
                if (multiple >= m_before) found = between(m_before, t_before, m, t, multiple);
            } else if (!any && multiple <= m) {
                beyond = false;
                if (multiple == m) found = t;
            }
            any = true;
            m_before = m;
            t_before = t;
        });
        if (any && beyond) found = t_before * (m_before / multiple) * (m_before / multiple);
        return found;
    }

    static Duration between(Ratio m_1, Duration t_1, Ratio m_2, Duration t_2, Ratio m) {
        const double slope = std::log(t_2 / t_1) / std::log(double(m_2 / m_1));
        return t_1 * std::pow(double(m / m_1), slope);
    }

    /// The least multiple at which the time is within this.
    [[nodiscard]] std::optional<Ratio> within(Duration time) const {
        std::optional<Ratio> found, m_before;
        Duration t_before{};
        each([&](Ratio m, Duration t) {
            if (!found && t <= time) {
                found = m;
                if (m_before && t < t_before) {
                    const double slope = std::log(double(m / *m_before)) / std::log(t / t_before);
                    found = *m_before * std::pow(double(time / t_before), slope);
                }
            }
            m_before = m;
            t_before = t;
        });
        if (!found && m_before) found = *m_before * std::sqrt(double(t_before / time));
        return found;
    }
};

}  // namespace

std::optional<FuseTime> fuse_time(const Tables& tables, std::string_view family, Current rating, Current current) {
    const Ratio multiple = current / rating;
    const Limit soonest{tables, family, false};
    std::optional<Duration> first;
    soonest.each([&](Ratio, Duration t) { first = first.value_or(t); });
    if (!first) return {};
    return FuseTime{soonest.at(multiple).value_or(*first), Limit{tables, family, true}.at(multiple)};
}

std::optional<Current> surely_clears(const Tables& tables, std::string_view family, Current rating, Duration within) {
    const auto multiple = Limit{tables, family, true}.within(within);
    if (!multiple) return {};
    return *multiple * rating;
}

std::optional<JouleIntegral> let_through(const Tables& tables, std::string_view family, Current rating,
                                         Current current) {
    const auto time = fuse_time(tables, family, rating, current);
    if (!time || !time->at_most) return {};
    return current * current * *time->at_most;
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

}  // namespace voltwright
