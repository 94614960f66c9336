#pragma once

/// Vehicles and trips drawn at random, with frost, age, sun and cut-offs among them, for laws of the night.

#include "dice.hpp"
#include "journeys.hpp"
#include "voltwright/simulation/simulate.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace voltwright::testing {

/// What a profile would say. Drawn from a number, so that each is the same every time.
struct DrawnNight {
    struct Load {
        double watts;
        std::string from, to;
        bool essential;
    };

    std::string chemistry;
    int capacity, count, health, start, depth, days, low, high;
    std::string where;  ///< of battery and fridge: a place
    std::vector<std::string> drives;
    int output;
    int panel;  ///< W; 0: none
    int latitude, month, clearness;
    std::vector<int> dull_days = {};
    int fridge_watts, a_day;  ///< W; 0: none
    bool fridge_essential;
    bool fridge_in_the_warm;  ///< it stands where the weather does not reach
    std::vector<Load> loads;
    std::string more = {};

    explicit DrawnNight(unsigned number) {
        Dice dice(number * 7919 + 5);
        chemistry = dice.one_of<std::string>({"flooded", "agm", "gel", "lfp"});
        capacity = dice.whole(20, 220);
        count = dice.whole(0, 4) == 0 ? 2 : 1;
        health = dice.one_of<int>({100, 100, 90, 75});
        start = dice.one_of<int>({100, 100, 100, 80, 60});
        depth = chemistry == "lfp" ? 80 : 50;
        days = dice.whole(1, 6);
        low = dice.whole(-22, 24);
        high = low + dice.whole(2, 16);
        where = dice.one_of<std::string>({"shade", "cabin", "canopy", "closed vehicle"});
        drives = dice.one_of<std::vector<std::string>>(
            {{}, {"08:30-09:10"}, {"07:00-08:00", "16:00-17:30"}, {"09:00-15:00"}, {"12:15-13:05"}});
        output = dice.whole(6, 40);
        panel = dice.whole(0, 2) == 0 ? dice.one_of<int>({60, 100, 200}) : 0;
        latitude = dice.whole(-50, 60);
        month = dice.whole(1, 12);
        clearness = dice.whole(40, 95);
        fridge_watts = dice.whole(0, 4) == 0 ? 0 : dice.whole(25, 65);
        a_day = dice.whole(10, 32);
        fridge_essential = dice.whole(0, 3) > 0;
        fridge_in_the_warm = dice.whole(0, 1) == 0;
        for (int i = dice.whole(fridge_watts ? 0 : 1, 3); i > 0; --i) {
            const int from = dice.whole(0, 22 * 60), to = from + dice.whole(10, 24 * 60 - from);
            loads.push_back({dice.even(3, 60), clock(from), clock(to), dice.whole(0, 2) == 0});
        }
    }

    /// Everything is to be served: no cut-off then spares the battery for the others.
    void nothing_may_go_off() {
        fridge_essential = true;
        for (Load& load : loads) load.essential = true;
    }

    static std::string clock(int minutes) {
        const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
        return two(minutes / 60) + ":" + two(minutes % 60);
    }

    [[nodiscard]] std::string text() const {
        const auto quoted = [](auto value, const char* unit) {
            return " = \"" + std::to_string(value) + " " + unit + "\"\n";
        };
        std::string all =
            "[trip]\ndays = " + std::to_string(days) + "\nlow" + quoted(low, "degC") + "high" + quoted(high, "degC");
        if (!drives.empty()) {
            all += "drives = [";
            for (const std::string& drive : drives) all += "\"" + drive + "\", ";
            all += "]\n";
        }
        if (panel > 0)
            all += "start = 2026-" + std::string(month < 10 ? "0" : "") + std::to_string(month) + "-12\nlatitude" +
                   quoted(latitude, "deg") + "clearness" + quoted(clearness, "%");
        if (!dull_days.empty()) {
            all += "[[day]]\non = [";
            for (const int day : dull_days) all += std::to_string(day) + ", ";
            all += "]\nclearness = \"15 %\"\n";
        }
        all += "[battery]\nchemistry = \"" + chemistry + "\"\ncapacity" + quoted(capacity, "Ah") +
               "count = " + std::to_string(count) + "\nhealth" + quoted(health, "%") + "start_soc" +
               quoted(start, "%") + "depth_limit" + quoted(depth, "%") + "where = \"" + where +
               "\"\n[charger]\noutput" + quoted(output, "A");
        if (panel > 0) all += "[solar]\npanel" + quoted(panel, "W");
        all += "[[run]]\nto = \"charger\"\nlength = \"3 m\"\n" + more;
        if (fridge_watts > 0)
            all += "[[fridge]]\ndraw" + quoted(fridge_watts, "W") + "rated = [{ around = \"25 degC\", a_day = \"" +
                   std::to_string(a_day) + " Ah\" }]\nwhere = \"" + (fridge_in_the_warm ? "24 degC" : where) +
                   "\"\nessential = " + (fridge_essential ? "true\n" : "false\n");
        for (std::size_t i = 0; i < loads.size(); ++i) all += load("load" + std::to_string(i), loads[i]);
        return all;
    }

    static std::string load(const std::string& name, const Load& one) {
        return "[[load]]\nname = \"" + name + "\"\ndraw = \"" + std::to_string(one.watts) + " W\"\nhours = \"" +
               one.from + "-" + one.to + "\"\nessential = " + (one.essential ? "true\n" : "false\n");
    }
};

/// Each run with a resistance of its kind: the sizing has tests of its own, and takes longer than all of these.
inline std::vector<LaidRun> laid_as_usual(const System& system) {
    std::vector<LaidRun> runs;
    for (const SystemRun& run : system.runs) {
        const double milliohms_each = run.role == RunRole::feed ? 12.0 : run.role == RunRole::output ? 4.0 : 40.0;
        runs.push_back({run.from, run.to, milliohms(milliohms_each)});
    }
    return runs;
}

struct NightSimulated {
    Scenario scenario;
    TripResult trip;
};

inline NightSimulated night_simulated(const DrawnNight& night) {
    const System system = system_of_text(night.text());
    Scenario scenario = trip_scenario(scenario_inputs(system, laid_as_usual(system), built_in_tables()));
    TripResult trip = simulate(scenario);
    return {std::move(scenario), std::move(trip)};
}

inline Duration since_the_start(const Moment& then) {
    return hours(24.0 * static_cast<double>(then.day - 1)) + then.clock;
}

/// How long the trip holds: until the depth limit is passed or an essential load goes without.
inline Duration holds_for(const TripResult& trip) {
    Duration lasts = trip.lasted;
    if (trip.below_limit) lasts = std::min(lasts, since_the_start(*trip.below_limit));
    for (const ConsumerResult& served : trip.served)
        if (served.essential && served.off > Duration{} && served.first_off)
            lasts = std::min(lasts, since_the_start(*served.first_off));
    return lasts;
}

}  // namespace voltwright::testing
