#include "voltwright/profile/sections/charger.hpp"

#include "voltwright/profile/formats/cable.hpp"
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

/// Charging voltages.
Range charging() { return between(volts(12.0), volts(16.0)); }

std::span<const Key> charger_rows() {
    static const Key rows[] = {
        asked(key<&ChargerKeys::output>("output", Required{R"("25 A")"}, {up_to(amperes(300.0))},
                                        "most current that the charger gives to the battery"),
              "A, printed on the charger"),
        key<&ChargerKeys::efficiency>("efficiency", usual("90 %"), {efficiency()}, "power out over power in"),
        key<&ChargerKeys::input_on>("input_on", by_alternator<"13.2 V", "12.0 V">(), {cut()},
                                    "voltage at its input above which it begins to charge"),
        key<&ChargerKeys::input_off>("input_off", by_alternator<"12.7 V", "11.0 V">(), {cut()},
                                     "voltage at its input below which it stops"),
        key<&ChargerKeys::wake>(
            "wake", by_alternator<"voltage", "ignition">(), {},
            "what tells it that the engine runs: the voltage at its input, or a wire from the ignition"),
        key<&ChargerKeys::input_limit>("input_limit", Absent{"it takes what it needs", R"("40 A")"},
                                       {up_to(amperes(500.0))}, "most current that it takes at its input"),
        key<&ChargerKeys::absorption>("absorption", by_chemistry<&ChemistryRow::absorption>(), {charging()},
                                      "voltage that it charges to, at 25 degC"),
        key<&ChargerKeys::float_>("float", by_chemistry<&ChemistryRow::float_>(), {charging()},
                                  "voltage that it holds a full battery at, at 25 degC"),
        key<&ChargerKeys::temperature_sensor>(
            "temperature_sensor", usual(true), {},
            "whether a sensor on the battery corrects its voltage: more in the cold, less in the heat"),
        key<&ChargerKeys::full_output_to>("full_output_to", usual("45 degC"), {between(celsius(0.0), celsius(120.0))},
                                          "surroundings up to which it gives its full output"),
        key<&ChargerKeys::derate>("derate", usual("2.5 %"), {share()},
                                  "output that it loses for each degree above full_output_to"),
        key<&ChargerKeys::off_above>("off_above", usual("65 degC"), {between(celsius(20.0), celsius(150.0))},
                                     "surroundings above which it switches itself off"),
        key<&ChargerKeys::fuse_max>("fuse_max", Absent{"no limit of its own", R"("60 A")"}, {fuse_rating()},
                                    "largest fuse that its manual allows at its input"),
        key<&ChargerKeys::terminal>("terminal", Absent{"it takes any size", R"("4 AWG")"}, {},
                                    "largest cable that its terminals take"),
        key<&ChargerKeys::stud>(
            "stud", Absent{"not known: a lug for your stud, to be looked at"}, {stud_diameter()},
            "stud of its terminals, for the lugs: its thread or its diameter; clamped ones have none"),
        key<&ChargerKeys::where>("where", usual("canopy"), {surroundings()},
                                 "where the charger stands: a place or a temperature"),
    };
    return rows;
}

void look_through_charger(const WholeProfile& whole, Faults& faults) {
    const ChargerKeys& given = whole.given.charger;
    place_of_table(given.where, "charger.where", whole.tables, faults);
    // One of a pair alone is held against the other's default.
    const ChargerKeys& keys = whole.complete.charger;
    not_above(keys.input_off, keys.input_on, given.input_off ? "charger.input_off" : "charger.input_on", "input_off",
              "input_on", faults, false);
    not_above(keys.float_, keys.absorption, given.float_ ? "charger.float" : "charger.absorption", "the float voltage",
              "the absorption voltage", faults);
    not_above(keys.full_output_to, keys.off_above,
              given.full_output_to ? "charger.full_output_to" : "charger.off_above", "full_output_to", "off_above",
              faults);
    if (given.terminal) size_of_table(*given.terminal, "charger.terminal", whole.tables, faults);
}

}  // namespace

SectionRow charger_section() {
    SectionRow row =
        one_section<&Profile::charger>("charger", "the DC-DC charger between the two batteries", charger_rows());
    row.contradictions = &look_through_charger;
    return row;
}

}  // namespace voltwright
