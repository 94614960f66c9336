#pragma once

#include "voltwright/sizing/drop.hpp"
#include "voltwright/sizing/part_rating.hpp"
#include "voltwright/sizing/protection.hpp"
#include "voltwright/sizing/run_load.hpp"
#include "voltwright/sizing/warm_run.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace voltwright {

/// What a size can fail.
enum class Criterion {
    mechanical,
    terminal,
    lug,
    ampacity,
    part,
    fuse,
    clearing,
    withstand,
    delivery,
    drop,
    charger_input,
    price  ///< it would do, and a thicker one costs less: decides, and is no failing
};
std::string_view show(Criterion criterion);

/// One size, judged.
struct Candidate {
    Gauge size;
    Area area;
    std::vector<Criterion> fails = {};  ///< empty: it fits
    std::optional<Ampacity> ampacity = {};
    std::optional<ConductorTemperature> temperature = {};
    std::optional<DropCheck> drop = {};  ///< empty: the power cannot be delivered through so much resistance
    std::optional<RunResistance> cold =
        {};  ///< where there is no drop: what the power would have to go through, at 20 °C
    std::optional<LowestInput> lowest = {};      ///< chargers only
    Resistance cold_loop = {};                   ///< of this run alone, conductors at 20 °C
    Resistance hot_loop = {};                    ///< conductors at their insulation's rating, a body at its worst
    std::optional<FaultCurrent> far_fault = {};  ///< a dead short at the far end, copper cold, the battery as expected
    std::vector<PartRating> parts = {};          ///< of what sits in the run and has a rating of its own
    std::vector<FuseFit> fuses = {};             ///< one an end, where there is one that fits
    std::vector<FuseWindow> windows = {};        ///< one an end, whether or not a fuse fits
    std::vector<Protection> protection = {};     ///< one a fuse
    std::optional<Withstand> start =
        {};  ///< the worst starting current against the insulation's rating, no heat given off

    [[nodiscard]] bool fits() const { return fails.empty(); }
    /// Of the run with its normal current; cold where that cannot be brought.
    [[nodiscard]] const RunResistance& resistance() const { return drop ? drop->resistance : cold.value(); }
};

/// What a run asks: everything that does not depend on the size under judgement.
struct SizingProblem {
    const CableRun& run;
    const RunLoad& load;
    const Supply& supply;
    const Rules& rules;
    const Tables& tables;
    DesignCurrent design;
    bool next_made = false;  ///< a fuse may be the next one made above the ampacity: no other size does
};

/// Holds one size against every criterion.
Candidate judge(const SizingProblem& problem, Gauge size);

/// What a thin size fails before anything has to be solved: it is too weak, or its ampacity or a part in the run is too
/// little for the design current.
bool too_weak(const SizingProblem& problem, const Conductors& both);
bool carries(const SizingProblem& problem, const Conductors& both);
bool parts_carry(const SizingProblem& problem, const Conductors& both);

/// The thinner conductor of a run as a short finds it, after a current that lasted. Empty where nothing is known of how
/// hot its insulation may become.
std::optional<ShortedConductor> shorted_conductor(const CableRun& run, Area thinner,
                                                  const std::optional<Ampacity>& ampacity, const DesignCurrent& before,
                                                  const Tables& tables);

/// Throws std::logic_error for a size that is not in the tables.
WarmRun warm_run(const CableRun& run, const Candidate& candidate, const Rules& rules, const Tables& tables);

/// The same run with its conductors at these temperatures.
RunResistance resistance_of(const WarmRun& run, RunResistance resistance, WarmRun::Temperatures conductors);

/// Of the run's conductor in its hottest place; empty where no ampacity is known.
std::optional<ConductorTemperature> conductor_temperature(const CableRun& run, const Candidate& candidate,
                                                          Current current);

}  // namespace voltwright
