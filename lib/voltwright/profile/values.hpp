#pragma once

#include "voltwright/units/gauge.hpp"
#include "voltwright/units/quantities.hpp"
#include "voltwright/units/spread.hpp"

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace voltwright {

// The values that a profile is made of, beside plain quantities. How each is written stands in profile/formats/.

enum class Chemistry { flooded, agm, gel, lfp };
enum class Alternator { plain, smart };
/// What charges the house battery from the alternator: a DC-DC charger, a relay that joins the two batteries, or nothing.
enum class Coupling { dc_dc, relay, none };
enum class Wake { voltage, ignition };
enum class Regulator { mppt, pwm };
enum class AmpacityBasis { us_33_cfr_183, iso_13297 };
enum class Engine { off, idling, driving };
enum class ChargerSwitch { on, off };

/// A time of day, local sun time.
struct ClockTime {
    int minutes = 0;  ///< since midnight, 0 … 1440
    friend constexpr bool operator==(const ClockTime&, const ClockTime&) = default;
};

/// "18:30-22:00". A window that ends before it begins runs over midnight; drives may not.
struct ClockWindow {
    ClockTime from, to;
    friend constexpr bool operator==(const ClockWindow&, const ClockWindow&) = default;

    /// From its first minute on, its last not counted.
    [[nodiscard]] constexpr bool holds(double minute) const {
        const bool after = minute >= from.minutes, before = minute < to.minutes;
        return from.minutes <= to.minutes ? after && before : after || before;
    }
};

struct CalendarDate {
    int year, month, day;
    friend constexpr bool operator==(const CalendarDate&, const CalendarDate&) = default;
};

/// Days of the trip, counted from 1: "2-4", or a list.
struct TripDays {
    std::vector<int> days;
    friend bool operator==(const TripDays&, const TripDays&) = default;
};

/// A temperature of its own, or a place of the surroundings table.
using Somewhere = std::variant<Spread<Temperature>, std::string>;

/// A part of a run's way.
struct WaySection {
    Somewhere place;
    Spread<Length> length;
    friend bool operator==(const WaySection&, const WaySection&) = default;
};

/// Where a run goes: one place, or one after the other.
using Way = std::variant<Somewhere, std::vector<WaySection>>;

struct ByCable {
    friend constexpr bool operator==(const ByCable&, const ByCable&) = default;
};
struct ByBody {
    bool frame = false;  ///< a bolted tub or ladder frame, not one welded body
    friend constexpr bool operator==(const ByBody&, const ByBody&) = default;
};
/// How a run's current comes back: by a cable, by the vehicle's body, or by something whose resistance was measured.
using ReturnPath = std::variant<ByCable, ByBody, Spread<Resistance>>;

/// "105 degC", "105 degC xlpe".
struct Insulation {
    Temperature rating;
    std::string material;  ///< `pvc`, `xlpe`, `rubber`, `silicone`; empty when not said
    friend bool operator==(const Insulation&, const Insulation&) = default;
};

/// A joint by its name in the joint table, or by its measured resistance.
using JointChoice = std::variant<std::string, Spread<Resistance>>;

/// "50 A SF30", as typed; the family is looked up in the tables.
struct FuseChoice {
    Spread<Current> rating;
    std::string family;
    friend bool operator==(const FuseChoice&, const FuseChoice&) = default;
};
/// Fuses that are given: one at the end where it is due, or by the name of the end; nothing for "none".
struct GivenFuses {
    std::vector<std::pair<std::string, std::optional<FuseChoice>>> at;  ///< an empty name: wherever one is due
    friend bool operator==(const GivenFuses&, const GivenFuses&) = default;
};

/// The fuse on a battery's post for the small branches there; nothing for "none".
struct PostFuse {
    std::optional<FuseChoice> fuse;
    friend bool operator==(const PostFuse&, const PostFuse&) = default;
};

/// What of a run is there already: it is judged, and not bought.
enum class Have { cable, fuse, cable_and_fuse, nothing };
constexpr bool has_cable(Have have) { return have == Have::cable || have == Have::cable_and_fuse; }
constexpr bool has_fuse(Have have) { return have == Have::fuse || have == Have::cable_and_fuse; }

/// The thread of a terminal: "M8", "8 mm", "5/16 in".
struct Stud {
    Length diameter;
    friend constexpr bool operator==(const Stud&, const Stud&) = default;
};

enum class SizeSeries { awg, metric };
/// What the shop has: a usual series, or a list.
using SizesChoice = std::variant<SizeSeries, std::vector<Gauge>>;

/// What a load draws while it runs: constant power, constant current, or a resistance.
using Draw = std::variant<Spread<Power>, Spread<Current>, Spread<Resistance>>;

/// How true a meter is: a share of the reading and a fixed part, "0.5 % + 20 mV".
template <class Q>
struct Accuracy {
    Ratio share;
    Q fixed;
    friend constexpr bool operator==(const Accuracy&, const Accuracy&) = default;
};

/// What a fridge takes in a day: ampere-hours, or watt-hours.
using DailyUse = std::variant<Spread<Charge>, Spread<Energy>>;

}  // namespace voltwright
