#pragma once

#include "voltwright/circuit/network.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/vehicle/elements.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

/// The vehicle as a meter sees it: every joint and cable by itself, with what it should have.
namespace voltwright {

/// An element with its resistance: as it should be, and how far it may be from that (one standard deviation).
struct RigElement {
    Element element;
    std::size_t section;
    Resistance expected;
    Resistance deviation;
};

/// A run of the plan.
struct RigSection {
    std::string run;
    std::size_t plan_run;  ///< among the plan's
    RunRole role;
    std::string near, far;            ///< points, without the pole
    bool by_starter;                  ///< fed by the starter battery; the others by the house battery
    std::optional<std::size_t> from;  ///< the section at whose far end it begins; empty: at its battery
    std::vector<std::size_t> elements;
};

/// A load, and where it hangs.
struct RigLoad {
    std::string name;
    std::size_t section;
    LoadLaw draw;
};

/// The runs with a cable, each made of its elements.
struct Rig {
    std::vector<RigElement> elements;
    std::vector<RigSection> sections;  ///< each behind the one that it begins at
    std::vector<RigLoad> loads;
    std::optional<std::size_t> feed, output;
    Current charger_output{};
    Ratio charger_efficiency = percent(100);
    Voltage charger_input_off = volts(12.7);
    std::optional<Current> charger_input_limit = {};
    std::optional<std::pair<std::size_t, Power>> inverter = {};  ///< its section, and what it takes by itself

    [[nodiscard]] std::optional<std::size_t> section_of(std::string_view run) const;
    [[nodiscard]] std::optional<std::size_t> element_of(std::string_view name) const;
};

Rig rig_of(const System& system, const Plan& plan, const Tables& tables);

/// What the house battery shows at rest, somewhat used as engine-off tests find it: at 70 % (common practice, no source).
Voltage rested_house(const System& system, const Tables& tables);
/// The starter battery at rest and well charged; and what the house battery shows while it takes all that the charger
/// gives (common practice, no source).
inline constexpr Voltage rested_starter = volts(12.6);
inline constexpr Voltage charging_house = volts(13.6);

/// What is going on while something is measured.
struct RigState {
    Engine engine = Engine::off;
    std::vector<std::string> with = {};  ///< loads that are on
    bool charger_off = false;            ///< switched off while the engine runs

    /// The alternator charges the starter battery.
    [[nodiscard]] bool charging() const { return engine != Engine::off; }
    /// And the charger the house battery.
    [[nodiscard]] bool charger_runs() const { return charging() && !charger_off; }
    friend bool operator==(const RigState&, const RigState&) = default;
};

/// What the batteries and the loads do then.
struct RigSupply {
    Voltage starter, house;     ///< at the posts
    Current charge;             ///< out of the charger
    std::vector<double> draws;  ///< of each load, as a share of what the profile says
    double losses = 1.0;        ///< what the charger takes in, as a share of what its efficiency says
};

/// What is usual then: batteries rested or being charged, the alternator at its least when it idles, all loads as the profile
/// says.
RigSupply usual_supply(const Rig& rig, const RigState& state, const System& system, const Tables& tables);

/// Potentials at the far end of each section against the negative post of its battery, and the current through it.
struct RigFlow {
    std::vector<Voltage> plus, minus;
    std::vector<Current> current;           ///< away from the battery; through the run from the charger, towards it
    Voltage output_plus{}, output_minus{};  ///< at the charger's output
    Voltage starter{}, house{};
};

/// Resistances are those of `rig.elements`, in their order. Empty when the loads cannot be fed, and for batteries without a
/// voltage.
std::optional<RigFlow> flow(const Rig& rig, const RigState& state, const RigSupply& supply,
                            std::span<const Resistance> resistances);

/// Where the two leads of a voltmeter are, or around what the clamp is.
struct Probe {
    struct Point {
        enum class At { starter, house, output, section };
        At at;
        std::size_t section;  ///< of `section`: its far end
        bool plus;
    };
    struct Between {
        Point red, black;
    };
    struct Over {
        std::size_t element;
    };
    struct Through {
        std::size_t section;
    };
    std::variant<Between, Over, Through> what;

    [[nodiscard]] bool clamp() const { return std::holds_alternative<Through>(what); }
    /// Both leads on conductors of one polarity, or at the two ends of one thing: a drop, whatever the order of the leads.
    [[nodiscard]] bool drop() const;
};

/// The probe of `across` or `through`, as the profile names it; empty for what this rig does not have, or where the two
/// leads would be on circuits of two different batteries.
std::optional<Probe> probe_across(const Rig& rig, const std::vector<std::string>& across);
std::optional<Probe> probe_through(const Rig& rig, std::string_view run);

/// As the profile names it: two points, one place or element for its two ends, or a run.
std::vector<std::string> names_of(const Rig& rig, const Probe& probe);

/// What a meter without an error shows, in volts or amperes.
double shown(const Rig& rig, const Probe& probe, const RigFlow& flow, std::span<const Resistance> resistances);

}  // namespace voltwright
