#pragma once

#include "voltwright/planning/assumptions/assumption.hpp"
#include "voltwright/planning/bank_links.hpp"
#include "voltwright/planning/energy_plan.hpp"
#include "voltwright/planning/findings/finding.hpp"
#include "voltwright/planning/objective.hpp"
#include "voltwright/planning/other_class.hpp"
#include "voltwright/planning/run_plan.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/units/money.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// What a plan may leave unjudged.
enum class NotJudged {
    starts_not_given,  ///< motors whose starting current the profile does not give
    post_fuse_times,   ///< how soon fuses without known times clear
};

/// The whole answer: every number holds what it was made from.
struct Plan {
    std::string title;
    std::vector<RunPlan> runs;
    EnergyPlan energy;                           ///< the energy half: how long it runs, and whether the trip holds
    Findings findings;                           ///< stops first, then warns, then notes
    Assumptions assumptions = {};                ///< what it rests on where nothing is to be done
    std::optional<OtherClass> other_class = {};  ///< empty: no sound run has cable of a higher class to buy
    std::optional<BankLinks> bank = {};          ///< between its batteries; empty: there is one
    std::vector<NotJudged> not_judged;           ///< what this version does not look at
    std::string currency = {};                   ///< of the costs; empty: no prices were given
    int decimals = 2;                            ///< of the currency

    /// A plan with a stop does not hold.
    [[nodiscard]] bool holds() const;
    /// Names of the runs that the profile does not describe.
    [[nodiscard]] std::vector<std::string> assumed() const;
};

/// What a plan keeps beside its answer, and for what its cables are chosen.
struct PlanDetail {
    bool timeline = false;                    ///< of the trip
    Ladder ladders = Ladder::whole;           ///< of each run; with an objective all are whole
    std::optional<Objective> objective = {};  ///< empty: the least copper
};

Plan make_plan(const System& system, const Tables& tables = built_in_tables(), PlanDetail detail = {});

/// Of a plan's findings those that are about the trip or the hours with the engine off.
Findings energy_findings(const Findings& all);

/// How long everything runs with the engine off, through the cables that the plan would choose. Empty when the state of
/// charge cannot be told from a voltage: lithium.
std::optional<AutonomyAnswer> autonomy_of(const System& system, const AutonomyQuestion& question,
                                          const Tables& tables = built_in_tables());

/// Names of the places that the runs beginning at the end of this one lead to.
std::vector<std::string> served_by(const Plan& plan, const RunPlan& run);

/// The runs with the resistance of what was chosen for them; where nothing fits, of what fails least.
std::vector<LaidRun> laid_runs(const std::vector<RunPlan>& runs);

}  // namespace voltwright
