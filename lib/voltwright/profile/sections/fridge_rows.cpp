#include "voltwright/profile/sections/fridge.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

#include <cmath>

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

/// Two points make a line over the outside temperature; a third would have to lie on it.
void one_or_two(const std::optional<std::vector<RatedKeys>>& rated, const std::string& path, Faults& faults) {
    if (rated->empty())
        faults.push_back({path, "this list of ratings is empty", "leave the key out when nothing is known"});
    else if (rated->size() > 2)
        faults.push_back({path, "one or two ratings are wanted; these are " + std::to_string(rated->size()),
                          "keep the coldest and the hottest"});
}

/// To a tenth of a volt.
std::optional<Entry> mean_voltage(const Profile& profile, const Tables& tables, std::size_t) {
    const ChemistryRow* row = chemistry_of(profile, tables);
    if (!row) return {};
    return rounded(std::round(10.0 * in_volts(mean_running_voltage(tables, *row))) / 10.0, "V");
}

std::span<const Key> fridge_rows() {
    static const Key rows[] = {
        key<&FridgeKeys::name>("name", usual("fridge"), {},
                               "what the fridge is called; a run leads to it by this name"),
        asked(key<&FridgeKeys::draw>("draw", Required{R"("45 W")"}, {up_to(watts(1000.0))},
                                     "power that it draws while the compressor runs"),
              "W, on its rating plate; if only amperes stand there, times 12"),
        asked(key_with_rule<&FridgeKeys::rated, &one_or_two>(
                  "rated", Absent{"by litres, a rule of thumb"}, {},
                  "what it takes in a day at one or two outside temperatures: [{ around = \"25 "
                  "degC\", a_day = \"22 Ah\" }]"),
              "not known: delete this line, take the # from litres"),
        key<&FridgeKeys::counted_at>("counted_at", ByRule{"by chemistry", &mean_voltage},
                                     {between(volts(11.0), volts(15.0))},
                                     "mean voltage at which the ampere-hours of rated were counted; of no matter where "
                                     "they are watt-hours"),
        key<&FridgeKeys::litres>("litres", Absent{"not known"}, {between(litres(1.0), litres(1000.0))},
                                 "its volume, for a rule of thumb where rated is not known"),
        key<&FridgeKeys::inside>("inside", usual("5 degC"), {between(celsius(-40.0), celsius(25.0))},
                                 "temperature that it is set to"),
        key<&FridgeKeys::freezer>("freezer", Absent{"one zone", R"("-12 degC")"},
                                  {between(celsius(-40.0), celsius(25.0))},
                                  "temperature of its second zone, the colder one"),
        key<&FridgeKeys::freezer_share>("freezer_share", usual("33 %"), {share()},
                                        "share of its volume that the second zone has"),
        key<&FridgeKeys::opened>("opened", Absent{"as often as when rated was measured", "20"}, {counts(0, 500)},
                                 "how often a day its lid is opened, beyond what rated holds already"),
        key<&FridgeKeys::essential>("essential", usual(true), {}, "whether the trip fails when it goes off"),
        key<&FridgeKeys::cut_out>("cut_out", Absent{"both usual settings are tried", R"("10.4 V")"}, {cut()},
                                  "voltage at its terminals below which it switches itself off; with cut_in"),
        key<&FridgeKeys::cut_in>("cut_in", Absent{"both usual settings are tried", R"("11.7 V")"}, {cut()},
                                 "voltage above which it starts again; with cut_out"),
        key<&FridgeKeys::fuse_max>("fuse_max", usual("15 A"), {fuse_rating()}, "largest fuse that its manual allows"),
        key<&FridgeKeys::inrush>("inrush", Absent{"none"}, {},
                                 "short current on starting: { current = \"15 A\", time = \"0.5 s\" }"),
        key<&FridgeKeys::where>("where", usual("canopy"), {surroundings()},
                                "where the fridge stands: a place or a temperature"),
        key<&FridgeKeys::restock>("restock", Absent{"nothing warm is put in"}, {},
                                  "warm things put in: on which days, at what time, how much, how warm"),
    };
    return rows;
}

/// What says how much the fridge takes in a day.
void needs_of_fridge(const FridgeKeys& fridge, std::size_t index, Faults& faults) {
    const auto& rated = fridge.rated;
    if (rated && rated->size() == 2 && rated->front().around && rated->back().around &&
        rated->front().around->value == rated->back().around->value)
        add(faults, at("fridge", index, "rated") + "[1].around", "the two rated points are at the same temperature",
            "one of them is enough");
    if (!rated && !fridge.litres)
        add(faults, at("fridge", index, "draw"), "nothing says what the fridge takes in a day",
            "give rated = [{ around = \"25 degC\", a_day = \"22 Ah\" }], or at least litres");
}

/// The first day of a restock that the trip does not have.
void days_of_restock(const RestockKeys& restock, int last, const std::string& path, Faults& faults) {
    if (!restock.on) return;
    const auto& days = restock.on->days;
    const auto beyond = std::find_if(days.begin(), days.end(), [last](int day) { return day > last; });
    if (beyond != days.end()) beyond_the_trip(*beyond, last, path, faults);
}

void look_through_fridge(const WholeProfile& whole, Faults& faults) {
    // Loads have taken their names before.
    std::set<std::string> names;
    Faults of_loads;
    for (const LoadKeys& load : whole.given.loads)
        if (load.name) take_name(*load.name, {}, names, of_loads);
    for (std::size_t i = 0; i < whole.given.fridges.size(); ++i) {
        const FridgeKeys& fridge = whole.given.fridges[i];
        take_name(fridge.name.value_or("fridge"), at("fridge", i, "name"), names, faults);
        place_of_table(fridge.where, at("fridge", i, "where"), whole.tables, faults);
        not_above(fridge.cut_out, fridge.cut_in, at("fridge", i, "cut_out"), "cut_out", "cut_in", faults, false);
        if (fridge.cut_out.has_value() != fridge.cut_in.has_value())
            add(faults, at("fridge", i, fridge.cut_out ? "cut_out" : "cut_in"), "cut_out and cut_in belong together",
                "give both, or neither");
        const std::string restocks = at("fridge", i, "restock");
        for (std::size_t k = 0; fridge.restock && k < fridge.restock->size(); ++k)
            days_of_restock((*fridge.restock)[k], whole.given.trip.days.value_or(1), path_to(restocks, k) + ".on",
                            faults);
        if (fridge.freezer && whole.complete.fridges[i].inside->value < fridge.freezer->value)
            add(faults, at("fridge", i, "freezer"), "the freezer is set warmer than the rest",
                "inside is the warmer zone, freezer the colder one");
        needs_of_fridge(fridge, i, faults);
    }
}

std::string name_of_fridge(const Profile& profile, std::size_t index) {
    return profile.fridges.at(index).name.value_or("fridge");
}

}  // namespace

SectionRow fridge_section() {
    SectionRow row = list_section<&Profile::fridges>("fridge", 10, "compressor fridges and freezers", fridge_rows());
    row.contradictions = &look_through_fridge;
    row.name_of = &name_of_fridge;
    return row;
}

}  // namespace voltwright
