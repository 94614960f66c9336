/// How long one network of thirty sections takes: ns by solve_network(), far from the edge and close to it, and ms by one
/// process of a general circuit simulator on the same network, start and reading included.
///
///     bench_network [--short]

#include "timing.hpp"

#include "voltwright/circuit/network.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <vector>

#include <unistd.h>

namespace {

using namespace voltwright;
using bench::least;

constexpr Voltage source = volts(12.9);
constexpr std::size_t count = 30;

/// A trunk of ten places with two branches at each: a converter on one, and a lamp or a constant current on the other.
std::vector<NetworkSection> vehicle(double times_the_power) {
    std::vector<NetworkSection> sections;
    for (std::size_t place = 0; place < count / 3; ++place) {
        const double more = static_cast<double>(place);
        const std::size_t trunk = sections.size();
        sections.push_back({place == 0 ? std::optional<std::size_t>{} : trunk - 3, milliohms(3 + 0.2 * more), {}});
        sections.push_back({trunk, milliohms(30 + 3 * more), {{watts(12 + more) * times_the_power}}});
        sections.push_back({trunk, milliohms(60 - 2 * more), {{amperes(0.5 + 0.1 * more)}}});
        if (place % 2 == 0) sections.back().loads = {{ohms(12 + more)}};
    }
    return sections;
}

/// The same network as the simulator reads it, every place printed.
void write_netlist(FILE* file, const std::vector<NetworkSection>& sections) {
    std::fprintf(file, "thirty sections\nV1 n0 0 %.17g\n", in_volts(source));
    std::string start, print;
    for (std::size_t i = 0; i < sections.size(); ++i) {
        const std::size_t from = sections[i].from ? *sections[i].from + 1 : 0, node = i + 1;
        std::fprintf(file, "R%zu n%zu n%zu %.17g\n", node, from, node, in_ohms(sections[i].loop));
        for (const LoadLaw& load : sections[i].loads) {
            if (const auto* power = std::get_if<Power>(&load))
                std::fprintf(file, "B%zu n%zu 0 I = %.17g/v(n%zu)\n", node, node, in_watts(*power), node);
            if (const auto* current = std::get_if<Current>(&load))
                std::fprintf(file, "I%zu n%zu 0 %.17g\n", node, node, in_amperes(*current));
            if (const auto* resistance = std::get_if<Resistance>(&load))
                std::fprintf(file, "RL%zu n%zu 0 %.17g\n", node, node, in_ohms(*resistance));
        }
        start += " v(n" + std::to_string(node) + ")=12.9";
        print += " v(n" + std::to_string(node) + ")";
    }
    std::fprintf(file, ".nodeset%s\n.options reltol=1e-12 abstol=1e-15 vntol=1e-13 gmin=1e-18\n", start.c_str());
    std::fprintf(file, ".control\nset numdgt=15\nop\nprint%s\nquit 0\n.endc\n.end\n", print.c_str());
}

/// The voltages that the simulator prints for the netlist, in the order of the sections.
std::vector<double> simulate(const std::string& netlist) {
    std::vector<double> voltages;
    FILE* pipe = popen(("ngspice -n -b '" + netlist + "' 2>/dev/null </dev/null").c_str(), "r");
    if (!pipe) return voltages;
    char line[256];
    double voltage = 0.0;
    while (std::fgets(line, sizeof line, pipe))
        if (std::sscanf(line, "v(n%*u) = %lf", &voltage) == 1) voltages.push_back(voltage);
    pclose(pipe);
    return voltages;
}

}  // namespace

int main(int argument_count, char** words) {
    const bool brief = argument_count > 1 && std::strcmp(words[1], "--short") == 0;
    constexpr int times = 100;
    const auto nanoseconds = [&](const std::vector<NetworkSection>& sections) {
        double sum = 0.0;
        const double whole = least(brief ? 50 : 1000, [&] {
            for (int i = 0; i < times; ++i)
                if (const auto answer = solve_network(source, sections)) sum += in_volts(answer->far_end.back());
        });
        return sum > 0.0 ? whole * 1e9 / times : HUGE_VAL;
    };

    const auto sections = vehicle(1.0);
    const auto answer = solve_network(source, sections);
    if (!answer) return 1;
    const double ours = nanoseconds(sections);
    std::printf("a network of %zu sections: %.0f ns, %d sweeps\n", sections.size(), ours, answer->sweeps);

    double holds = 1.0, fails = 2.0;
    while (solve_network(source, vehicle(fails))) fails *= 2.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (holds + fails);
        (solve_network(source, vehicle(middle)) ? holds : fails) = middle;
    }
    const auto edge = solve_network(source, vehicle(0.9999 * holds));
    if (!edge) return 1;
    std::printf("the same at 99.99 %% of the power that can be delivered: %.0f ns, %d sweeps\n",
                nanoseconds(vehicle(0.9999 * holds)), edge->sweeps);

    if (std::system("command -v ngspice >/dev/null 2>&1") != 0) {
        std::printf("the same by a general circuit simulator: not run, ngspice is not here\n");
        return 0;
    }
    std::string netlist = "/tmp/voltwright-bench-XXXXXX";
    const int descriptor = mkstemp(netlist.data());
    FILE* file = descriptor < 0 ? nullptr : fdopen(descriptor, "w");
    if (!file) return 1;
    write_netlist(file, sections);
    std::fclose(file);
    std::vector<double> theirs;
    const double process = least(brief ? 5 : 50, [&] { theirs = simulate(netlist); });
    std::remove(netlist.c_str());

    double worst = theirs.size() == sections.size() ? 0.0 : HUGE_VAL;
    for (std::size_t i = 0; i < std::min(theirs.size(), sections.size()); ++i)
        worst = std::max(worst, std::abs(theirs[i] - in_volts(answer->far_end[i])));
    std::printf(
        "the same by one process of a general circuit simulator: %.1f ms, ratio %.0f; voltages within %.2g uV\n",
        process * 1e3, process * 1e9 / ours, worst * 1e6);
    // On a noisy machine a bound has to leave room; the figures above say how it stands.
    return worst < 1e-6 && ours < 20e3 ? 0 : 1;
}
