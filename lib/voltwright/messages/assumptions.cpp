#include "voltwright/messages/assumptions.hpp"

#include "voltwright/messages/arguments.hpp"
#include "voltwright/messages/filled.hpp"
#include "voltwright/units/show.hpp"

#include <cstddef>
#include <iterator>
#include <optional>

namespace voltwright {

namespace {

/// {about} is the thing or the things, {found} and {allowed} the quantities, every other name an argument.
struct AssumptionRow {
    AssumptionCode code;
    std::string_view name;
    std::string_view words;
};

constexpr AssumptionRow assumption_rows[] = {
    {AssumptionCode::ampacity_row, "ampacity-row",
     "Between two rows of the ampacity table the one with less copper counts: {rows}."},
    {AssumptionCode::battery_cold, "battery-cold",
     "{about}: down to {found} where it stands. It then gives {allowed} of its capacity< and takes {charging} of its "
     "usual "
     "charging current>."},
    {AssumptionCode::battery_electronics, "battery-electronics",
     "{about}: the lithium battery's own electronics usually open such a short within two seconds. That is not counted "
     "on."},
    {AssumptionCode::battery_heater, "battery-heater",
     "{about}: its heater takes up to {found} of a drive before it is charged."},
    {AssumptionCode::battery_new, "battery-new",
     "{about}: taken as new. Worn to {worn} of its capacity it lasts {found} from {soc}; health in [battery] says "
     "otherwise."},
    {AssumptionCode::body_return, "body-return",
     "{about}: the vehicle's body is the return, with {found} ({body}). At up to {allowed} the cable still does. Once "
     "measured, it is return = \"4 mOhm\"."},
    {AssumptionCode::charger_spare, "charger-spare",
     "The alternator has {found} to spare for the charger, unless spare_current in [starter] says otherwise."},
    {AssumptionCode::fridge_one_point, "fridge-one-point",
     "{about}: measured at one temperature alone; it takes up to {found} a day on this trip. A second point in rated "
     "makes it sure."},
    {AssumptionCode::fridge_starts_cold, "fridge-starts-cold",
     "{about}: taken to start cold. {mass} put in at {from} take {found} more (restock)<, a lid opened {times} times a "
     "day "
     "{lid} (opened)>."},
    {AssumptionCode::fuse_before, "fuse-before", "{about}: the {fuse} before it protects it too, while that stays."},
    {AssumptionCode::fuse_next_made, "fuse-next-made",
     "{about}: no fuse is made from {least} to the {allowed} that the cable may carry. The {fuse} is the next: up to "
     "150 % "
     "is allowed."},
    {AssumptionCode::hot_place, "hot-place", "{about}: up to {found} around it where it stands."},
    {AssumptionCode::idling, "idling",
     "Idling does not count as driving. Hot, the alternator may bring {found}; the {about} then brings {gives}, not "
     "{allowed}."},
    {AssumptionCode::lasting_short, "lasting-short",
     "{about}: a short there may last {found} before the fuse clears it. The cable then reaches {reaches}; {allowed} "
     "is "
     "allowed."},
    {AssumptionCode::load_always_on, "load-always-on",
     "{about}: neither hours nor duty is given; counted as on day and night, {found} a day."},
    {AssumptionCode::load_off, "load-off",
     "{about}: neither hours nor duty is given; counted as off. An hour takes {found}.< With more than {bearable} a "
     "day "
     "the trip does not hold.>"},
    {AssumptionCode::no_run, "no-run", "{about}: no run leads there; taken to sit at the battery."},
    {AssumptionCode::panel_plate, "panel-plate",
     "One panel for 12 V gives {found} when it is short-circuited; short_circuit, series and parallel in [solar] say "
     "otherwise."},
    {AssumptionCode::regulator_output, "regulator-output",
     "The regulator gives up to {found}, what the panel can bring; output in [solar] says otherwise."},
    {AssumptionCode::relay_flat, "relay-flat",
     "{about}: at first up to {found} flow, from a battery at {soc}. A flatter one takes more, and a fuse may blow."},
    {AssumptionCode::relay_spare, "relay-spare",
     "The alternator has {found} to spare for the relay, unless spare_current in [starter] says otherwise."},
    {AssumptionCode::selectivity, "selectivity", "{about}: a dead short there may blow the {fuse} too."},
    {AssumptionCode::sensor_assumed, "sensor-assumed",
     "{about}: a sensor on the battery is assumed. Without one the trip's lowest is {found}."},
    {AssumptionCode::sky, "sky",
     "{about}: {found} of a clear sky's sun comes through, as is usual for this month and latitude; by place {least} "
     "to {most}. clearness in [trip] says otherwise."},
    {AssumptionCode::smart_current, "smart-current",
     "{about}: the alternator is smart. Where its volts fall to {gives_up}, the charger takes {found} instead of "
     "{allowed}. Cable and fuse are chosen for that."},
    {AssumptionCode::starter_assumed, "starter-assumed",
     "The starter battery has {found} to {allowed} inside. Fault currents rest on it; cold_cranking narrows it."},
    {AssumptionCode::starter_capacity_assumed, "starter-capacity-assumed",
     "The starter battery holds {found}, unless capacity in [starter] says otherwise."},
    {AssumptionCode::uncleared_short, "uncleared-short",
     "{about}: a short there may draw too little for its fuse to clear. The cable then reaches {found}; {allowed} is "
     "allowed for long."},
};

constexpr bool each_assumption_has_its_row() {
    for (std::size_t i = 0; i < std::size(assumption_rows); ++i)
        if (static_cast<std::size_t>(assumption_rows[i].code) != i) return false;
    return true;
}
static_assert(each_assumption_has_its_row() &&
                  std::size(assumption_rows) == static_cast<std::size_t>(AssumptionCode::uncleared_short) + 1,
              "one row for each AssumptionCode, in its order");

const AssumptionRow& assumption_row(AssumptionCode code) { return assumption_rows[static_cast<std::size_t>(code)]; }

std::optional<std::string> words_of(const Assumption& assumption, std::string_view name) {
    if (name == "about") return show(assumption.about);
    if (name == "found" && assumption.found) return show(*assumption.found);
    if (name == "allowed" && assumption.allowed) return show(*assumption.allowed);
    const Argument* argument = find_argument(assumption.arguments, name);
    return argument ? std::optional(in_words(argument->value)) : std::nullopt;
}

}  // namespace

std::string_view show(AssumptionCode code) { return assumption_row(code).name; }

std::string show(const Assumption& assumption) {
    return filled(assumption_row(assumption.code).words,
                  [&](std::string_view name) { return words_of(assumption, name); });
}

}  // namespace voltwright
