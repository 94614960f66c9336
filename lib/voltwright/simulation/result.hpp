#pragma once

#include "voltwright/simulation/ledger.hpp"
#include "voltwright/simulation/scenario.hpp"
#include "voltwright/units/clock.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

struct SimulationOptions {
    bool points = false;            ///< keep the timeline
    bool stop_at_limit = false;     ///< end at the depth limit, the first essential cut-off or a depleted battery
    bool stop_when_filled = false;  ///< end at the last of told_fillings
    std::optional<Ratio> start_soc = {};
    CutOffSetting cut_off = CutOffSetting::standard;
    std::optional<Duration> until = {};  ///< since the first midnight: end there, within an interval or not
};

struct DayTotals {
    int day;
    Charge used, charged;
    Ratio lowest, end, highest;  ///< state of charge
};

/// The states of charge of which it is told how long they take: the last tenth of lead takes as long as the rest.
inline constexpr std::array<double, 3> told_fillings = {0.80, 0.90, 0.95};
/// From the beginning until the battery first holds each of them; empty: it never did.
using FillingTimes = std::array<std::optional<Duration>, told_fillings.size()>;

/// What became of one consumer.
struct ConsumerResult {
    std::string name;
    bool essential;
    Charge used = {};
    Duration off = {};     ///< wanted, but switched off by its cut-off or by a depleted battery
    Energy unserved = {};  ///< what it would have taken in that time
    int cut_offs = 0;      ///< how often its cut-off acted
    std::optional<Moment> first_off = {};
    bool by_its_cut_off = false;  ///< then; else the battery was depleted
    /// What a fridge's compressor had not yet taken out at the end, as the energy that it takes for that. A fridge that is
    /// off for days in truth warms only to what surrounds it, and owes less.
    Energy owed = {};
};

/// One moment of the timeline.
struct TimelinePoint {
    Duration at;
    Ratio soc;
    Voltage terminals;
    Current battery;  ///< into it
    Current source;
    bool driving;
    Temperature air, battery_temperature;
};

enum class EndedBy { trip, depth_limit, cut_off, depleted };
std::string_view show(EndedBy by);

/// When a trip fails for the first time, and by what: each event is one that ends the autonomy too.
struct FirstFailure {
    EndedBy by;        ///< the depth limit, an essential appliance's cut-off, or a depleted battery
    std::string name;  ///< of the appliance that is off then; empty for the depth limit
    Moment at;
};

/// The moment at which a battery was nearest to freezing.
struct NearFreezing {
    Temperature battery, freezes;
    Ratio soc;
    Moment at;

    [[nodiscard]] TemperatureRise margin() const { return battery - freezes; }
};

/// A trip simulated.
struct TripResult {
    Ledger ledger;
    Ratio start, lowest, end;  ///< state of charge
    Moment lowest_at;
    std::optional<Moment> below_limit;  ///< when the depth limit was first passed
    Ratio deepest_allowed;              ///< state of charge at the depth limit, at that moment or at the lowest one
    Temperature limit_at;               ///< of the battery, then
    std::vector<DayTotals> days;
    std::vector<ConsumerResult> served;
    std::vector<TimelinePoint> points;  ///< when asked for
    Duration driven, refused;   ///< with the engine on; of that, lithium too cold to take charge, or being warmed
    Charge kept_while_driving;  ///< net into the battery while the engine ran
    Ratio highest_after_start;  ///< fullest state that charging reached
    FillingTimes filled;
    Voltage highest_target;                     ///< most that a charger or regulator would hold, while one gives
    std::optional<NearFreezing> near_freezing;  ///< lead alone
    Duration lasted;
    EndedBy ended_by;
    std::string ended_name;  ///< of the consumer that cut off

    /// Hours that essential consumers were off.
    [[nodiscard]] Duration essential_off() const;
    /// Nothing essential was off and the depth limit was kept.
    [[nodiscard]] bool holds() const;
    /// Empty when it holds.
    [[nodiscard]] std::optional<FirstFailure> first_failure() const;
};

/// Whether the first is worse to live with: it does not hold, essential loads are off for longer, or it goes lower.
bool worse(const TripResult& a, const TripResult& b);

}  // namespace voltwright
