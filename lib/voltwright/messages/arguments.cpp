#include "voltwright/messages/arguments.hpp"

#include "voltwright/messages/filled.hpp"
#include "voltwright/units/show.hpp"

namespace voltwright {

namespace {

/// Each in its words, one behind the other.
template <class List, class Words>
std::string listed(const List& list, std::string_view between, Words words) {
    std::string all;
    for (const auto& one : list) all += (all.empty() ? "" : std::string(between)) + words(one);
    return all;
}

std::string_view words_of(MoreCharge more) {
    switch (more) {
        case MoreCharge::panel: return "A panel";
        case MoreCharge::larger_panel: return "A larger panel";
        case MoreCharge::drive_or_panel: return "A drive a day or a panel";
        case MoreCharge::longer_drives_or_larger_panel: return "Longer drives or a larger panel";
        case MoreCharge::longer_drives_or_panel: return "Longer drives or a panel";
        case MoreCharge::larger_panel_or_charger: return "A larger panel or a DC-DC charger";
        case MoreCharge::charger_or_panel: return "A DC-DC charger or a panel";
        case MoreCharge::larger_charger_or_larger_panel: return "A larger charger or a larger panel";
        case MoreCharge::larger_charger_or_panel: return "A larger charger or a panel";
    }
    return {};
}

struct InWords {
    std::string operator()(const Measure& measure) const { return show(measure); }
    std::string operator()(bool truth) const { return truth ? "yes" : "no"; }
    std::string operator()(int number) const { return std::to_string(number); }
    std::string operator()(const Gauge& size) const { return show(size); }
    std::string operator()(const NamedCable& cable) const { return in_words(cable); }
    std::string operator()(const NamedFuse& fuse) const { return in_words(fuse); }
    std::string operator()(const std::vector<NamedFuse>& fuses) const {
        return listed(fuses, " and ", [](const NamedFuse& fuse) {
            const std::string words = in_words(fuse);
            return (wants_an(words) ? "an " : "a ") + words;
        });
    }
    std::string operator()(const std::vector<RowTaken>& rows) const {
        return listed(rows, ", ", [](const RowTaken& taken) { return show(taken.size) + " as " + show(taken.row); });
    }
    std::string operator()(const Place& place) const { return place_in_words(place); }
    std::string operator()(const Moment& moment) const { return when(moment); }
    std::string operator()(MoreCharge more) const { return std::string(words_of(more)); }
    std::string operator()(const std::string& text) const { return text; }
    std::string operator()(const std::vector<std::string>& names) const {
        return listed(names, ", ", [](const std::string& name) { return name; });
    }
};

}  // namespace

std::string place_in_words(const Place& place) {
    if (place.kind == PlaceKind::starter_battery) return "starter battery";
    if (place.kind == PlaceKind::house_battery) return "house battery";
    return place.name;
}

std::string in_words(const NamedFuse& fuse) {
    const std::string words = show(fuse.rating) + " " + fuse.family + (fuse.family.ends_with("breaker") ? "" : " fuse");
    return fuse.at ? words + " at the " + place_in_words(*fuse.at) : words;
}

std::string in_words(const NamedCable& cable) {
    return (cable.is_return ? "its return of " : "") + show_cable(cable.size, cable.insulation);
}

std::string in_words(const Argument::Value& value) { return std::visit(InWords{}, value); }

}  // namespace voltwright
