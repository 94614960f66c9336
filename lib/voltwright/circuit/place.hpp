#pragma once

#include <string>
#include <string_view>

namespace voltwright {

/// What stands where a run begins or ends.
enum class PlaceKind {
    starter_battery,
    house_battery,
    charger,  ///< or relay, between the batteries: the feed ends there, the run to the house battery begins there
    panel,
    regulator,  ///< of the panel
    inverter,
    consumer,  ///< a load or a fridge
    junction,  ///< a place that runs share: a fuse block, a bus bar
};

/// Where a run begins or ends. Two places are the same when they have the same name.
struct Place {
    PlaceKind kind;
    std::string name;  ///< as the profile writes it: "starter", "battery", "fuse block"

    friend bool operator==(const Place& a, const Place& b) { return a.name == b.name; }
};

/// The one of its kind: of a battery, the charger, the panel, the regulator and the inverter there is one each.
Place the(PlaceKind kind);

/// The place that a profile calls so: one of those, or else a junction. A relay stands in the charger's place. Which names are consumers only the profile knows.
Place place_named(std::string_view name);

/// A battery, or the charger as what feeds the run to the house battery: where the way to a place can begin.
[[nodiscard]] bool is_battery(const Place& place);
[[nodiscard]] bool is_source(const Place& place);

/// Its name.
inline std::string_view show(const Place& place) { return place.name; }

}  // namespace voltwright
