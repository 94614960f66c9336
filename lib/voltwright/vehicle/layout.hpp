#pragma once

#include "voltwright/tables/tables.hpp"
#include "voltwright/vehicle/told_runs.hpp"

#include <optional>
#include <string_view>
#include <vector>

/// What the runs of a vehicle ask of their cables and fuses, worked out from where they lead and what hangs on them.
namespace voltwright {

/// What may be lost on the way to a place, of 12 V.
struct DropLimits {
    Ratio feed, output, panel, essential, other;
};

/// A vehicle's equipment and its runs as told. A run is told by its index.
struct Layout {
    const Equipment& has;
    const DropLimits& limits;
    const std::vector<ToldRun>& runs;
    RunTree tree;
    const Tables& tables;
};

/// The run that leads to a place; empty where none does.
std::optional<std::size_t> run_to(const Layout& layout, const Place& place);
/// Where the way of a run begins.
const Place& source_of(const Layout& layout, std::size_t run);
/// Loads, fridges, inverter, charger and regulator that a run leads to, branch after branch.
std::vector<Place> consumers_behind(const Layout& layout, std::size_t run);

// ---- surroundings ------------------------------------------------------------------------------------------------------

/// How hot it is where something stands, or along a part of a way, for wiring alone: what lives in a battery parked there
/// follows the weather. `driving`: with the engine running, without the sun's standing heat.
WayPart surroundings_at(const Layout& layout, const Somewhere& where, Length length, bool driving);
/// Where what stands at a place stands. A junction or an inverter stands where the run to it ends; where nobody said that,
/// as its source does.
const Somewhere& where_is(const Layout& layout, const Place& place);
/// The parts of a run's way: as described, or half of it as at its beginning and half as at its end.
std::vector<WayPart> way_of(const Layout& layout, std::size_t run, bool driving);

// ---- what it carries ---------------------------------------------------------------------------------------------------

/// What hangs on a run. Of a trunk: everything behind it that can be on together, at the minute of the day at which that is
/// most; duty never lowers it.
RunLoad load_of(const Layout& layout, std::size_t run);
/// The voltages at its source, and what may be lost: of all places behind a run the least, as more than that is too much in
/// any one run of the way.
Supply supply_of(const Layout& layout, std::size_t run);
/// Starting currents through a run: behind a trunk what one thing draws on starting, and what all else draws that can be on
/// then.
std::vector<ShortCurrent> starting_of(const Layout& layout, std::size_t run);
/// The largest fuse of those motors behind a trunk whose start is not known: each gets the largest that it allows.
std::optional<Current> motor_fuse_behind(const Layout& layout, std::size_t run);
/// Whether something essential hangs on it; what the charger needs is.
bool essential(const Layout& layout, std::size_t run);

// ---- where its fuse sits -----------------------------------------------------------------------------------------------

/// A fuse is due at every end from which a source can feed the run. A charger works one way, so the run from it to the
/// battery is fed, in a fault, by the battery alone.
FuseEnd fused_end(const Layout& layout, std::size_t run, bool driving);

/// A fuse as the tables name it.
FuseOfRating fuse_of(const FuseChoice& choice, const Tables& tables);

}  // namespace voltwright
