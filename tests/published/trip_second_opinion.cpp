// A second opinion on the simulation: Boost.Odeint integrates the same battery, loads and charger at tight tolerance.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/simulation/simulate.hpp"

#include <boost/numeric/odeint.hpp>

#include <algorithm>
#include <array>
#include <cmath>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

using State = std::array<double, 2>;  // ampere-hours in the available and in the bound well

/// The battery in plain numbers: volts, ohms, ampere-hours, hours. The equations of its header, written again.
struct PlainBattery {
    double c, k, k_charged, whole, ten_hour, keeps, gassing, leak;
    std::array<std::array<double, 4>, std::tuple_size_v<decltype(HouseBattery::levels)>> marks;

    explicit PlainBattery(const HouseBattery& battery)
        : c(battery.kinetics.available),
          k(in_per_hour(battery.kinetics.rate)),
          k_charged(k * double(battery.charged_levelling)),
          whole(in_ampere_hours(battery.whole)),
          ten_hour(in_amperes(battery.ten_hour_rate)),
          keeps(battery.charge_efficiency),
          gassing(battery.gassing_fall),
          leak(in_amperes(battery.self_discharge)) {
        for (std::size_t i = 0; i < marks.size(); ++i)
            marks[i] = {battery.levels[i].level, in_volts(battery.levels[i].open), in_ohms(battery.levels[i].giving),
                        in_ohms(battery.levels[i].taking)};
    }

    [[nodiscard]] double at(double level, std::size_t column) const {
        std::size_t i = 0;
        while (i + 2 < marks.size() && level > marks[i + 1][0]) ++i;
        const double share = (level - marks[i][0]) / (marks[i + 1][0] - marks[i][0]);
        return marks[i][column] + share * (marks[i + 1][column] - marks[i][column]);
    }

    struct Feeding {
        double watts, amperes, path, charger, held;
    };
    struct Flow {
        double stored, volts;
    };

    /// At one level: the charger gives, or holds its volts.
    [[nodiscard]] Flow flow(double level, const Feeding& feeding, bool holds) const {
        const double open = at(level, 1);
        const auto load = [&](double volts) {
            if (feeding.watts == 0.0) return feeding.amperes;
            return 2.0 * feeding.watts / (volts + std::sqrt(volts * volts - 4.0 * feeding.watts * feeding.path)) +
                   feeding.amperes;
        };
        double volts = open, into = 0.0;
        for (int i = 0; i < 200; ++i) {
            into = feeding.charger - load(volts);
            volts = std::clamp(open + into * at(level, into > 0.0 ? 3 : 2), 6.0, 20.0);
        }
        if (holds) {
            into = (feeding.held - open) / at(level, feeding.held > open ? 3 : 2);
            volts = feeding.held;
        }
        const double kept =
            into > 0.0 ? keeps * into * (1.0 - std::exp(gassing * (level - 1.0) / (into / ten_hour + 0.55))) : into;
        return {kept - leak, volts};
    }

    [[nodiscard]] bool held_at(double level, const Feeding& feeding) const {
        return feeding.charger > 0.0 && flow(level, feeding, false).volts > feeding.held;
    }

    /// Amperes into the wells by the law itself, at every level.
    [[nodiscard]] double exactly(double level, const Feeding& feeding) const {
        return flow(level, feeding, held_at(level, feeding)).stored;
    }

    /// The same with straight lines between the marks, and one mark more where the charger begins to hold.
    [[nodiscard]] double by_marks(double level, const Feeding& feeding) const {
        std::size_t i = 0;
        while (i + 2 < marks.size() && level > marks[i + 1][0]) ++i;
        double low = marks[i][0], high = marks[i + 1][0];
        const bool low_held = held_at(low, feeding), high_held = held_at(high, feeding);
        if (low_held != high_held) {
            const double low_volts = flow(low, feeding, false).volts, high_volts = flow(high, feeding, false).volts;
            const double meet = low + (high - low) * (feeding.held - low_volts) / (high_volts - low_volts);
            (level < meet ? high : low) = meet;
        }
        const bool held = low == marks[i][0] ? low_held : true;
        const double at_low = flow(low, feeding, held).stored;
        const double at_high = flow(high, feeding, held || high != marks[i + 1][0]).stored;
        return at_low + (at_high - at_low) * (level - low) / (high - low);
    }
};

}  // namespace

TEST_CASE("fourteen days of current, power and charging agree with Boost.Odeint to 1e-4 of the state of charge") {
    for (const char* chemistry : {"flooded", "agm", "gel"}) {
        const HouseBattery battery = usual_battery(chemistry, ampere_hours(100));
        Consumer power{"power", watts(48), milliohms(40), false, false, {}};
        Consumer current{"current", amperes(1.5), milliohms(40), false, false, {}};
        Scenario scenario = lone_scenario(battery, {power, current});
        for (int day = 0; day < 14; ++day)
            for (int hour = 0; hour < 24; ++hour) {
                const double duty = hour >= 10 && hour < 18 ? 0.5 : 0.3;
                const double lamp = hour >= 18 && hour < 22 ? 1.0 : 0.0;
                add_interval(scenario, hours(1), {duty, lamp}, hour >= 8 && hour < 10 ? amperes(25) : Current{});
            }
        for (Interval& interval : scenario.intervals) interval.float_ = interval.absorption;
        SimulationOptions options;
        options.points = true;
        const TripResult trip = simulate(scenario, options);

        const PlainBattery plain(battery);
        const auto worst_against = [&](auto&& law_of) {
            State wells = {plain.c * plain.whole, (1.0 - plain.c) * plain.whole};
            double worst = 0.0, lowest = 1.0;
            for (std::size_t i = 0; i < scenario.intervals.size(); ++i) {
                const double duty = scenario.needs_of(i)[0], lamp = scenario.needs_of(i)[1];
                // A load that runs a share of the time draws that share of its current.
                const PlainBattery::Feeding feeding{duty * 48.0, lamp * 1.5, 0.04 / duty,
                                                    in_amperes(scenario.intervals[i].charger), 14.4};
                const auto law = [&](const State& y, State& rate, double) {
                    // Whenever the charger runs it gives more than all loads take.
                    const double rate_of_levelling = feeding.charger > 0.0 ? plain.k_charged : plain.k;
                    const double sink = rate_of_levelling * ((1.0 - plain.c) * y[0] - plain.c * y[1]);
                    rate[0] = law_of(y[0] / (plain.c * plain.whole), feeding) - sink;
                    rate[1] = sink;
                };
                namespace odeint = boost::numeric::odeint;
                odeint::integrate_adaptive(odeint::make_controlled(1e-9, 1e-9, odeint::runge_kutta_dopri5<State>()),
                                           law, wells, 0.0, 1.0, 0.02);
                const double soc = 1.0 - (plain.whole - wells[0] - wells[1]) / in_ampere_hours(battery.capacity);
                worst = std::max(worst, std::abs(soc - double(trip.points[i + 1].soc)));
                lowest = std::min(lowest, soc);
            }
            CHECK(lowest < 0.8);
            CHECK(lowest > 0.1);
            return worst;
        };
        const double lines = worst_against([&](double level, const auto& f) { return plain.by_marks(level, f); });
        const double curves = worst_against([&](double level, const auto& f) { return plain.exactly(level, f); });
        INFO(chemistry << ": worst difference " << lines << " by marks, " << curves << " from the law itself");
        CHECK(lines < 1e-4);
        CHECK(curves < 2.5e-3);  // what the straight lines between the marks cost
    }
}
