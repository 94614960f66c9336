#include "voltwright/diagnosis/element_set.hpp"

#include <algorithm>
#include <iterator>

namespace voltwright {

ElementSet united(const ElementSet& a, const ElementSet& b) {
    ElementSet all;
    std::set_union(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(all));
    return all;
}

ElementSet common(const ElementSet& a, const ElementSet& b) {
    ElementSet all;
    std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(all));
    return all;
}

ElementSet without(const ElementSet& a, const ElementSet& b) {
    ElementSet all;
    std::set_difference(a.begin(), a.end(), b.begin(), b.end(), std::back_inserter(all));
    return all;
}

namespace {

void append_side(const CircuitModel& model, std::size_t branch, bool plus, ElementSet& all) {
    for (const std::size_t element : model.branches[branch].elements)
        if ((model.elements[element].element.side == Side::out) == plus) all.push_back(element);
}

/// From the battery's post to a point.
ElementSet way_to(const CircuitModel& model, const Probe::Point& point) {
    ElementSet all;
    if (point.at == Probe::Point::At::output) append_side(model, *model.output, point.plus, all);
    if (point.at == Probe::Point::At::branch)
        for (std::optional<std::size_t> at = point.branch; at; at = model.branches[*at].from)
            append_side(model, *at, point.plus, all);
    std::sort(all.begin(), all.end());
    return all;
}

}  // namespace

ElementSet spanned(const CircuitModel& model, const Probe& probe) {
    if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return {over->element};
    const auto* between = std::get_if<Probe::Between>(&probe.what);
    if (!between) return {};
    const ElementSet red = way_to(model, between->red), black = way_to(model, between->black);
    const ElementSet all = united(red, black);
    return probe.drop() ? without(all, common(red, black)) : all;
}

bool reaches_side(const CircuitModel& model, const ElementSet& elements, Side side) {
    for (const std::size_t element : elements)
        if (model.elements[element].element.side == side) return true;
    return false;
}

}  // namespace voltwright
