#include "voltwright/profile/sections/starter.hpp"

#include "voltwright/profile/formats/fuse.hpp"
#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/stud.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

std::span<const Key> starter_rows() {
    static const Key rows[] = {
        key<&StarterKeys::alternator>(
            "alternator", usual("plain"), {},
            "\"smart\" when the engine's computer lowers the alternator's voltage to save fuel"),
        key<&StarterKeys::running>("running", usual("14.2 V"), {between(volts(12.0), volts(16.0))},
                                   "voltage at the starter battery with the engine running as usual"),
        key<&StarterKeys::lowest_running>("lowest_running", by_alternator<"13.8 V", "12.3 V">(),
                                          {between(volts(11.0), volts(16.0))},
                                          "lowest voltage there while the engine runs, lights and blower on"),
        key<&StarterKeys::capacity>("capacity", Absent{"assumed small, where a load hangs on it", R"("70 Ah")"},
                                    {between(ampere_hours(5.0), ampere_hours(1000.0))},
                                    "capacity printed on the starter battery, at the 20-hour rate"),
        key<&StarterKeys::cold_cranking>(
            "cold_cranking", Absent{"a range over the usual starter batteries", R"("650 A")"},
            {between(amperes(50.0), amperes(3000.0))},
            "cold-cranking current printed on the starter battery; or give internal_resistance"),
        key<&StarterKeys::internal_resistance>(
            "internal_resistance", Absent{"a range over the usual starter batteries", R"("6 mOhm")"},
            {up_to(milliohms(200.0))}, "internal resistance of the starter battery; or give cold_cranking"),
        key<&StarterKeys::spare_current>("spare_current", Absent{"not known, and not checked", R"("40 A")"},
                                         {between(amperes(0.0), amperes(500.0))},
                                         "current that the alternator has to spare for the charger"),
        key<&StarterKeys::main_fuse>(
            "main_fuse", Absent{"chosen where blades could not break a short there", R"("60 A post")"}, {fuse_rating()},
            "the fuse on its post for all small branches there: \"60 A post\", or \"none\""),
        key<&StarterKeys::have_main_fuse>("have_main_fuse", usual(false), {},
                                          "whether the fuse of main_fuse is there already and is not bought"),
        key<&StarterKeys::stud>("stud", Absent{"not known: a lug for your stud, to be looked at"}, {stud_diameter()},
                                "stud of its terminals, for the lugs: its thread or its diameter"),
        key<&StarterKeys::where>("where", usual("engine bay"), {surroundings()},
                                 "where the starter battery stands: a place or a temperature"),
    };
    return rows;
}

void look_through_starter(const WholeProfile& whole, Faults& faults) {
    const StarterKeys& keys = whole.given.starter;
    main_fuse_of_table(keys.main_fuse, keys.have_main_fuse, "starter", whole.tables, faults);
    place_of_table(keys.where, "starter.where", whole.tables, faults);
    if (keys.cold_cranking && keys.internal_resistance)
        add(faults, "starter.internal_resistance", "cold_cranking and internal_resistance are both given",
            "keep the one that was measured");
    // One of a pair alone is held against the other's default.
    not_above(whole.complete.starter.lowest_running, whole.complete.starter.running,
              keys.lowest_running ? "starter.lowest_running" : "starter.running", "the lowest running voltage",
              "the usual one", faults);
}

}  // namespace

SectionRow starter_section() {
    SectionRow row =
        one_section<&Profile::starter>("starter", "the vehicle's own battery and its alternator", starter_rows());
    row.contradictions = &look_through_starter;
    return row;
}

}  // namespace voltwright
