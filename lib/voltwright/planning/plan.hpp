#pragma once

#include "voltwright/planning/network_figures.hpp"
#include "voltwright/planning/night.hpp"
#include "voltwright/planning/objective.hpp"
#include "voltwright/reasons/finding.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/units/money.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// What may be lost at most from the source to the end of a run that shares its way with others, with everything on
/// that can be on together: for judging the run. What a meter would show are its NetworkFigures.
struct WayDrop {
    Voltage lost;
    Voltage allowed;
    std::optional<Voltage> far_end;  ///< at its lowest while it is on, as the whole network settles
    bool collapses;                  ///< at some time so much power cannot be brought at all
};

/// A run with the cable and the fuses that it gets, or that it has.
struct RunPlan {
    SystemRun task;
    Choice choice;
    std::optional<WayDrop> way = {};               ///< where it shares a way
    std::optional<NetworkFigures> figures = {};    ///< what is reported of it; empty where its power cannot be brought
    std::vector<std::optional<Money>> costs = {};  ///< of its cable and lugs, by size; empty: no price list
    bool for_money = false;                        ///< the least money decides, not the least copper

    /// The candidate that the plan goes with, or where no size fits the one that fails least; nullptr when the run is
    /// not sized.
    [[nodiscard]] const Candidate* taken() const { return choice.chosen(); }
    /// What can be bought and laid: nullptr as well when no size fits.
    [[nodiscard]] const Candidate* to_lay() const { return choice.nothing_fits() ? nullptr : taken(); }
    [[nodiscard]] bool sized() const { return task.role != RunRole::solar; }
};

/// The trunk that a run hangs on; nullptr for one that begins at a source.
const RunPlan* trunk_before(const RunPlan& run, const std::vector<RunPlan>& runs);

/// A run whose cable or fuse is another one with cable of another class.
struct OtherCable {
    std::string run;
    std::optional<Gauge> size;        ///< empty: no size passes, or the given one does not
    std::vector<FuseFit> fuses = {};  ///< with that size
    bool other_fuse = false;          ///< than with the class that the plan counts with
};

/// What becomes of the plan with cable of a lower temperature class: the cables that are still to be bought are chosen
/// again with it, all of them at once.
struct OtherClass {
    Temperature insulation;
    std::vector<OtherCable> runs = {};  ///< empty: it would do as well
};

/// The whole answer: every number holds what it was made from.
struct Plan {
    std::string title;
    std::vector<RunPlan> runs;
    Night night;                                 ///< the energy half: how long it runs, and whether the trip holds
    Findings findings;                           ///< stops first, then warns, then notes
    std::optional<OtherClass> other_class = {};  ///< empty: no sound run has cable of a higher class to buy
    std::vector<std::string> not_judged;         ///< what this version does not look at, in plain words
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

/// How long everything runs with the engine off, through the cables that the plan would choose. Empty when the state of
/// charge cannot be told from a voltage: lithium.
std::optional<AutonomyAnswer> autonomy_of(const System& system, const AutonomyQuestion& question,
                                          const Tables& tables = built_in_tables());

/// The runs with the resistance of what was chosen for them; where nothing fits, of what fails least.
/// They point to the plans of the runs, which have to outlive them: of a temporary there are none.
std::vector<LaidRun> laid_runs(const std::vector<RunPlan>& runs);
std::vector<LaidRun> laid_runs(const std::vector<RunPlan>&& runs) = delete;

}  // namespace voltwright
