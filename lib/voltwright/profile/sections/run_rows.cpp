#include "voltwright/profile/sections/run.hpp"

#include "voltwright/profile/formats/cable.hpp"
#include "voltwright/profile/formats/fuse.hpp"
#include "voltwright/profile/formats/joints.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/return_path.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"
#include "voltwright/profile/sections/run_ends.hpp"
#include "voltwright/profile/sections/way.hpp"
#include "voltwright/units/scan.hpp"

#include <algorithm>

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

bool is(const std::optional<std::string>& name, std::string_view wanted) { return name && same_word(*name, wanted); }

/// Whether a run leads to what stands between the two batteries.
bool is_feed(const RunKeys& run) { return is(run.to, "charger") || is(run.to, "relay"); }

std::optional<Entry> beginning_of_run(const Profile& profile, const Tables&, std::size_t index) {
    const auto& to = profile.runs[index].to;
    if (is_feed(profile.runs[index])) return text_entry("starter");
    if (is(to, "regulator")) return text_entry("panel");
    if (!is(to, "battery")) return text_entry("battery");
    return text_entry(profile.charger.kind == Coupling::none && profile.solar ? "regulator"
                                                                              : place_of_charger(profile));
}

/// What a run is called that bears no name of its own.
std::string usual_name(const RunKeys& run) {
    if (is_feed(run)) return "feed";
    if (is(run.to, "battery") && is(run.from, "regulator")) return "solar";
    return *run.to;
}

std::optional<Entry> name_of_run(const Profile& profile, const Tables&, std::size_t index) {
    if (!profile.runs[index].to) return {};
    return text_entry(usual_name(profile.runs[index]));
}

/// A panel's cable is sun cable: EN 50618 rates it 90 degC for as long as the panel lasts.
std::optional<Entry> insulation_of_run(const Profile& profile, const Tables&, std::size_t index) {
    return text_entry(is(profile.runs[index].to, "regulator") ? "90 degC" : "105 degC");
}

std::optional<Entry> loaded_conductors(const Profile& profile, const Tables&, std::size_t index) {
    const auto& back = profile.runs[index].return_;
    Entry entry;
    entry.content = std::int64_t{back && std::holds_alternative<ByBody>(*back) ? 1 : 2};
    return entry;
}

std::span<const Key> run_rows() {
    static const Key rows[] = {
        key<&RunKeys::to>(
            "to", Required{R"("charger")"}, {},
            "where the run leads: charger (or relay), battery, inverter, regulator, a load, a fridge, a fuse block"),
        asked(key<&RunKeys::length>("length", Required{R"("6 m")"}, {up_to(metres(100.0))},
                                    "length of the cable one way, as it is laid"),
              "m, one way: lay a string where the cable will go"),
        key<&RunKeys::from>(
            "from",
            ByRule{
                "starter for the charger or relay; that, or without one the regulator, for the battery; panel for the "
                "regulator; else battery",
                &beginning_of_run},
            {}, "where the run begins"),
        key<&RunKeys::name>(
            "name",
            ByRule{"its `to`; feed for the charger or relay, solar for the regulator's to the battery", &name_of_run},
            {}, "what the run is called"),
        key<&RunKeys::return_>(
            "return", usual("cable"), {joint_resistance()},
            "how the current comes back: \"cable\", \"body\", or the measured resistance of the whole return"),
        key<&RunKeys::return_size>("return_size", Absent{"as the way out"}, {},
                                   "size of the cable back, when it is another one"),
        key<&RunKeys::insulation>(
            "insulation", ByRule{"105 degC; 90 degC for a panel's cable", &insulation_of_run},
            {between(celsius(60.0), celsius(250.0))},
            "temperature that its insulation bears for long, printed on it or told by its mark, with pvc, xlpe, "
            "rubber or silicone if known"),
        key<&RunKeys::where>("where", Absent{"by its ends"}, {surroundings()},
                             "what the run passes: a place, a temperature, or places with their lengths"),
        key<&RunKeys::loaded_in_bundle>(
            "loaded_in_bundle", ByRule{"2, or 1 with the body as return", &loaded_conductors}, {counts(1, 50)},
            "how many cables that carry current are bundled together, this run's own among them"),
        key<&RunKeys::joints>("joints", Absent{"two lugs at each end"}, {joint_resistance()},
                              "what sits in the run beside cable and fuse: names from the joint table, or resistances"),
        key<&RunKeys::size>(
            "size", Absent{"chosen by the plan"}, {},
            "size of the cable: it is judged, not chosen, and bought unless `have` says that it is there"),
        key<&RunKeys::fuse>("fuse", Absent{"chosen by the plan", R"("15 A blade")"}, {fuse_rating()},
                            "the fuse, \"50 A SF30\" or \"none\", or by end: { starter = \"50 A SF30\" }; judged and "
                            "bought as size is"),
        key<&RunKeys::breaking>(
            "breaking", Absent{"by the fuse tables", R"("6 kA")"}, {between(amperes(100.0), amperes(200000.0))},
            "what the fuse of `fuse` is made to interrupt at 12 V d.c., as printed on it or its sheet"),
        key<&RunKeys::have>(
            "have", Absent{"size and fuse are bought", R"("cable")"}, {},
            "what is there already and is not bought: the cable of `size`, the fuse of `fuse`, or both"),
    };
    return rows;
}

void way_of_run(const RunKeys& run, const std::string& path, const Tables& tables, Faults& faults) {
    if (!run.where) return;
    if (const auto* somewhere = std::get_if<Somewhere>(&*run.where))
        return place_of_table(*somewhere, path, tables, faults);
    Length whole{};
    const auto& sections = std::get<std::vector<WaySection>>(*run.where);
    for (std::size_t i = 0; i < sections.size(); ++i) {
        place_of_table(sections[i].place, path_to(path, i) + ".place", tables, faults);
        whole += sections[i].length.value;
    }
    if (run.length && abs(whole - run.length->value) > 0.01 * run.length->value)
        add(faults, path,
            "the places add up to " + show(whole) + ", and the run is " + show(run.length->value) + " long");
}

void joints_of_run(const RunKeys& run, const std::string& path, const Tables& tables, Faults& faults) {
    for (std::size_t i = 0; run.joints && i < run.joints->size(); ++i) {
        const auto* name = std::get_if<std::string>(&(*run.joints)[i]);
        if (!name || find_joint(tables, *name, square_millimetres(10))) continue;
        std::vector<std::string_view> known;
        for (const JointRow& row : tables.joints)
            if (known.empty() || known.back() != row.name) known.push_back(row.name);
        add(faults, path_to(path, i), "'" + *name + "' is no joint that the tables know",
            did_you_mean(*name, known, "its resistance: \"0.4 mOhm\""));
    }
}

bool any_fuse(const RunKeys& run) {
    return run.fuse && std::any_of(run.fuse->at.begin(), run.fuse->at.end(),
                                   [](const auto& end) { return end.second.has_value(); });
}

void fuses_of_run(const RunKeys& run, const std::string& from, const std::string& path, const Tables& tables,
                  Faults& faults) {
    if (!run.fuse) return;
    for (const auto& [end, choice] : run.fuse->at) {
        const std::string place = path + (end.empty() ? "" : "." + end);
        if (choice) fuse_of_table(*choice, place, tables, faults);
        if (!end.empty() && run.to && end != *run.to && end != from)
            add(faults, place, "'" + end + "' is no end of this run",
                "its ends are \"" + from + "\" and \"" + *run.to + "\"");
    }
}

/// What is there already has to be told, or nothing could be judged.
void what_is_there(const RunKeys& run, const std::string& path, Faults& faults) {
    if (!run.have) return;
    if (has_cable(*run.have) && !run.size)
        add(faults, path, "the cable is there already, and nobody says its size", "write size, as in size = \"6 AWG\"");
    if (has_fuse(*run.have) && !any_fuse(run))
        add(faults, path, "the fuse is there already, and nobody says which", "write fuse, as in fuse = \"50 A SF30\"");
}

void parts_of_run(const WholeProfile& whole, std::size_t index, Faults& faults) {
    const RunKeys& run = whole.given.runs[index];
    const Tables& tables = whole.tables;
    if (run.size) size_of_table(*run.size, at("run", index, "size"), tables, faults);
    if (run.return_size) size_of_table(*run.return_size, at("run", index, "return_size"), tables, faults);
    if (run.return_size && run.return_ && !std::holds_alternative<ByCable>(*run.return_))
        add(faults, at("run", index, "return_size"), "this run does not come back by a cable",
            "take return or return_size out");
    way_of_run(run, at("run", index, "where"), tables, faults);
    joints_of_run(run, at("run", index, "joints"), tables, faults);
    fuses_of_run(run, *whole.complete.runs[index].from, at("run", index, "fuse"), tables, faults);
    if (run.breaking && !any_fuse(run))
        add(faults, at("run", index, "breaking"), "nobody says which fuse is made to interrupt that",
            "write fuse, as in fuse = \"100 A ANL\"");
    what_is_there(run, at("run", index, "have"), faults);
}

void names_of_runs(const WholeProfile& whole, Faults& faults) {
    std::set<std::string> names;
    for (std::size_t i = 0; i < whole.given.runs.size(); ++i) {
        const auto& name = whole.complete.runs[i].name;
        // Where nobody named them, two runs lead to one place, and that is said elsewhere.
        const bool same_place = !whole.given.runs[i].name;
        if (name && !names.insert(*name).second && !same_place)
            add(faults, at("run", i, "name"), "two runs are called '" + *name + "'", "give each a name of its own");
    }
}

void look_through_run(const WholeProfile& whole, Faults& faults) {
    names_of_runs(whole, faults);
    const bool good_ends = look_at_ends_of_runs(whole, faults);
    for (std::size_t i = 0; i < whole.given.runs.size(); ++i) parts_of_run(whole, i, faults);
    const std::string place(place_of_charger(whole.given));
    const bool feed = std::any_of(whole.given.runs.begin(), whole.given.runs.end(),
                                  [&](const RunKeys& run) { return run.to == place; });
    if (good_ends && !feed && charges_while_driving(whole.given))
        add(faults, "run", "no run leads to the " + place + "; the length of its feed cannot be guessed",
            "[[run]] with to = \"" + place + "\" and length = \"6 m\", one way");
}

std::string name_of_this_run(const Profile& profile, std::size_t index) {
    const RunKeys& run = profile.runs.at(index);
    if (run.name) return *run.name;
    if (!run.to) return {};
    return usual_name(run);
}

}  // namespace

SectionRow run_section() {
    SectionRow row = list_section<&Profile::runs>("run", 100, "cable routes, one for each, out and back", run_rows());
    row.contradictions = &look_through_run;
    row.name_of = &name_of_this_run;
    return row;
}

}  // namespace voltwright
