#pragma once

#include "voltwright/planning/network_figures.hpp"
#include "voltwright/simulation/relay_link.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/units/money.hpp"
#include "voltwright/vehicle/system.hpp"

#include <cstddef>
#include <optional>
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
    std::optional<LinkFlow> link = {};             ///< of the two runs of a relay's link
    std::vector<std::optional<Money>> costs = {};  ///< of its cable and lugs, by size; empty: nothing has a price
    bool for_money = false;                        ///< the least money decides, not the least copper

    /// The candidate that the plan goes with, or where no size fits the one that fails least; nullptr when the run is
    /// not sized.
    [[nodiscard]] const Candidate* taken() const { return choice.chosen(); }
    /// What can be bought and laid: nullptr as well when no size fits.
    [[nodiscard]] const Candidate* to_lay() const { return choice.nothing_fits() ? nullptr : taken(); }
};

/// The run that another one hangs on; nullptr for one that begins at a source.
const RunPlan* run_before(const std::vector<RunPlan>& runs, const RunTree& tree, std::size_t run);

/// Whether what a run leads to can be on at a minute of the day.
bool is_on(const SystemRun& run, int minute);

/// Midnight and the minutes of the day at which something behind these runs may be switched on, in order.
std::vector<int> minutes_of_change(const std::vector<const SystemRun*>& runs);

}  // namespace voltwright
