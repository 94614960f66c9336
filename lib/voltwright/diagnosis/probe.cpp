#include "voltwright/diagnosis/probe.hpp"

#include <algorithm>

namespace voltwright {

bool Probe::drop() const {
    if (std::holds_alternative<Over>(what)) return true;
    const auto* between = std::get_if<Between>(&what);
    return between && between->red.plus == between->black.plus;
}

bool same_probe(const Probe& a, const Probe& b) {
    if (a.what.index() != b.what.index()) return false;
    if (const auto* over = std::get_if<Probe::Over>(&a.what))
        return over->element == std::get<Probe::Over>(b.what).element;
    if (const auto* through = std::get_if<Probe::Through>(&a.what))
        return through->branch == std::get<Probe::Through>(b.what).branch;
    const auto& one = std::get<Probe::Between>(a.what);
    const auto& other = std::get<Probe::Between>(b.what);
    return (one.red == other.red && one.black == other.black) || (one.red == other.black && one.black == other.red);
}

namespace {

using At = Probe::Point::At;

std::optional<Probe::Point> point_named(const CircuitModel& model, std::string_view name, bool plus) {
    const PlaceKind kind = place_named(name).kind;
    if (kind == PlaceKind::starter_battery) return Probe::Point{At::starter, 0, plus};
    if (kind == PlaceKind::house_battery) return Probe::Point{At::house, 0, plus};
    // Where the run to the house battery begins; "charger" is where the feed ends.
    if (model.output && name == model.branches[*model.output].near) return Probe::Point{At::output, 0, plus};
    for (std::size_t i = 0; i < model.branches.size(); ++i)
        if (model.branches[i].far == name && model.branches[i].role != RunRole::output)
            return Probe::Point{At::branch, i, plus};
    return {};
}

bool on_starter_circuit(const CircuitModel& model, const Probe::Point& point) {
    return point.at == At::starter || (point.at == At::branch && model.branches[point.branch].by_starter);
}

}  // namespace

std::optional<Probe> probe_across(const CircuitModel& model, const std::vector<std::string>& across) {
    if (across.empty() || across.size() > 2) return {};
    std::vector<std::pair<std::string_view, bool>> leads;
    for (const std::string& name : across) leads.emplace_back(without_pole(name), name.back() != '-');
    if (across.size() == 1) {
        if (const auto element = model.element_of(across[0])) return Probe{Probe::Over{*element}};
        if (without_pole(across[0]) != across[0]) return {};
        leads.emplace_back(leads[0].first, false);
    }
    const auto red = point_named(model, leads[0].first, leads[0].second);
    const auto black = point_named(model, leads[1].first, leads[1].second);
    if (!red || !black || on_starter_circuit(model, *red) != on_starter_circuit(model, *black)) return {};
    return Probe{Probe::Between{*red, *black}};
}

std::optional<Probe> probe_through(const CircuitModel& model, std::string_view run) {
    if (const auto branch = model.branch_of(run)) return Probe{Probe::Through{*branch}};
    for (std::size_t i = 0; i < model.branches.size(); ++i)
        if (model.branches[i].far == run) return Probe{Probe::Through{i}};
    return {};
}

std::string place_name(const CircuitModel& model, const Probe::Point& point) {
    switch (point.at) {
        case At::starter: return the(PlaceKind::starter_battery).name;
        case At::house: return the(PlaceKind::house_battery).name;
        case At::output: return model.branches[model.output.value()].near;
        case At::branch: return model.branches[point.branch].far;
    }
    return {};
}

std::vector<std::string> names_of(const CircuitModel& model, const Probe& probe) {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return {model.branches[through->branch].run};
    if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return {model.elements[over->element].element.name};
    const auto& [red, black] = std::get<Probe::Between>(probe.what);
    const std::string at_red = place_name(model, red), at_black = place_name(model, black);
    if (red.plus != black.plus && at_red == at_black) return {at_red};
    return {at_red + (red.plus ? " +" : " -"), at_black + (black.plus ? " +" : " -")};
}

std::vector<std::string> places_of(const CircuitModel& model, const Probe& probe) {
    const auto* between = std::get_if<Probe::Between>(&probe.what);
    if (!between) return {};
    const std::string at_red = place_name(model, between->red);
    if (between->red.same_place(between->black)) return {at_red};
    return {at_red, place_name(model, between->black)};
}

std::optional<std::size_t> measured_branch(const CircuitModel& model, const Probe& probe) {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return through->branch;
    if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return model.elements[over->element].branch;
    std::optional<std::size_t> last;
    const auto& between = std::get<Probe::Between>(probe.what);
    for (const Probe::Point* point : {&between.red, &between.black}) {
        if (point->at == At::output) last = model.output;
        // Branches stand behind the one that they begin at.
        if (point->at == At::branch && (!last || *last < point->branch)) last = point->branch;
    }
    return last;
}

}  // namespace voltwright
