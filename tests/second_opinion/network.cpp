// The radial network against the packaged general circuit simulator, run here and now: one netlist is the one description
// of each network, read by the simulator and, in the small part of its language that is used, by this test.
//
//     R1 s a 0.02          a conductor from node s to node a; with a_r at its far end a return
//     R9 a 0 2             a resistance as load, to 0 or to the node's own return
//     B1 a 0 I=60/V(a)     a load of constant power
//     I1 a 0 5             a current; from 0 to a node it feeds

#include "voltwright/circuit/network.hpp"
#include "testing.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

using namespace voltwright;
using namespace voltwright::testing;

namespace {

namespace fs = std::filesystem;

struct Netlist {
    std::string text;
    Voltage source{};
    std::vector<std::string> nodes;  ///< of the sections, in their order
    std::vector<NetworkSection> sections;
    std::map<std::string, bool> has_return;
};

bool is_return(const std::string& node) { return node.ends_with("_r"); }

Netlist read(const fs::path& path) {
    Netlist netlist;
    std::ifstream file(path);
    std::map<std::string, std::size_t> section_of;
    std::string source, line;
    std::vector<std::array<std::string, 4>> parts;
    std::getline(file, line);
    netlist.text = line + "\n";
    while (std::getline(file, line)) {
        netlist.text += line + "\n";
        std::istringstream words(line);
        std::array<std::string, 4> part;
        for (std::string& word : part) words >> word;
        parts.push_back(part);
    }
    const auto is_ground = [&](const std::string& node) { return node == "0"; };
    // Conductors first: each leads from a node that is known to a new one.
    for (const auto& [name, a, b, value] : parts) {
        if (name[0] == 'V') {
            source = a;
            netlist.source = volts(std::stod(value));
        }
        const bool conductor = name[0] == 'R' && !is_ground(b) && !is_return(a) && !is_return(b);
        if (!conductor) continue;
        NetworkSection section{{}, ohms(std::stod(value)), {}};
        if (a != source) section.from = section_of.at(a);
        section_of[b] = netlist.sections.size();
        netlist.nodes.push_back(b);
        netlist.sections.push_back(section);
    }
    for (const auto& [name, a, b, value] : parts) {
        if (name[0] == 'V') continue;
        if (name[0] == 'R' && is_return(a)) {
            const std::string node = a.substr(0, a.size() - 2);
            netlist.sections[section_of.at(node)].loop += ohms(std::stod(value));
            netlist.has_return[node] = true;
        } else if (name[0] == 'R' && (is_ground(b) || is_return(b))) {
            netlist.sections[section_of.at(a)].loads.push_back(ohms(std::stod(value)));
        } else if (name[0] == 'B') {
            netlist.sections[section_of.at(a)].loads.push_back(watts(std::stod(value.substr(2))));
        } else if (name[0] == 'I') {
            const bool feeds = is_ground(a);
            const double current = std::stod(value);
            netlist.sections[section_of.at(feeds ? b : a)].loads.push_back(amperes(feeds ? -current : current));
        }
    }
    return netlist;
}

/// What the simulator says of each node, by its name.
std::map<std::string, double> simulate(const Netlist& netlist, const std::string& name) {
    const fs::path path = fs::temp_directory_path() / ("voltwright-" + name + ".cir");
    {
        std::ofstream file(path);
        file << netlist.text << ".options reltol=1e-12 abstol=1e-15 vntol=1e-13 gmin=1e-18 itl1=1000\n";
        for (const std::string& node : netlist.nodes)
            file << ".nodeset V(" << node << ")=" << in_volts(netlist.source) << "\n";
        file << ".control\nset numdgt=16\nop\n";
        for (const std::string& node : netlist.nodes) {
            file << "print v(" << node << ")\n";
            if (netlist.has_return.count(node)) file << "print v(" << node << "_r)\n";
        }
        file << "quit\n.endc\n.end\n";
    }
    std::map<std::string, double> said;
    if (FILE* pipe = ::popen(("ngspice -b " + path.string() + " 2>&1").c_str(), "r")) {
        std::array<char, 512> line{};
        while (std::fgets(line.data(), static_cast<int>(line.size()), pipe)) {
            char node[64];
            double value = 0.0;
            if (std::sscanf(line.data(), "v(%60[^)]) = %lf", node, &value) == 2) said[node] = value;
        }
        ::pclose(pipe);
    }
    fs::remove(path);
    return said;
}

}  // namespace

TEST_CASE("every network agrees with the circuit simulator to a microvolt") {
    REQUIRE_MESSAGE(std::system("ngspice --version > /dev/null 2>&1") == 0,
                    "the circuit simulator ngspice is not there: install the package ngspice");
    int networks = 0, nodes = 0;
    std::vector<fs::path> paths;
    for (const auto& entry : fs::directory_iterator(fs::path(VOLTWRIGHT_TOP_FOLDER) / "tests/second_opinion"))
        if (entry.path().extension() == ".cir") paths.push_back(entry.path());
    std::sort(paths.begin(), paths.end());
    for (const fs::path& path : paths) {
        CAPTURE(path.filename().string());
        const Netlist netlist = read(path);
        const auto ours = solve_network(netlist.source, netlist.sections);
        REQUIRE(ours);
        const auto theirs = simulate(netlist, path.stem().string());
        ++networks;
        for (std::size_t s = 0; s < netlist.nodes.size(); ++s) {
            const std::string& node = netlist.nodes[s];
            CAPTURE(node);
            REQUIRE(theirs.count(node) == 1);
            double volts_there = theirs.at(node);
            if (netlist.has_return.count(node)) volts_there -= theirs.at(node + "_r");
            CHECK(in_volts(ours->far_end[s]) == near(volts_there, 1e-6));
            ++nodes;
        }
    }
    CHECK(networks >= 12);
    CHECK(nodes >= 50);
}
