// A second opinion on the network: the packaged general circuit simulator solves every netlist of this folder.
//
// A netlist is the one description of its circuit. The simulator reads all of it; read_netlist() below reads the small
// part of the language that stands there and makes the tree of sections from it. Every voltage that the simulator prints,
// with fifteen digits and tolerances far below the one used here, is held against solve_network()'s within a microvolt.
//
// What the tree of sections and the netlist say differently:
//   - a place with a return of its own: NAME and NAME_return; the loop of its section is the sum of the two resistors;
//   - a second battery: a source behind a resistor in the netlist, a resistance beside a constant current in the tree;
//   - a converter is a current source of P/v. The simulator takes either root, so each netlist starts it from above.

#include "voltwright/circuit/network.hpp"
#include "testing.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

using namespace voltwright;

namespace {

using Words = std::vector<std::string>;

struct Netlist {
    std::string source_node;
    Voltage source{};
    std::vector<NetworkSection> sections;
    std::map<std::string, std::size_t> places;     ///< each node that a section leads to
    std::map<std::string, std::string> returns;    ///< the node that a place's loads return to, where it is not 0
    std::map<std::string, Voltage> other_sources;  ///< by their own node
    Words printed;
};

[[noreturn]] void refuse(const std::string& why) { throw std::runtime_error(why); }

double number(const std::string& text) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) refuse("'" + text + "' is not a plain number");
    return value;
}

std::string return_of(const Netlist& netlist, const std::string& place) {
    const auto found = netlist.returns.find(place);
    return found == netlist.returns.end() ? "0" : found->second;
}

NetworkSection& section_to(Netlist& netlist, const std::string& place) {
    const auto found = netlist.places.find(place);
    if (found == netlist.places.end()) refuse("no section leads to '" + place + "'");
    return netlist.sections[found->second];
}

/// Between the place and its return.
void add_load(Netlist& netlist, const Words& words, LoadLaw load) {
    NetworkSection& section = section_to(netlist, words[1]);
    if (words[2] != return_of(netlist, words[1])) refuse("a load from '" + words[1] + "' goes to its return");
    section.loads.push_back(load);
}

/// The resistor of a return: NAME_return to the return of the place before it.
void add_return(Netlist& netlist, const std::string& place, const Words& words) {
    NetworkSection& section = section_to(netlist, place);
    std::string before = netlist.source_node;
    for (const auto& [name, index] : netlist.places)
        if (section.from == index) before = name;
    if (words[2] != return_of(netlist, before))
        refuse("the return of '" + place + "' goes to that of '" + before + "'");
    if (!section.loads.empty() || !netlist.returns.emplace(place, words[1]).second)
        refuse("'" + place + "' has one return, before its loads");
    section.loop += ohms(number(words[3]));
}

void add_resistor(Netlist& netlist, const Words& words) {
    if (words.size() != 4) refuse("a resistor has two nodes and a value");
    const Resistance resistance = ohms(number(words[3]));
    // The simulator takes 0 ohm for 1 mOhm.
    if (!(resistance > Resistance{})) refuse("a resistor is above 0 ohm");
    const std::string ending = "_return";
    if (words[1].ends_with(ending))
        add_return(netlist, words[1].substr(0, words[1].size() - ending.size()), words);
    else if (words[2] == "0" || words[2].ends_with(ending))
        add_load(netlist, words, {resistance});
    else if (const auto other = netlist.other_sources.find(words[2]); other != netlist.other_sources.end()) {
        add_load(netlist, {words[0], words[1], "0"}, {resistance});
        add_load(netlist, {words[0], words[1], "0"}, {-(other->second / resistance)});
    } else {
        std::optional<std::size_t> from;
        if (words[1] != netlist.source_node) {
            section_to(netlist, words[1]);
            from = netlist.places.at(words[1]);
        }
        if (words[2] == netlist.source_node || !netlist.places.emplace(words[2], netlist.sections.size()).second)
            refuse("two ways lead to '" + words[2] + "'");
        netlist.sections.push_back({from, resistance, {}});
    }
}

/// B1 PLACE RETURN I = WATTS/v(PLACE) or WATTS/v(PLACE,RETURN)
void add_converter(Netlist& netlist, const Words& words) {
    if (words.size() != 6 || words[3] != "I" || words[4] != "=") refuse("a converter reads 'B1 a 0 I = 400/v(a)'");
    const std::size_t stroke = words[5].find('/');
    if (stroke == std::string::npos) refuse("a converter draws P/v");
    const std::string across = words[2] == "0" ? words[1] : words[1] + "," + words[2];
    if (words[5].substr(stroke) != "/v(" + across + ")") refuse("a converter draws P/v, v across itself");
    add_load(netlist, words, {watts(number(words[5].substr(0, stroke)))});
}

void add_source(Netlist& netlist, const Words& words) {
    if (words.size() != 4 || words[2] != "0") refuse("a source stands between a node and 0");
    const Voltage voltage = volts(number(words[3]));
    if (netlist.source_node.empty()) {
        netlist.source_node = words[1];
        netlist.source = voltage;
    } else
        netlist.other_sources.emplace(words[1], voltage);
}

Netlist read_netlist(std::istream& text) {
    Netlist netlist;
    std::string line;
    bool in_control = false;
    std::getline(text, line);  // the title
    while (std::getline(text, line)) {
        Words words;
        std::istringstream split(line);
        for (std::string word; split >> word;) words.push_back(word);
        if (words.empty() || words[0][0] == '*') continue;
        const std::string& first = words[0];
        if (first == ".control" || first == ".endc")
            in_control = first == ".control";
        else if (in_control && first == "print")
            netlist.printed.insert(netlist.printed.end(), words.begin() + 1, words.end());
        else if (in_control) {
            if (first != "set" && first != "op" && first != "quit") refuse("'" + line + "' is not understood");
        } else if (first[0] == 'V')
            add_source(netlist, words);
        else if (first[0] == 'R')
            add_resistor(netlist, words);
        else if (first[0] == 'B')
            add_converter(netlist, words);
        else if (first[0] == 'I' && words.size() == 4)
            add_load(netlist, words, {amperes(number(words[3]))});
        else if (first != ".nodeset" && first != ".options" && first != ".end")
            refuse("'" + line + "' is not understood");
    }
    return netlist;
}

Netlist read_netlist(const std::string& text) {
    std::istringstream stream(text);
    return read_netlist(stream);
}

/// What is printed is the name of a value, in lower case, an equals sign and the value.
using Printed = std::map<std::string, double>;

Printed read_printed(const std::string& text) {
    Printed printed;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::istringstream split(line);
        std::string name, equals, value, more;
        if (split >> name >> equals >> value && equals == "=" && !(split >> more) &&
            name.find('(') != std::string::npos)
            printed.emplace(name, std::strtod(value.c_str(), nullptr));
    }
    return printed;
}

std::string output_of(const std::string& command) {
    std::string text;
    FILE* pipe = popen(command.c_str(), "r");
    if (!pipe) return text;
    char part[4096];
    while (const std::size_t got = std::fread(part, 1, sizeof part, pipe)) text.append(part, got);
    pclose(pipe);
    return text;
}

/// -n: without the start-up file that a user may have.
Printed simulated(const std::filesystem::path& netlist) {
    return read_printed(output_of("ngspice -n -b '" + netlist.string() + "' 2>&1 </dev/null"));
}

bool simulator_is_here() { return !output_of("command -v ngspice").empty(); }

struct Comparison {
    std::size_t compared = 0;
    double worst = 0.0;
    Words faults;
};

constexpr double microvolt = 1e-6;

/// Every place is to be printed and every printed value to agree.
Comparison compare(const Netlist& netlist, const NetworkAnswer& answer, const Printed& printed) {
    Comparison comparison;
    Printed expected{{"i(v1)", -in_amperes(answer.source)}};
    for (const auto& [place, index] : netlist.places) {
        const std::string back = return_of(netlist, place);
        const std::string name = back == "0" ? "v(" + place + ")" : "v(" + place + "," + back + ")";
        expected.emplace(name, in_volts(answer.far_end[index]));
        if (std::find(netlist.printed.begin(), netlist.printed.end(), name) == netlist.printed.end())
            comparison.faults.push_back(name + " is not printed");
    }
    for (const std::string& name : netlist.printed) {
        const auto ours = expected.find(name);
        const auto theirs = printed.find(name);
        if (ours == expected.end())
            comparison.faults.push_back(name + " is no place of the tree");
        else if (theirs == printed.end())
            comparison.faults.push_back(name + ": the simulator gave nothing");
        else {
            const double off = std::abs(ours->second - theirs->second);
            ++comparison.compared;
            comparison.worst = std::max(comparison.worst, off);
            if (!(off <= microvolt))
                comparison.faults.push_back(name + ": " + testing::shortest(ours->second) + ", the simulator has " +
                                            testing::shortest(theirs->second));
        }
    }
    if (comparison.compared == 0) comparison.faults.push_back("nothing was compared");
    return comparison;
}

std::string joined(const Words& lines) {
    std::string text;
    for (const std::string& line : lines) text += line + "\n";
    return text;
}

const std::string two_places = R"(two places
V1 battery 0 12.6
R1 battery block 0.02
B1 block 0 I = 120/v(block)
R2 block lamp 0.03
B2 lamp 0 I = 60/v(lamp)
.control
op
print v(block) v(lamp) i(v1)
.endc
.end
)";

std::string changed(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    if (at == std::string::npos) refuse("'" + from + "' is not there");
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a network agrees with a general circuit simulator to a microvolt, on every netlist") {
    REQUIRE_MESSAGE(simulator_is_here(), "ngspice is not installed: sh tests/setup.sh test");
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(VOLTWRIGHT_TOP_FOLDER "/tests/second_opinion"))
        if (entry.path().extension() == ".cir") files.push_back(entry.path());
    std::sort(files.begin(), files.end());

    std::size_t networks = 0, without_answer = 0, values = 0;
    for (const auto& file : files) {
        CAPTURE(file.filename().string());
        std::ifstream text(file);
        const Netlist netlist = read_netlist(text);
        const auto answer = solve_network(netlist.source, netlist.sections);
        const Printed printed = simulated(file);
        if (file.stem().string().starts_with("beyond-")) {
            // More than the line can bring: neither finds an operating point.
            CHECK_FALSE(answer);
            CHECK(printed.empty());
            ++without_answer;
            continue;
        }
        REQUIRE(answer);
        const Comparison comparison = compare(netlist, *answer, printed);
        CHECK_MESSAGE(comparison.faults.empty(), joined(comparison.faults));
        values += comparison.compared;
        ++networks;
    }
    CHECK(networks >= 12);
    CHECK(without_answer >= 1);
    CHECK(values >= 70);
}

TEST_CASE("the comparison with the simulator sees a voltage that is off, a missing one and an empty answer") {
    const Netlist netlist = read_netlist(two_places);
    const auto answer = solve_network(netlist.source, netlist.sections);
    REQUIRE(answer);
    Printed printed{{"v(block)", in_volts(answer->far_end[0])},
                    {"v(lamp)", in_volts(answer->far_end[1])},
                    {"i(v1)", -in_amperes(answer->source)}};
    CHECK(compare(netlist, *answer, printed).faults.empty());
    CHECK(compare(netlist, *answer, printed).compared == 3);

    Printed off = printed;
    off["v(lamp)"] += 2 * microvolt;
    CHECK(compare(netlist, *answer, off).faults.size() == 1);
    off["v(lamp)"] = std::nan("");
    CHECK(compare(netlist, *answer, off).faults.size() == 1);
    off.erase("v(lamp)");
    CHECK(compare(netlist, *answer, off).faults.size() == 1);
    CHECK(compare(netlist, *answer, {}).faults.size() == 4);

    Netlist silent = netlist;
    silent.printed.clear();
    CHECK(compare(silent, *answer, printed).faults.size() == 3);
}

TEST_CASE("the netlist reader makes the tree that is written, and refuses what is no tree") {
    const Netlist netlist = read_netlist(two_places);
    REQUIRE(netlist.sections.size() == 2);
    CHECK(netlist.source == near(volts(12.6), volts(0)));
    CHECK_FALSE(netlist.sections[0].from);
    CHECK(netlist.sections[1].from == 0);
    CHECK(netlist.sections[1].loop == near(ohms(0.03), ohms(0)));
    REQUIRE(netlist.sections[1].loads.size() == 1);
    CHECK(std::get<Power>(netlist.sections[1].loads[0]) == near(watts(60), watts(0)));

    const auto refuses = [](const std::string& from, const std::string& to) {
        CAPTURE(to);
        CHECK_THROWS_AS(read_netlist(changed(two_places, from, to)), std::runtime_error);
    };
    refuses("R2 block lamp 0.03", "R2 block lamp 30m");       // a suffix
    refuses("R2 block lamp 0.03", "R2 block lamp 0");         // 1 mOhm to the simulator
    refuses("R2 block lamp 0.03", "R2 elsewhere lamp 0.03");  // hangs in the air
    refuses("B2 lamp", "R3 battery lamp 0.01\nB2 lamp");      // two ways to the lamp
    refuses("60/v(lamp)", "60/v(block)");                     // drawn here, measured there
    refuses("B2 lamp 0", "B2 lamp block");                    // past its return
    refuses("B2 lamp", "C1 lamp 0 1e-3\nB2 lamp");            // another kind of part
    refuses("op\n", "op\nalter r2 = 1\n");                    // another circuit than the one read
}
