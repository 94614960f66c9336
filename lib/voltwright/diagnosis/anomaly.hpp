#pragma once

#include "voltwright/units/measure.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace voltwright {

/// One of the two batteries.
enum class Battery { starter, house };

/// A way through which no current comes, as far as it is known.
struct OpenWay {
    bool out, back;        ///< on which side the break may lie
    std::string run = {};  ///< in which it lies; empty: in one of several between two places
    std::string from = {}, to = {};
};

/// What a reading tells by itself, before anything is estimated.
struct Anomaly {
    /// The gravest first.
    enum class Kind {
        poles_swapped,       ///< plus and minus are swapped at a place, or the meter's leads were
        other_voltage,       ///< twice the volts of a 12 V system: a 24 V vehicle
        open_circuit,        ///< no way through between two points
        nothing_arrives,     ///< a place is dead: a fuse out, a plug open, a break
        nothing_flows,       ///< a load is on and takes nothing
        cannot_carry,        ///< a run loses more volts under load than it may
        overcharged,         ///< a battery has more volts than what charges it may give
        not_charged,         ///< the engine runs and its battery is not charged
        charger_awake,       ///< the engine is off and the charger takes current
        charger_idle,        ///< the engine runs and the charger does nothing
        low_battery,         ///< too low at rest for a test
        beyond_limit,        ///< past the limit of the test plan
        unexpected_current,  ///< something flows there where nothing is on
        impossible,          ///< more volts than any 12 V system has: read or noted wrongly
        low_charging,        ///< the alternator charges, with less than it gives when cool and free
        leads_swapped,       ///< a drop below zero: taken without its sign
        no_current,          ///< nothing flows there in this condition, so the reading tells nothing of joints
        not_understood,      ///< no voltage or current stands beside it, or its leads are on circuits of two batteries
    };
    Kind kind;
    std::size_t measurement;               ///< the number of the one that tells of it, from 0
    std::string run = {};                  ///< that it concerns
    std::vector<std::string> places = {};  ///< where the leads were: one place, or of each lead its own
    std::optional<Battery> battery = {};   ///< that it concerns
    std::optional<Measure> found = {};
    std::optional<OpenWay> way = {};         ///< of `open_circuit`
    std::vector<std::string> elements = {};  ///< of which one is open, the likeliest first
    bool fuse = false;                       ///< and the first of them is a fuse
    std::vector<std::string> leads = {};     ///< of `beyond_limit`, as the profile names them

    // Of `beyond_limit` and `cannot_carry`; of `charger_idle`, `limit` is what the feed may lose to a lamp of `lamp_test`.
    std::optional<Measure> limit = {};  ///< that it passes
    std::optional<Current> at = {};     ///< that flows when it is as it should be
    std::optional<Current> flows = {};  ///< that was read to flow
    bool above = true;                  ///< it passes it upwards
    bool gives_up = false;              ///< of `cannot_carry`: what hangs there has too little to run on
    bool drop = false;                  ///< of `beyond_limit`: volts lost between the leads
    bool nothing_on = false;            ///< of `beyond_limit`: a current with everything there off
    bool charging = false;              ///< of `beyond_limit`: while the charger works
    bool source_known = false;          ///< of `beyond_limit` at a place: its battery was read at the same time
    bool explained = false;             ///< a fault that was found says why

    /// A page with such a one never says that nothing is wrong.
    [[nodiscard]] bool grave() const { return kind <= Kind::impossible; }
};

/// A lamp that shows what a feed carries: a headlamp bulb, category H7 of UN Regulation 37, 12 V and 55 W (from memory).
inline constexpr Power lamp_test = watts(55);

}  // namespace voltwright
