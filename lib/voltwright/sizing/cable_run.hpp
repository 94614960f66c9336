#pragma once

#include "voltwright/circuit/run.hpp"
#include "voltwright/energy/charger.hpp"
#include "voltwright/sizing/fuse.hpp"
#include "voltwright/sizing/needed.hpp"
#include "voltwright/sizing/part_rating.hpp"
#include "voltwright/tables/tables.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace voltwright {

/// A part of a run's way, and how hot it is there while the run carries current.
struct WayPart {
    std::string place;  ///< "engine bay", or "31 degC"
    Length length;
    Temperature around;
};

/// Something in a run beside cable and fuse: a name of the joint table, or a measured resistance.
struct Joint {
    std::string name;
    std::optional<Resistance> measured;
    std::optional<Current> rating = {};  ///< printed on this one, where its row has none
};

/// The body as return, as measured or from its table.
struct BodyReturn {
    Cited<Resistance> resistance;
    bool measured;
    std::optional<Resistance> high = {};  ///< of one that nobody measured: the most that it may be
};

/// What lies between the source and the beginning of a run: the runs before it.
struct Upstream {
    Resistance cold{};  ///< at 20 °C, batteries and parts as they usually are
    Resistance hot{};   ///< conductors at their rated temperature, a body return at its worst
    Current breaks{};   ///< what the fuses of those runs interrupt at the most; none: nothing is known of them
};

/// What is fed through the far end of a run with no fuse in between: the other half of a link between two batteries.
struct Downstream {
    Resistance hot{};  ///< its loop, as Upstream::hot
    std::optional<Area> thinnest = {};
};

/// A fuse that somebody gave for a run.
struct GivenFuse {
    std::optional<Place> at;           ///< empty: wherever one is due
    std::optional<FuseOfRating> fuse;  ///< empty: there is to be none
};

/// One cable route to a place, out and back.
struct CableRun {
    Needed<std::string> name;
    Needed<Length> length;          ///< one way
    std::vector<WayPart> way = {};  ///< empty: all of it at `around`
    Temperature around = celsius(30);
    Temperature insulation = celsius(105);
    std::string insulation_material = {};  ///< `pvc`, `xlpe` …; empty when only the rating is known
    int loaded_in_bundle = 2;
    std::optional<BodyReturn> body = {};            ///< empty: a cable back
    std::optional<Gauge> return_size = {};          ///< of the cable back; empty: the same as out
    std::optional<std::vector<Joint>> joints = {};  ///< empty: two lugs at each end, one with a body return
    std::vector<FuseEnd> fused_at = {};             ///< every end from which a source can feed it
    std::optional<Current> source_limit = {};       ///< of a source that gives no more into a short: no fuse is due
    std::vector<GivenFuse> given_fuses = {};
    std::optional<Gauge> given = {};    ///< a size that is judged, not chosen
    bool have_cable = false;            ///< a cable of that size is there already: not bought
    bool have_fuse = false;             ///< so are the given fuses
    std::optional<Area> at_least = {};  ///< thinner sizes are known not to do, and are not judged
    std::optional<Area> terminal = {};  ///< the largest conductor that the far end takes
    std::vector<Length> studs = {};     ///< at its ends, where they are known: a lug has to go on each
    Upstream upstream = {};
    Downstream downstream = {};
    bool short_time =
        false;  ///< its load stops before a conductor that may carry it is hotter than its insulation's rating
    std::vector<ShortCurrent> starting = {};  ///< of each thing that it leads to, all else that is on with it
    bool to_one_appliance = false;            ///< a load or a fridge: its fuse protects what hangs on it too
    bool on_post = false;  ///< its fuse sits on a battery's post and breaks what a blade there could not
    std::optional<Current> motor_fuse = {};  ///< the largest that a motor behind other runs allows, its start not known
};

/// The fuse that is given for an end; nullptr where none is.
const FuseOfRating* given_fuse(const CableRun& run, const FuseEnd& end);

/// Whether an end from which a source feeds the run is left without a fuse: "none" is given for it, or the fuse that is
/// given sits at another end. There it interrupts nothing that this end feeds: 33 CFR 183.455(b) wants it at the source.
bool left_bare(const CableRun& run, const FuseEnd& end);

/// The fuses that are given for ends from which no source feeds the run: they protect nothing of it.
std::vector<std::pair<Place, FuseOfRating>> fuses_elsewhere(const CableRun& run);

/// What feeds the run, and what may be lost on the way.
struct Supply {
    Needed<Voltage> normal;    ///< at which the drop is judged
    Needed<Voltage> lowest;    ///< at which a charger must keep working
    Needed<Ratio> drop_limit;  ///< of 12 V
};

/// Of its way the hottest part: what ampacity goes by.
Temperature hottest_surroundings(const CableRun& run);
/// Averaged by length: what the resistance feels.
Temperature average_surroundings(const CableRun& run);

/// What sits in a run whose conductors have this area, equal things counted together.
std::vector<JointResistance> joints_of(const CableRun& run, Area area, const Tables& tables);

/// What one of them may carry: by its row, or as it is printed on this one; empty where neither says.
std::optional<PartRating> part_rating(const Joint& joint, const JointRow& row, Area area, Temperature around);

/// What the parts in a run may carry, each named once.
std::vector<PartRating> part_ratings(const CableRun& run, Area area, const Tables& tables);

}  // namespace voltwright
