#include "voltwright/profile/sections/load.hpp"

#include "voltwright/profile/formats/clock.hpp"
#include "voltwright/profile/formats/draw.hpp"
#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

std::span<const Key> load_rows() {
    static const Key rows[] = {
        key<&LoadKeys::name>("name", Required{R"("lamp")"}, {},
                             "what the load is called; a run leads to it by this name"),
        key<&LoadKeys::draw>("draw", Required{R"("3 W")"},
                             {up_to(watts(10000.0)), up_to(amperes(1000.0)), between(milliohms(10.0), ohms(100000.0))},
                             "what it draws while it runs: a power, a current or a resistance"),
        // Neither has a default that would be written out: a load of which nobody said when it runs stays one.
        key<&LoadKeys::hours>("hours",
                              Absent{"at any time; without duty it counts as off, unless it is essential or on the "
                                     "starter battery",
                                     R"("18:00-22:00")"},
                              {}, "when it is on: from and to, one text or a list"),
        key<&LoadKeys::duty>("duty", Absent{"all of its hours", R"("50 %")"}, {share()},
                             "share of those hours that it really runs"),
        key<&LoadKeys::runs>(
            "runs", Absent{"as long as its hours say", R"("60 s")"}, {up_to(hours(1.0))},
            "how long it runs at a time, of a winch or a compressor: cable and fuse are then chosen for "
            "so short a time"),
        key<&LoadKeys::every>("every", Absent{"it does not run for short times", R"("10 min")"}, {up_to(hours(24.0))},
                              "from one start to the next, with runs"),
        key<&LoadKeys::essential>("essential", usual(false), {}, "whether the trip fails when it goes off"),
        key<&LoadKeys::through>("through", Absent{"it is fed with 12 V", R"("inverter")"}, {},
                                "\"inverter\" when it hangs on the inverter"),
        key<&LoadKeys::cut_out>("cut_out", Absent{"it does not switch itself off", R"("10.4 V")"}, {cut()},
                                "voltage at its terminals below which it switches itself off"),
        key<&LoadKeys::cut_in>("cut_in", Absent{"as soon as the voltage is above cut_out", R"("11.7 V")"}, {cut()},
                               "voltage above which it starts again"),
        key<&LoadKeys::inrush>("inrush", Absent{"none"}, {},
                               "short current on starting: { current = \"20 A\", time = \"0.2 s\" }"),
        key<&LoadKeys::where>("where", usual("canopy"), {surroundings()},
                              "where the load stands: a place or a temperature"),
    };
    return rows;
}

/// What hangs on the inverter.
void fed_through(const LoadKeys& load, bool inverter, std::size_t index, Faults& faults) {
    if (*load.through != "inverter")
        add(faults, at("load", index, "through"),
            "a load hangs on 12 V or on the inverter, not on '" + *load.through + "'",
            "write \"inverter\", or leave the key out");
    else if (!inverter)
        add(faults, at("load", index, "through"), "the profile has no [inverter]",
            "describe it: [inverter] with its output");
    else if (load.draw && !std::holds_alternative<Spread<Power>>(*load.draw))
        add(faults, at("load", index, "draw"), "what runs through the inverter is given in watts",
            "write what its plate says, as in draw = \"60 W\"");
}

/// What runs for a short time.
void runs_and_every(const LoadKeys& load, std::size_t index, Faults& faults) {
    const auto fault = [&](const char* key, std::string what, std::string hint) {
        add(faults, at("load", index, key), std::move(what), std::move(hint));
    };
    if (!load.runs) return fault("every", "`every` wants `runs` beside it", "say how long it runs: runs = \"60 s\"");
    if (!load.every)
        return fault("runs", "`runs` wants `every` beside it",
                     "say how long it is from one start to the next: every = \"10 min\"");
    if (load.runs->value > load.every->value)
        fault("runs", "it runs longer than from one start to the next",
              "every counts from start to start: at least " + show(load.runs->value));
    if (load.duty) fault("duty", "runs and every say how much of its hours it runs", "leave duty out");
    if (!load.hours)
        fault("runs", "`runs` wants `hours`: when in a day it is used",
              "as in hours = \"15:00-15:30\"; without them it would come on day and night");
    if (load.through) fault("runs", "what hangs on the inverter has no cable of its own to choose", "use duty instead");
}

void look_through_load(const WholeProfile& whole, Faults& faults) {
    std::set<std::string> names;
    for (std::size_t i = 0; i < whole.given.loads.size(); ++i) {
        const LoadKeys& load = whole.given.loads[i];
        if (load.name) take_name(*load.name, at("load", i, "name"), names, faults);
        place_of_table(load.where, at("load", i, "where"), whole.tables, faults);
        not_above(load.cut_out, load.cut_in, at("load", i, "cut_out"), "cut_out", "cut_in", faults, false);
        if (load.runs || load.every) runs_and_every(load, i, faults);
        if (load.through) fed_through(load, whole.given.inverter.has_value(), i, faults);
    }
}

std::string name_of_load(const Profile& profile, std::size_t index) {
    return profile.loads.at(index).name.value_or("");
}

}  // namespace

SectionRow load_section() {
    SectionRow row = list_section<&Profile::loads>("load", 200, "everything else that draws current", load_rows());
    row.contradictions = &look_through_load;
    row.name_of = &name_of_load;
    return row;
}

}  // namespace voltwright
