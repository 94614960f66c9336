#include "voltwright/circuit/place.hpp"

#include <array>
#include <stdexcept>
#include <utility>

namespace voltwright {

namespace {

/// The first of two names of one kind is the usual one.
constexpr std::array<std::pair<PlaceKind, std::string_view>, 7> names_of_each = {{
    {PlaceKind::starter_battery, "starter"},
    {PlaceKind::house_battery, "battery"},
    {PlaceKind::charger, "charger"},
    {PlaceKind::charger, "relay"},
    {PlaceKind::panel, "panel"},
    {PlaceKind::regulator, "regulator"},
    {PlaceKind::inverter, "inverter"},
}};

}  // namespace

Place the(PlaceKind kind) {
    for (const auto& [of, name] : names_of_each)
        if (of == kind) return {kind, std::string(name)};
    throw std::logic_error("a place of this kind has a name of its own");
}

Place place_named(std::string_view name) {
    for (const auto& [kind, of] : names_of_each)
        if (of == name) return {kind, std::string(name)};
    return {PlaceKind::junction, std::string(name)};
}

bool is_battery(const Place& place) {
    return place.kind == PlaceKind::starter_battery || place.kind == PlaceKind::house_battery;
}

bool is_source(const Place& place) {
    return is_battery(place) || place.kind == PlaceKind::charger || place.kind == PlaceKind::panel ||
           place.kind == PlaceKind::regulator;
}

}  // namespace voltwright
