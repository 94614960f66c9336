#pragma once

#include "voltwright/planning/meter.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/planning/rig.hpp"
#include "voltwright/vehicle/system.hpp"

#include <optional>
#include <utility>
#include <vector>

/// What a sound vehicle shows at a probe, and what is still right there: the one source of limits for the list of readings
/// and for their diagnosis.
namespace voltwright {

/// What is still right of the batteries' own voltages, whoever asks.
struct BatteryLimits {
    Voltage starter_rested, house_rested;   ///< the least of a battery that is good for a test
    Voltage starter_charged;                ///< below it nothing charges the starter battery: 0.3 V above its rest
    Voltage starter_running;                ///< below it the alternator is warm or loaded, and worth a look
    Voltage starter_highest;                ///< the most that an alternator gives
    Voltage house_charging, house_highest;  ///< between them while the charger's profile fills it
};
BatteryLimits battery_limits(const System& system, const Tables& tables = built_in_tables());

/// What a sleeping charger or a switched-off load may seem to take: its electronics, and the clamp's zero.
Current most_asleep(const Meter& meter);

/// A place that a sound battery feeds has at least this, with nothing on (common practice, no source).
inline constexpr Voltage fed_least = volts(11.5);

/// In volts or amperes, as the probe shows.
struct ReadingLimits {
    double expected;
    std::optional<double> tolerance = {};         ///< three standard deviations, of the meter and the model together
    std::optional<double> least = {}, most = {};  ///< what is still right; empty: no bound there
    std::optional<Current> at = {};               ///< of a drop: what flows then

    /// The bound that a reading passes, whatever its sign; empty for one within both.
    [[nodiscard]] std::optional<double> passed_by(double reading) const;
};

/// Keeps references to what it is made of.
class TestLimits {
public:
    TestLimits(const Rig& rig, const System& system, const Plan& plan, const Tables& tables);

    /// Empty where nothing can be expected: the loads of that state cannot be fed.
    [[nodiscard]] std::optional<ReadingLimits> of(const Probe& probe, const RigState& state) const;

    /// The two sides of a run together: the most volts that a sound one loses between its ends. Empty where nothing flows.
    [[nodiscard]] std::optional<ReadingLimits> loop(std::size_t section, const RigState& state) const;

    /// The run that a probe measures; empty for a battery's own posts.
    [[nodiscard]] std::optional<std::size_t> section_of(const Probe& probe) const;

    /// Is a probe on the posts of the battery that a run hangs on?
    [[nodiscard]] bool feeds(const Probe& probe, std::size_t section) const;

    [[nodiscard]] const BatteryLimits& batteries() const { return batteries_; }
    [[nodiscard]] const Meter& meter() const { return meter_; }

private:
    using Expectation = std::pair<double, double>;  ///< and its standard deviation

    [[nodiscard]] std::optional<double> value(const Probe& probe, const RigState& state, const RigSupply& supply,
                                              const std::vector<Resistance>& resistances) const;
    [[nodiscard]] bool matters(std::size_t section, const Probe& probe) const;
    [[nodiscard]] std::optional<Expectation> expect(const Probe& probe, const RigState& state) const;
    [[nodiscard]] std::optional<ReadingLimits> around(const Probe& probe, const RigState& state) const;
    [[nodiscard]] std::optional<ReadingLimits> current(std::size_t section, const Probe& probe,
                                                       const RigState& state) const;
    [[nodiscard]] std::optional<ReadingLimits> place(const Probe::Point& point, const Probe& probe,
                                                     const RigState& state) const;
    [[nodiscard]] bool carries(std::size_t section, const RigState& state) const;

    const Rig& rig_;
    const System& system_;
    const Plan& plan_;
    const Tables& tables_;
    Meter meter_;
    BatteryLimits batteries_;
    std::vector<std::size_t> root_;  ///< of each section, the one at its battery
    std::vector<Resistance> expected_;
};

}  // namespace voltwright
