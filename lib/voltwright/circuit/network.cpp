#include "voltwright/circuit/network.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>

namespace voltwright {

namespace {

/// A section and its loads, summed by kind, as the sweeps use them. The first is the source with its own resistance;
/// a section stands one place after its number.
struct Link {
    std::size_t from;
    Resistance loop;
    Power power;
    Current current;
    Conductance conductance;

    Voltage voltage;      ///< at the far end
    Current through;      ///< I: what the loads beyond draw at the voltages as they stand
    Current gross;        ///< the same without regard to direction: what the rounding of I goes by
    Voltage mismatch;     ///< V_from − R·I − V
    Conductance follows;  ///< Y
    Current correction;   ///< of I, with the mismatches beyond put right and V where it is
    Ratio yields;         ///< 1/(1 + R·Y)
    Voltage move;         ///< of V, in the forward sweep
};

template <class Q>
bool finite(Q q) {
    return q - q == Q{};  // NOLINT(misc-redundant-expression): what is infinite less itself is no number
}

void require(bool holds, const char* otherwise) {
    if (!holds) throw std::logic_error(otherwise);
}

void add(Link& link, const LoadLaw& load) {
    if (const auto* power = std::get_if<Power>(&load)) {
        require(finite(*power) && *power >= Power{}, "a network's load has a power of zero or more");
        link.power += *power;
    } else if (const auto* current = std::get_if<Current>(&load)) {
        require(finite(*current), "a network's load has a finite current");
        link.current += *current;
    } else {
        const Resistance resistance = std::get<Resistance>(load);
        require(finite(resistance) && resistance > Resistance{}, "a network's load has a resistance above zero");
        link.conductance += 1.0 / resistance;
    }
}

std::vector<Link> links_of(Voltage source, std::span<const NetworkSection> sections, Resistance internal) {
    require(finite(source), "a network's source has a finite voltage");
    std::vector<Link> links;
    links.reserve(sections.size() + 1);
    const auto append = [&](std::size_t from, Resistance loop) -> Link& {
        require(finite(loop) && loop >= Resistance{}, "a network's sections have a resistance of zero or more");
        Link link{};
        link.from = from;
        link.loop = loop;
        link.voltage = source;
        return links.emplace_back(link);
    };
    append(0, internal);
    for (std::size_t i = 0; i < sections.size(); ++i) {
        const NetworkSection& section = sections[i];
        require(!section.from || *section.from < i, "a network's section begins at one that stands before it");
        Link& link = append(section.from ? *section.from + 1 : 0, section.loop);
        for (const LoadLaw& load : section.loads) add(link, load);
    }
    return links;
}

/// From the ends to the source: what each link carries, how that follows its voltage, and how far Ohm's law is missed.
/// Gives the worst miss as a share of the voltages it is the difference of; nothing when a branch would draw ever more as its voltage falls (past the turning point).
std::optional<Ratio> sweep_backward(std::vector<Link>& links, Voltage source, bool with_powers) {
    for (Link& link : links) {
        const Current linear = link.conductance * link.voltage;
        link.through = link.current + linear;
        link.gross = abs(link.current) + linear;
        link.follows = link.conductance;
        link.correction = Current{};
        if (with_powers && link.power > Power{}) {
            const Current current = link.power / link.voltage;
            link.through += current;
            link.gross += current;
            link.follows -= current / link.voltage;
        }
    }
    Ratio worst{};
    for (std::size_t i = links.size(); i-- > 0;) {
        Link& link = links[i];
        const Ratio pivot = 1.0 + link.loop * link.follows;
        if (!(pivot > 0.0)) return {};
        link.yields = 1.0 / pivot;
        const Voltage begins = i > 0 ? links[link.from].voltage : source;
        link.mismatch = begins - link.loop * link.through - link.voltage;
        const Voltage among = begins + link.voltage + link.loop * link.gross;
        if (!finite(link.mismatch) || !finite(among)) return {};
        worst = std::max(worst, Ratio{abs(link.mismatch) / among});
        if (i == 0) continue;
        Link& from = links[link.from];
        from.through += link.through;
        from.gross += link.gross;
        from.follows += link.follows * link.yields;
        from.correction += (link.correction + link.follows * link.mismatch) * link.yields;
    }
    return worst;
}

/// From the source to the ends: each voltage moves to where the loads will hold it. False when one is not above zero.
bool sweep_forward(std::vector<Link>& links) {
    for (std::size_t i = 0; i < links.size(); ++i) {
        Link& link = links[i];
        const Voltage begins = i > 0 ? links[link.from].move : Voltage{};  // the source itself does not move
        link.move = (begins + link.mismatch - link.loop * link.correction) * link.yields;
        link.voltage += link.move;
        if (!(link.voltage > Voltage{})) return false;
    }
    return true;
}

}  // namespace

std::optional<NetworkAnswer> solve_network(Voltage source, std::span<const NetworkSection> sections,
                                           Resistance internal) {
    std::vector<Link> links = links_of(source, sections, internal);
    if (!(source > Voltage{})) return {};

    // Rounding leaves a few units in the last place, now and then more: then the worst miss stops shrinking. Even close to
    // the turning point it otherwise shrinks to a quarter with each sweep.
    constexpr double rounding = 4.0 * std::numeric_limits<double>::epsilon();
    constexpr double nearly = 1e-13;
    constexpr int many = 100;

    if (!sweep_backward(links, source, false) || !sweep_forward(links)) return {};
    Ratio before{1.0};
    for (int sweeps = 2; sweeps <= many; ++sweeps) {
        const std::optional<Ratio> worst = sweep_backward(links, source, true);
        if (!worst) return {};
        if (*worst <= rounding || (*worst <= nearly && *worst > 0.5 * before)) {
            NetworkAnswer answer{links[0].voltage, {}, {}, links[0].through, sweeps};
            answer.far_end.reserve(sections.size());
            answer.current.reserve(sections.size());
            for (std::size_t i = 1; i < links.size(); ++i) {
                answer.far_end.push_back(links[i].voltage);
                answer.current.push_back(links[i].through);
            }
            return answer;
        }
        if (!sweep_forward(links)) return {};
        before = *worst;
    }
    throw std::logic_error("the sweeps of a network do not settle");
}

}  // namespace voltwright
