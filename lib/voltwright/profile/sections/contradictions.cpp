#include "voltwright/profile/sections/contradictions.hpp"

#include "voltwright/profile/sections/charger.hpp"
#include "voltwright/sizing/ampacity.hpp"

#include <algorithm>
#include <iterator>

namespace voltwright::contradictions {

namespace {

constexpr std::string_view places_of_the_vehicle[] = {"starter",  "charger", "relay",    "battery",
                                                      "inverter", "panel",   "regulator"};

bool is_place_of_the_vehicle(const std::string& name) {
    return std::find(std::begin(places_of_the_vehicle), std::end(places_of_the_vehicle), name) !=
           std::end(places_of_the_vehicle);
}

}  // namespace

std::string at(std::string_view section, std::size_t index, std::string_view key) {
    return path_to(path_to(std::string(section), index), key);
}

void add(Faults& faults, std::string path, std::string what, std::string hint) {
    faults.push_back({std::move(path), std::move(what), std::move(hint), false});
}

std::string did_you_mean(std::string_view word, const std::vector<std::string_view>& known,
                         const std::string& or_else) {
    if (const auto near = nearest_word(word, known))
        return "did you mean \"" + std::string(*near) + "\"?" + (or_else.empty() ? "" : " Or " + or_else);
    std::string all;
    for (const std::string_view name : known) all += (all.empty() ? "\"" : ", \"") + std::string(name) + "\"";
    if (all.empty()) return or_else;
    return "one of " + all + (or_else.empty() ? "" : ", or " + or_else);
}

void beyond_the_trip(int day, int last, const std::string& path, Faults& faults) {
    add(faults, path,
        "day " + std::to_string(day) + " is beyond the trip, which has " + std::to_string(last) +
            (last == 1 ? " day" : " days"),
        "make trip.days longer, or take the day out");
}

void place_of_table(const Somewhere& where, const std::string& path, const Tables& tables, Faults& faults) {
    const auto* name = std::get_if<std::string>(&where);
    if (!name || find_surroundings(tables, *name)) return;
    std::vector<std::string_view> known;
    for (const SurroundingsRow& row : tables.surroundings) known.push_back(row.place);
    add(faults, path, "'" + *name + "' is no place that the tables know",
        did_you_mean(*name, known, "a temperature: \"40 degC\""));
}

void place_of_table(const Given<Somewhere>& where, const std::string& path, const Tables& tables, Faults& faults) {
    if (where) place_of_table(*where, path, tables, faults);
}

void size_of_table(Gauge gauge, const std::string& path, const Tables& tables, Faults& faults) {
    if (conductor_of(tables, gauge)) return;
    std::string known;
    for (const ConductorRow& row : tables.conductors)
        if (row.gauge.system == gauge.system) known += (known.empty() ? "" : ", ") + show(row.gauge);
    for (const TradeSizeRow& row : tables.trade_sizes)
        if (row.gauge.system == gauge.system) known += (known.empty() ? "" : ", ") + show(row.gauge);
    add(faults, path, show(gauge) + " is no size that the tables know", "one of " + known);
}

namespace {

bool same_rating(Current a, Current b) { return abs(a - b) < 1e-6 * b; }

/// "the nearest that are made: 40 A; 50 A is made as SF30, post": what a rating that is not made may stand for.
std::string nearest_ratings(const FuseFamilyRow& family, Current rating, const Tables& tables) {
    const FuseRow* below = nullptr;
    const FuseRow* above = nullptr;
    std::string others;
    for (const FuseRow& row : tables.fuses) {
        if (row.family != family.family) {
            const FuseFamilyRow* other = find_fuse_family(tables, row.family);
            if (same_rating(row.rating, rating) && other && other->form != FuseForm::breaker)
                others += (others.empty() ? "" : ", ") + std::string(row.family);
            continue;
        }
        if (row.rating < rating) below = &row;
        if (row.rating > rating && !above) above = &row;
    }
    std::string nearest = below ? show(below->rating) : "";
    if (above) nearest += (below ? " and " : "") + show(above->rating);
    return "the nearest that are made: " + nearest +
           (others.empty() ? "" : "; " + show(rating) + " is made as " + others);
}

}  // namespace

void fuse_of_table(const FuseChoice& fuse, const std::string& path, const Tables& tables, Faults& faults) {
    const FuseFamilyRow* family = find_fuse_family(tables, fuse.family);
    if (!family) {
        std::vector<std::string_view> known;
        for (const FuseFamilyRow& row : tables.fuse_families) known.push_back(row.family);
        return add(faults, path, "'" + fuse.family + "' is no family of fuses that the tables know",
                   did_you_mean(fuse.family, known));
    }
    const bool made = std::any_of(tables.fuses.begin(), tables.fuses.end(), [&](const FuseRow& row) {
        return row.family == family->family && same_rating(row.rating, fuse.rating.value);
    });
    if (!made)
        add(faults, path,
            "no " + std::string(family->family) + (family->form == FuseForm::breaker ? "" : " fuse") + " of " +
                show(fuse.rating.value) + " is made",
            nearest_ratings(*family, fuse.rating.value, tables));
}

void main_fuse_of_table(const Given<PostFuse>& fuse, const Given<bool>& have, const std::string& section,
                        const Tables& tables, Faults& faults) {
    if (fuse && fuse->fuse) fuse_of_table(*fuse->fuse, section + ".main_fuse", tables, faults);
    if (have.value_or(false) && !(fuse && fuse->fuse))
        add(faults, section + ".have_main_fuse", "the main fuse is there already, and nobody says which",
            "write main_fuse, as in main_fuse = \"60 A post\"");
}

std::set<std::string> names_of_loads(const Profile& profile) {
    std::set<std::string> names;
    for (const LoadKeys& load : profile.loads)
        if (load.name && !is_place_of_the_vehicle(*load.name)) names.insert(*load.name);
    for (const FridgeKeys& fridge : profile.fridges)
        if (const std::string name = fridge.name.value_or("fridge"); !is_place_of_the_vehicle(name)) names.insert(name);
    return names;
}

void take_name(const std::string& name, const std::string& path, std::set<std::string>& taken, Faults& faults) {
    if (is_place_of_the_vehicle(name))
        add(faults, path, "'" + name + "' is a place of its own", "call the load something else");
    else if (name == "battery heater")
        add(faults, path, "'battery heater' is what warms the battery",
            "give it in [battery] as heater = \"60 W\", or call the load something else");
    else if (!taken.insert(name).second)
        add(faults, path, "two loads are called '" + name + "'", "give each a name of its own");
}

bool charges_while_driving(const Profile& given) {
    return given.charger.kind != Coupling::none && !charger_left_out(given);
}

std::string_view place_of_charger(const Profile& profile) {
    return profile.charger.kind == Coupling::relay ? "relay" : "charger";
}

std::vector<std::string> places_of(const Profile& profile) {
    std::vector<std::string> known = {"starter"};
    if (charges_while_driving(profile)) known.emplace_back(place_of_charger(profile));
    known.emplace_back("battery");
    if (profile.inverter) known.emplace_back("inverter");
    if (profile.solar) known.insert(known.end(), {"panel", "regulator"});
    const std::set<std::string> loads = names_of_loads(profile);
    known.insert(known.end(), loads.begin(), loads.end());
    return known;
}

}  // namespace voltwright::contradictions
