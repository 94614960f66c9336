#pragma once

#include "voltwright/profile/section.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// What the looks for contradictions of several sections share.
namespace voltwright::contradictions {

/// `run[1].length`
std::string at(std::string_view section, std::size_t index, std::string_view key);

void add(Faults& faults, std::string path, std::string what, std::string hint = {});

/// `did you mean "…"?`, or all that are known.
std::string did_you_mean(std::string_view word, const std::vector<std::string_view>& known,
                         const std::string& or_else = {});

/// Two values that must stand in an order, where both are there.
template <class Q>
void not_above(const Given<Spread<Q>>& low, const Given<Spread<Q>>& high, const std::string& path,
               std::string_view what, std::string_view other, Faults& faults, bool equal_is_fine = true) {
    if (!low || !high) return;
    const Q a = low->value, b = high->value;
    if (a < b || (equal_is_fine && a == b)) return;
    add(faults, path,
        std::string(what) + " is " + show(a) + ", which is not below " + std::string(other) + ", " + show(b),
        "change one of the two");
}

/// A day that the trip does not have.
void beyond_the_trip(int day, int last, const std::string& path, Faults& faults);

// ---- names of the tables --------------------------------------------------------------------------------------------

void place_of_table(const Somewhere& where, const std::string& path, const Tables& tables, Faults& faults);
void place_of_table(const Given<Somewhere>& where, const std::string& path, const Tables& tables, Faults& faults);
void size_of_table(Gauge gauge, const std::string& path, const Tables& tables, Faults& faults);
void fuse_of_table(const FuseChoice& fuse, const std::string& path, const Tables& tables, Faults& faults);
/// The main fuse of a battery, whose section this is.
void main_fuse_of_table(const Given<PostFuse>& fuse, const Given<bool>& have, const std::string& section,
                        const Tables& tables, Faults& faults);

// ---- names of the profile -------------------------------------------------------------------------------------------

/// Those of the loads and fridges that do not call themselves as a place of the vehicle is called.
std::set<std::string> names_of_loads(const Profile& profile);

/// Says that a load bears the name of a place of the vehicle, or one that is taken; else takes it.
void take_name(const std::string& name, const std::string& path, std::set<std::string>& taken, Faults& faults);

/// The batteries, the charger, the inverter, panel and regulator where they are, the loads and fridges.
std::vector<std::string> places_of(const Profile& profile);

/// Whether there is anything between the two batteries.
bool charges_while_driving(const Profile& given);

/// What the place between the two batteries is called: "charger", or "relay".
std::string_view place_of_charger(const Profile& profile);

}  // namespace voltwright::contradictions
