#include "voltwright/diagnosis/fault.hpp"

#include <algorithm>

namespace voltwright {

namespace {

FaultKind kind_of(Element::Kind element) {
    if (element == Element::Kind::cable) return FaultKind::cable;
    return element == Element::Kind::body ? FaultKind::body : FaultKind::joint;
}

}  // namespace

std::vector<CircuitFault> possible_faults(const CircuitModel& circuit, std::size_t measurements) {
    std::vector<CircuitFault> all;
    for (std::size_t i = 0; i < circuit.elements.size(); ++i)
        all.push_back({kind_of(circuit.elements[i].element.kind), i});
    for (std::size_t i = 0; i < circuit.branches.size(); ++i) {
        const auto& elements = circuit.branches[i].elements;
        if (std::any_of(elements.begin(), elements.end(),
                        [&](std::size_t element) { return circuit.elements[element].is_cable(); }))
            all.push_back({FaultKind::gauge, i});
    }
    for (std::size_t i = 0; i < measurements; ++i) all.push_back({FaultKind::gross_error, i});
    return all;
}

std::size_t branch_of(const CircuitModel& circuit, const CircuitFault& fault) {
    return fault.kind == FaultKind::gauge ? fault.index : circuit.elements[fault.index].branch;
}

double prior_log_odds(const CircuitModel& circuit, const CircuitFault& fault) {
    constexpr double of_joint = 0.0, of_fuse = -0.5, of_body = 0.5, of_gauge = -1.5, of_cable = -3.0,
                     of_gross_error = -2.5;
    switch (fault.kind) {
        case FaultKind::joint:
            return circuit.elements[fault.index].element.kind == Element::Kind::fuse ? of_fuse : of_joint;
        case FaultKind::body: return of_body;
        case FaultKind::gauge: return of_gauge;
        case FaultKind::cable: return of_cable;
        case FaultKind::gross_error: return of_gross_error;
    }
    return 0.0;
}

}  // namespace voltwright
