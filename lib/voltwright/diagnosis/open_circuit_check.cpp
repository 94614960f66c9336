#include "voltwright/diagnosis/screening_state.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// So much across something through which a clamp shows nothing is no joint any more (data/practice/voltages.toml).
const Voltage no_joint_any_more = in_practice(PracticeVoltage::no_joint_any_more);
/// A clamp's nothing says something only where a sound vehicle has more than this.
constexpr Current worth_missing = amperes(0.5);

/// The whole voltage across a way through which nothing flows and behind which nothing arrives.
bool shows_a_break(const Evidence& evidence, const Measurement& drop, std::size_t branch) {
    if (current_flows(evidence, branch, drop) || voltage_arrives(evidence, branch, drop)) return false;
    if (drop.value >= alive_from) return true;
    return drop.value >= no_joint_any_more && clamped_without_current(evidence, branch, drop) &&
           sound_current(evidence, branch, drop) > worth_missing;
}

/// What is surely whole: it brings a voltage somewhere, or has none across it while a current should flow.
ElementSet whole_elements(const ScreeningState& state) {
    ElementSet whole;
    for (std::size_t i = 0; i < state.measurements().size(); ++i) {
        const Measurement& told = state.measurements()[i];
        if (state.finished[i] || told.probe.clamp()) continue;
        const auto branch = measured_branch(state.model(), told.probe);
        if (!branch) continue;
        const auto there = plus_to_minus(told);
        // The charger brings its own voltage to the beginning of its run.
        const bool is_whole =
            there ? *there >= alive_from && branch != state.model().output
                  : told.value < no_joint_any_more && sound_current(state.evidence, *branch, told) > Current{};
        if (is_whole) whole = united(whole, spanned(state.model(), told.probe));
    }
    return whole;
}

/// Of two readings that tell of one break what both have in common.
void note(std::vector<OpenCircuit>& open, OpenCircuit found) {
    for (OpenCircuit& one : open) {
        ElementSet narrower = common(one.among, found.among);
        if (narrower.empty()) continue;
        // The reading that says most is the one to name.
        if (found.among.size() < one.among.size() || (one.only_dead && !found.only_dead)) one.reading = found.reading;
        one.only_dead = one.only_dead && found.only_dead && narrower.size() == one.among.size();
        one.among = std::move(narrower);
        one.branch = std::min(one.branch, found.branch);
        return;
    }
    open.push_back(std::move(found));
}

/// A battery's own posts: no way leads there, so the leads touched nothing or it is disconnected.
void check_posts(ScreeningState& state, std::size_t reading, Voltage there) {
    const Measurement& told = state.measurements()[reading];
    if (circuit_is_alive(state.evidence, told)) return;
    state.anomalies.push_back({.kind = Anomaly::Kind::nothing_arrives,
                               .measurement = told.number,
                               .places = places_of(state.model(), told.probe),
                               .found = Measure{there}});
    state.finished[reading] = true;
}

void check_way(ScreeningState& state, std::size_t reading, std::size_t branch, const ElementSet& whole) {
    const Measurement& told = state.measurements()[reading];
    const bool place = plus_to_minus(told).has_value();
    if (place ? current_flows(state.evidence, branch, told) : !shows_a_break(state.evidence, told, branch)) return;
    const ElementSet all = spanned(state.model(), told.probe);
    ElementSet left = without(all, whole);
    // What contradicts itself is left as it was found.
    if (left.empty()) {
        if (!place) return;
        left = all;
    }
    state.finished[reading] = true;
    const bool only_dead = place && left.size() == all.size();
    note(state.open, {std::move(left), reading, branch, only_dead});
}

/// Common practice, no source: fuses fail first, then plugs, switches and other joints, then lugs, then the cable.
int rank(const CircuitModel& model, std::size_t element) {
    switch (model.elements[element].element.kind) {
        case Element::Kind::fuse: return 0;
        case Element::Kind::joint: return 1;
        case Element::Kind::lug: return 2;
        case Element::Kind::body: return 3;
        case Element::Kind::cable: return 4;
    }
    return 5;
}

/// First which run, then which side of it, then which of its parts, the likeliest first.
void propose_next(ScreeningState& state, const OpenCircuit& one, std::size_t likeliest, bool both_sides) {
    const CircuitModel& model = state.model();
    const std::size_t first = model.elements[one.among.front()].branch;
    const std::size_t last = model.elements[one.among.back()].branch;
    const Branch& run = model.branches[first];
    ProposedReading next{
        .probe = {}, .condition = state.measurements()[one.reading].condition, .run = run.run, .proves = Proves::load};
    if (first != last) {
        next.across = {run.far};
    } else if (both_sides) {
        next.proves = Proves::plus_side;
        next.across = {run.near + " +", run.far + " +"};
    } else {
        next.proves = Proves::joint;
        next.across = {model.elements[likeliest].element.name};
    }
    const auto probe = probe_across(model, next.across);
    if (!probe) return;
    next.probe = *probe;
    state.next = std::move(next);
}

OpenWay way_of(const CircuitModel& model, const ElementSet& among, bool out, bool back) {
    const std::size_t first = model.elements[among.front()].branch, last = model.elements[among.back()].branch;
    OpenWay way{.out = out, .back = back};
    if (first == last) {
        way.run = model.branches[last].run;
    } else {
        way.from = model.branches[first].near;
        way.to = model.branches[last].far;
    }
    return way;
}

void tell_open(ScreeningState& state, const OpenCircuit& one) {
    const CircuitModel& model = state.model();
    const Measurement& told = state.measurements()[one.reading];
    ElementSet likeliest = one.among;
    std::stable_sort(likeliest.begin(), likeliest.end(),
                     [&](std::size_t a, std::size_t b) { return rank(model, a) < rank(model, b); });
    const auto there = plus_to_minus(told);
    Anomaly anomaly{.kind = Anomaly::Kind::open_circuit,
                    .measurement = told.number,
                    .found = there ? Measure{*there} : told.value.measure()};
    for (const std::size_t element : likeliest) anomaly.elements.push_back(model.elements[element].element.name);
    anomaly.fuse = rank(model, likeliest.front()) == 0;
    const bool out = reaches_side(model, one.among, Side::out), back = reaches_side(model, one.among, Side::back);
    if (one.only_dead && out && back) {
        anomaly.kind = Anomaly::Kind::nothing_arrives;
        anomaly.places = places_of(model, told.probe);
    } else {
        anomaly.way = way_of(model, one.among, out, back);
    }
    state.anomalies.push_back(std::move(anomaly));
    if (!state.next && likeliest.size() > 1) propose_next(state, one, likeliest.front(), out && back);
}

}  // namespace

void check_open_circuits(ScreeningState& state) {
    const ElementSet whole = whole_elements(state);
    for (std::size_t i = 0; i < state.measurements().size(); ++i) {
        const Measurement& told = state.measurements()[i];
        if (state.finished[i] || told.probe.clamp()) continue;
        const auto there = plus_to_minus(told);
        if (there && *there >= dead_below) continue;
        if (const auto branch = measured_branch(state.model(), told.probe))
            check_way(state, i, *branch, whole);
        else if (there)
            check_posts(state, i, *there);
    }
    for (const OpenCircuit& one : state.open) tell_open(state, one);
}

bool behind_open_circuit(const ScreeningState& state, const Measurement& measurement) {
    const auto branch = measured_branch(state.model(), measurement.probe);
    return branch && std::any_of(state.open.begin(), state.open.end(), [&](const OpenCircuit& one) {
               return state.model().leads_through(one.branch, *branch);
           });
}

}  // namespace voltwright
