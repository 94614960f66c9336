// A second opinion on what a plan prints of its runs: the packaged general circuit simulator solves each tree of runs with
// everything on that can be on together. Read from the answer as a program reads it; the simulator is given the
// resistances that the answer states, and the loads as the profile states them.

#include "journeys.hpp"
#include "testing.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/report/plan_json.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <string>
#include <vector>

using namespace voltwright;

namespace {

/// Hours that never meet; the last is always on.
constexpr std::array<const char*, 4> turns = {"07:00-11:00", "11:00-17:00", "18:00-23:00", "00:00-24:00"};
constexpr int always = 3;

struct Load {
    std::string name;
    char unit;  ///< W, A or o (ohm)
    double draw;
    int turn;
};

/// A vehicle whose runs hang on trunks, which hang on trunks.
struct Vehicle {
    std::string profile;
    std::vector<Load> loads;
    double charger_watts, input_limit;
};

Vehicle drawn_vehicle(unsigned seed) {
    std::mt19937 draw(seed);
    const auto even = [&](double low, double high) {
        return std::round((low + (high - low) * static_cast<double>(draw()) / 4294967295.0) * 100.0) / 100.0;
    };
    const auto chance = [&](double share) { return even(0.0, 1.0) < share; };
    const auto text = [](double value) {
        char digits[32];
        std::snprintf(digits, sizeof digits, "%g", value);
        return std::string(digits);
    };
    Vehicle vehicle;
    std::string& toml = vehicle.profile;
    const double output = even(10.0, 30.0);
    vehicle.charger_watts = output * 14.4 / 0.9;
    vehicle.input_limit = chance(0.3) ? std::round(output * 0.9) : 1e6;
    toml =
        "[trip]\ndays = 1\nlow = \"10 degC\"\nhigh = \"25 degC\"\ndrives = \"12:00-13:00\"\n"
        "[starter]\nrunning = \"14.0 V\"\n[battery]\nchemistry = \"agm\"\ncapacity = \"200 Ah\"\n"
        "[charger]\nabsorption = \"14.4 V\"\nefficiency = \"90 %\"\noutput = \"" +
        text(output) + " A\"\n";
    if (vehicle.input_limit < 1e6) toml += "input_limit = \"" + text(vehicle.input_limit) + " A\"\n";
    toml += "[rules]\nfeed_drop = \"8 %\"\nessential_drop = \"6 %\"\nother_drop = \"10 %\"\n";
    const auto run = [&](const std::string& from, const std::string& to, double low, double high) {
        toml += "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"" + text(even(low, high)) + " m\"\n";
        if (chance(0.25)) toml += "return = \"" + text(even(1.0, 6.0)) + " mOhm\"\n";
    };
    run("starter", "charger", 1.0, 5.0);
    run("charger", "battery", 0.4, 1.0);
    run("battery", "block", 0.5, 3.0);
    const bool shelf = chance(0.6), roof = shelf && chance(0.5);
    if (shelf) run("block", "shelf", 0.5, 3.0);
    if (roof) run("shelf", "roof", 0.5, 2.0);
    const auto place = [&]() -> std::string {
        const double where = even(0.0, 1.0);
        return where < 0.15 ? "battery" : where < 0.5 || !shelf ? "block" : where < 0.8 || !roof ? "shelf" : "roof";
    };
    run(place(), "fridge", 1.0, 4.0);
    const double fridge = even(35.0, 60.0);
    vehicle.loads.push_back({"fridge", 'W', fridge, always});
    std::string tables =
        "[[fridge]]\ndraw = \"" + text(fridge) + " W\"\nrated = [{ around = \"25 degC\", a_day = \"20 Ah\" }]\n";
    const int count = 2 + static_cast<int>(draw() % 4);
    for (int i = 0; i < count; ++i) {
        const char unit = std::string("WAo")[draw() % 3];
        const double size = unit == 'W' ? even(5.0, 90.0) : unit == 'A' ? even(0.5, 7.0) : even(2.5, 20.0);
        Load load{"thing" + std::to_string(i), unit, size, static_cast<int>(draw() % 4)};
        run(place(), load.name, 0.6, 5.0);
        tables += "[[load]]\nname = \"" + load.name + "\"\ndraw = \"" + text(size) +
                  (unit == 'o' ? " ohm" : std::string(" ") + unit) + "\"\nhours = \"" +
                  turns.at(static_cast<std::size_t>(load.turn)) + "\"\n";
        vehicle.loads.push_back(load);
    }
    if (roof) {  // so that something hangs there
        run("roof", "beacon", 0.6, 2.0);
        tables += "[[load]]\nname = \"beacon\"\ndraw = \"12 W\"\nhours = \"00:00-24:00\"\n";
        vehicle.loads.push_back({"beacon", 'W', 12.0, always});
    }
    if (shelf) {
        run("shelf", "radio", 0.6, 2.0);
        tables += "[[load]]\nname = \"radio\"\ndraw = \"1.5 A\"\nhours = \"00:00-24:00\"\n";
        vehicle.loads.push_back({"radio", 'A', 1.5, always});
    }
    run("block", "lamp", 0.6, 2.0);
    tables += "[[load]]\nname = \"lamp\"\ndraw = \"8 ohm\"\nhours = \"00:00-24:00\"\n";
    vehicle.loads.push_back({"lamp", 'o', 8.0, always});
    toml += tables;
    return vehicle;
}

/// Voltages at the far ends of the runs, by the name of the place, with one turn's loads on.
std::map<std::string, double> simulated(const Vehicle& vehicle, const nlohmann::json& runs, int turn, unsigned seed) {
    const auto digits = [](double value) {
        char text[40];
        std::snprintf(text, sizeof text, "%.15g", value);
        return std::string(text);
    };
    // Names of places may have blanks, names of nodes may not.
    const auto node = [](std::string place) {
        std::replace(place.begin(), place.end(), ' ', '_');
        return place;
    };
    std::string netlist = "runs of a vehicle\nVS starter 0 14\nVH house 0 12\nVC charger_output 0 14.4\n", sets, prints;
    std::vector<std::string> order;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const std::string from = runs[i]["from"], to = runs[i]["to"];
        const std::string begins = from == "battery" ? "house" : from == "charger" ? "charger_output" : node(from);
        const std::string ends = to == "battery" ? "posts" : node(to);
        netlist += "R" + std::to_string(i) + " " + begins + " " + ends + " " +
                   digits(runs[i]["resistance_mohm"].get<double>() / 1000.0) + "\n";
        sets += " v(" + ends + ")=12";
        prints += "print v(" + ends + ")\n";
        order.push_back(to);
    }
    netlist += "BC charger 0 I = min(" + digits(vehicle.charger_watts) + "/v(charger)," + digits(vehicle.input_limit) +
               ")\nIO posts 0 " + digits(vehicle.charger_watts * 0.9 / 14.4) + "\n";
    for (std::size_t i = 0; i < vehicle.loads.size(); ++i) {
        const Load& load = vehicle.loads[i];
        if (load.turn != always && load.turn != turn) continue;
        const std::string number = std::to_string(i);
        if (load.unit == 'W')
            netlist += "BL" + number + " " + load.name + " 0 I = " + digits(load.draw) + "/v(" + load.name + ")\n";
        else
            netlist += (load.unit == 'A' ? "IL" : "RL") + number + " " + load.name + " 0 " + digits(load.draw) + "\n";
    }
    netlist += ".nodeset" + sets + "\n.options reltol=1e-9 abstol=1e-12 vntol=1e-10\n.control\nset numdgt=15\nop\n" +
               prints + "quit 0\n.endc\n.end\n";
    const std::filesystem::path file =
        std::filesystem::temp_directory_path() /
        ("voltwright-plan-" + std::to_string(std::hash<std::string>{}(netlist)) + "-" + std::to_string(seed) + ".cir");
    std::ofstream(file) << netlist;
    std::map<std::string, double> values;
    FILE* pipe = popen(("ngspice -b " + file.string() + " 2>/dev/null").c_str(), "r");
    REQUIRE(pipe);
    char line[512];
    std::size_t found = 0;
    while (std::fgets(line, sizeof line, pipe)) {
        const std::string text = line;
        const std::size_t equals = text.rfind(" = ");
        if (equals == std::string::npos || text.rfind("v(", 0) != 0 || found == order.size()) continue;
        values[order[found++]] = std::strtod(text.c_str() + equals + 3, nullptr);
    }
    CHECK(pclose(pipe) == 0);
    std::filesystem::remove(file);
    REQUIRE(found == order.size());
    return values;
}

/// The simulator's current through a run.
double through(const nlohmann::json& run, const std::map<std::string, double>& far) {
    const std::string from = run["from"];
    const double begins = from == "battery" ? 12.0 : from == "starter" ? 14.0 : from == "charger" ? 14.4 : far.at(from);
    return (begins - far.at(run["to"])) / (run["resistance_mohm"].get<double>() / 1000.0);
}

/// The first run of the way to a run.
std::size_t root_of(const nlohmann::json& runs, std::size_t run) {
    const std::string from = runs[run]["from"];
    if (from == "battery" || from == "starter" || from == "charger") return run;
    for (std::size_t i = 0; i < runs.size(); ++i)
        if (runs[i]["to"] == from) return root_of(runs, i);
    throw std::logic_error("a run begins nowhere");
}

}  // namespace

TEST_CASE("current and far end of every run of a plan are what a circuit simulator has with all on together") {
    std::size_t compared = 0, agreed = 0, kept_apart = 0;
    for (unsigned seed = 1; seed <= 40; ++seed) {
        const Vehicle vehicle = drawn_vehicle(seed);
        CAPTURE(vehicle.profile);
        const System system = testing::system_of_text(vehicle.profile);
        const nlohmann::json runs = nlohmann::json::parse(plan_json(make_plan(system)))["runs"];
        // Three turns and what is always on: each tree at the one at which it carries most, each run that is off then at
        // that of its own turns at which the tree carries most.
        std::vector<std::map<std::string, double>> far;
        for (int turn = 0; turn < always; ++turn) far.push_back(simulated(vehicle, runs, turn, seed));
        for (std::size_t i = 0; i < runs.size(); ++i) {
            const nlohmann::json& run = runs[i];
            const nlohmann::json& root = runs[root_of(runs, i)];
            std::size_t busiest = 0, own = 0;
            bool carries = false;
            for (std::size_t turn = 0; turn < far.size(); ++turn) {
                if (through(root, far[turn]) > through(root, far[busiest]) + 1e-6) busiest = turn;
                if (std::abs(through(run, far[turn])) < 1e-6) continue;
                if (!carries || through(root, far[turn]) > through(root, far[own]) + 1e-6) own = turn;
                carries = true;
            }
            REQUIRE(carries);
            const bool apart = std::abs(through(run, far[busiest])) < 1e-6;
            if (apart) ++kept_apart;
            const auto& seen = far[apart ? own : busiest];
            CAPTURE(std::string(run["name"]));
            ++compared;
            if (!run["current_A"].is_number()) {
                CHECK_MESSAGE(false, "a run without a current");
                continue;
            }
            const double current = run["current_A"], end = run["far_end_V"];
            const double amperes = std::abs(current - through(run, seen)), volts = std::abs(end - seen.at(run["to"]));
            CHECK(amperes <= 0.005 * through(run, seen) + 0.02);
            CHECK(volts <= 0.002);
            if (amperes <= 0.005 * through(run, seen) + 0.02 && volts <= 0.002) ++agreed;
        }
    }
    MESSAGE(agreed << " of " << compared << " runs agree, " << kept_apart << " of them kept apart by the clock");
    CHECK(compared > 300);
    CHECK(kept_apart > 5);
}
