#include "voltwright/planning/findings/finding.hpp"

#include <iterator>

namespace voltwright {

namespace {

std::string listed(const std::vector<std::string>& names) {
    std::string all;
    for (const std::string& name : names) all += (all.empty() ? "" : ", ") + name;
    return all;
}

template <class T>
void append(std::vector<T>& list, std::vector<T> more) {
    list.insert(list.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

std::string show(const FindingSubject& subject) {
    using Kind = FindingSubject::Kind;
    switch (subject.kind) {
        case Kind::run:
        case Kind::load:
        case Kind::rule: return listed(subject.names);
        case Kind::starter_battery: return "starter";
        case Kind::house_battery: return "battery";
        case Kind::charger:
        case Kind::relay:
        case Kind::inverter:
        case Kind::panel:
        case Kind::regulator:
        case Kind::sun:
        case Kind::fuses: return std::string(show(subject.kind));
    }
    return {};
}

std::string_view show(FindingSubject::Kind kind) {
    using Kind = FindingSubject::Kind;
    switch (kind) {
        case Kind::run: return "run";
        case Kind::load: return "load";
        case Kind::starter_battery: return "starter-battery";
        case Kind::house_battery: return "house-battery";
        case Kind::charger: return "charger";
        case Kind::relay: return "relay";
        case Kind::inverter: return "inverter";
        case Kind::panel: return "panel";
        case Kind::regulator: return "regulator";
        case Kind::sun: return "sun";
        case Kind::fuses: return "fuses";
        case Kind::rule: return "rule";
    }
    return {};
}

std::string_view show(MoreCharge more) {
    switch (more) {
        case MoreCharge::panel: return "panel";
        case MoreCharge::larger_panel: return "larger-panel";
        case MoreCharge::drive_or_panel: return "drive-or-panel";
        case MoreCharge::longer_drives_or_larger_panel: return "longer-drives-or-larger-panel";
        case MoreCharge::longer_drives_or_panel: return "longer-drives-or-panel";
        case MoreCharge::larger_panel_or_charger: return "larger-panel-or-charger";
        case MoreCharge::charger_or_panel: return "charger-or-panel";
        case MoreCharge::larger_charger_or_larger_panel: return "larger-charger-or-larger-panel";
        case MoreCharge::larger_charger_or_panel: return "larger-charger-or-panel";
    }
    return {};
}

const Argument* find_argument(const Arguments& arguments, std::string_view name) {
    const auto found = std::find_if(arguments.begin(), arguments.end(),
                                    [&](const Argument& argument) { return argument.name == name; });
    return found == arguments.end() ? nullptr : &*found;
}

Remedy operator+(Remedy first, Remedy second) {
    append(first.steps, std::move(second.steps));
    append(first.changes, std::move(second.changes));
    return first;
}

}  // namespace voltwright
