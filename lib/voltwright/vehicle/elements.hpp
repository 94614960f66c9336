#pragma once

#include "voltwright/profile/probe_point.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What the current of a run goes through, thing by thing, and what a meter's leads can touch.
namespace voltwright {

/// The way out, or the way back.
enum class Side { out, back };

/// One thing in the way of a run's current.
struct Element {
    enum class Kind { lug, fuse, joint, cable, body };
    Kind kind;
    Side side;
    std::string name;                         ///< unlike any other in the vehicle: "feed lug at charger +"
    std::string joint;                        ///< its name in the joint table; empty for cable, fuse and body
    double share = 1.0;                       ///< of the joint's resistance: half for each pole of a plug
    std::optional<Place> at = {};             ///< where a fuse sits
    std::optional<Resistance> measured = {};  ///< a joint whose resistance the profile gives
};

/// Out from the near end to the far one, then back. Where in a run a joint sits is not in the profile: battery clamps are
/// taken to be on a battery, lugs on the ends that are left, fuses at the end that they protect, switches and relays in the
/// way out behind the fuse, both poles of a plug towards the far end.
std::vector<Element> elements_of(const SystemRun& run);

/// Where the leads of a meter go at the two ends of a run, without the pole: "starter", "charger". The charger has two
/// pairs of terminals: "charger" is where its feed ends, "charger output" where the run to the battery begins; of a relay so too.
std::string near_point(const SystemRun& run);
std::string far_point(const SystemRun& run);

/// Everything that `across` may name: the places of the runs ("charger": both its poles), each pole ("charger +"), and each
/// element ("feed lug at charger +": both its ends).
std::vector<std::string> probe_points(const std::vector<SystemRun>& runs);

}  // namespace voltwright
