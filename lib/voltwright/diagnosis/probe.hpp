#pragma once

#include "voltwright/diagnosis/circuit_model.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace voltwright {

/// Where the two leads of a voltmeter are, or around what the clamp is.
struct Probe {
    struct Point {
        enum class At { starter, house, output, branch };
        At at;
        std::size_t branch;  ///< of `branch`: its far end
        bool plus;

        /// The same place, whichever pole.
        [[nodiscard]] bool same_place(const Point& other) const { return at == other.at && branch == other.branch; }
        friend bool operator==(const Point&, const Point&) = default;
    };
    struct Between {
        Point red, black;
    };
    struct Over {
        std::size_t element;
    };
    struct Through {
        std::size_t branch;
    };
    std::variant<Between, Over, Through> what;

    [[nodiscard]] bool clamp() const { return std::holds_alternative<Through>(what); }
    /// Both leads on conductors of one polarity, or at the two ends of one thing: a drop, whatever the order of the leads.
    [[nodiscard]] bool drop() const;
};

/// The same thing measured, whichever lead is red.
bool same_probe(const Probe& a, const Probe& b);

/// The probe of `across` or `through`, as the profile names it; empty for what this vehicle does not have, or where the two
/// leads would be on circuits of two different batteries.
std::optional<Probe> probe_across(const CircuitModel& model, const std::vector<std::string>& across);
std::optional<Probe> probe_through(const CircuitModel& model, std::string_view run);

/// As the profile names it: two points, one place or element for its two ends, or a run.
std::vector<std::string> names_of(const CircuitModel& model, const Probe& probe);

/// "starter", "battery", "charger output", or the far end of a branch.
std::string place_name(const CircuitModel& model, const Probe::Point& point);

/// Where the two leads of a voltmeter are: one place, or of each lead its own.
std::vector<std::string> places_of(const CircuitModel& model, const Probe& probe);

/// The run that a probe measures: the furthest of those that its leads are on; empty for a battery's own posts.
std::optional<std::size_t> measured_branch(const CircuitModel& model, const Probe& probe);

}  // namespace voltwright
