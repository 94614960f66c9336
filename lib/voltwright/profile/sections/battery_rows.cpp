#include "voltwright/profile/sections/battery.hpp"

#include "voltwright/energy/internal_resistance.hpp"
#include "voltwright/profile/formats/fuse.hpp"
#include "voltwright/profile/formats/place.hpp"
#include "voltwright/profile/formats/plain.hpp"
#include "voltwright/profile/formats/quantity.hpp"
#include "voltwright/profile/formats/stud.hpp"
#include "voltwright/profile/formats/word.hpp"
#include "voltwright/profile/sections/contradictions.hpp"
#include "voltwright/profile/sections/rows.hpp"

#include <cstdio>

namespace voltwright {

using namespace rows;
using namespace contradictions;

namespace {

/// A current that is a share of the whole bank's capacity.
template <auto Rate>
std::optional<Entry> share_of_bank(const Profile& profile, const Tables& tables, std::size_t) {
    const ChemistryRow* row = chemistry_of(profile, tables);
    if (!row || !profile.battery.capacity) return {};
    const Current limit =
        row->*Rate * profile.battery.capacity->value * static_cast<double>(profile.battery.count.value_or(1));
    return rounded(in_amperes(limit), "A");
}

std::optional<Entry> battery_resistance(const Profile& profile, const Tables& tables, std::size_t) {
    const ChemistryRow* row = chemistry_of(profile, tables);
    if (!row || !profile.battery.capacity || !(profile.battery.capacity->value > Charge{})) return {};
    const InternalResistance usual = internal_resistance(*row, profile.battery.capacity->value, 1);
    char digits[64];
    std::snprintf(digits, sizeof digits, "%.3g mOhm +- %.3g mOhm", in_milliohms(usual.expected),
                  in_milliohms(usual.high - usual.low) / 2.0);
    return text_entry(digits);
}

/// A temperature that only some chemistries have.
template <auto Limit>
std::optional<Entry> limit_of_chemistry(const Profile& profile, const Tables& tables, std::size_t) {
    const ChemistryRow* row = chemistry_of(profile, tables);
    if (!row || !(row->*Limit)) return {};
    return text_entry(write(Spread<Temperature>{*(row->*Limit), {}}));
}

std::span<const Key> battery_rows() {
    static const Key rows[] = {
        asked(key<&BatteryKeys::chemistry>(
                  "chemistry", Required{R"("agm")"}, {},
                  "kind of the house battery: flooded, AGM or gel lead-acid, or lithium iron phosphate"),
              R"("flooded", "agm", "gel", or "lfp" for lithium iron phosphate: on its label)"),
        asked(key<&BatteryKeys::capacity>("capacity", Required{R"("120 Ah")"},
                                          {between(ampere_hours(1.0), ampere_hours(5000.0))},
                                          "capacity of one battery at the 20-hour rate, as printed on it"),
              "Ah, printed on the battery"),
        key<&BatteryKeys::count>("count", usual(1), {counts(1, 20)}, "how many equal batteries stand in parallel"),
        key<&BatteryKeys::depth_limit>("depth_limit", by_chemistry<&ChemistryRow::depth_limit>(),
                                       {up_to(percent(100.0))},
                                       "share of the capacity that may be used before it counts as empty"),
        key<&BatteryKeys::charge_limit>(
            "charge_limit", ByRule{"by chemistry and capacity", &share_of_bank<&ChemistryRow::charge_limit>},
            {up_to(amperes(5000.0))}, "most charging current that all the batteries together may take"),
        key<&BatteryKeys::discharge_limit>(
            "discharge_limit", ByRule{"by chemistry and capacity", &share_of_bank<&ChemistryRow::discharge_limit>},
            {up_to(amperes(20000.0))}, "most current that all the batteries together may give"),
        key<&BatteryKeys::start_soc>("start_soc", usual("100 %"), {share()}, "state of charge when the trip begins"),
        key<&BatteryKeys::health>("health", usual("100 %"), {between(percent(10.0), percent(120.0))},
                                  "share of the printed capacity that the battery still has"),
        key<&BatteryKeys::internal_resistance>(
            "internal_resistance", ByRule{"by chemistry and capacity", &battery_resistance}, {up_to(milliohms(1000.0))},
            "internal resistance of one battery, warm and full"),
        key<&BatteryKeys::charge_above>(
            "charge_above",
            ByRule{"by chemistry; lead: none", &limit_of_chemistry<&ChemistryRow::charge_above>, R"("0 degC")"},
            {between(celsius(-40.0), celsius(20.0))}, "below it the battery takes no charge: lithium, from its sheet"),
        key<&BatteryKeys::charge_below>(
            "charge_below",
            ByRule{"by chemistry; lead: none", &limit_of_chemistry<&ChemistryRow::charge_below>, R"("50 degC")"},
            {between(celsius(25.0), celsius(80.0))}, "above it the battery takes no charge: lithium, from its sheet"),
        key<&BatteryKeys::heater>(
            "heater", Absent{"none", R"("60 W")"}, {up_to(watts(2000.0))},
            "heater in a lithium battery that warms its cells before they take charge, all batteries together"),
        key<&BatteryKeys::main_fuse>(
            "main_fuse", Absent{"chosen where blades could not break a short there", R"("60 A post")"}, {fuse_rating()},
            "the fuse on its post for all small branches there: \"60 A post\", or \"none\""),
        key<&BatteryKeys::have_main_fuse>("have_main_fuse", usual(false), {},
                                          "whether the fuse of main_fuse is there already and is not bought"),
        key<&BatteryKeys::stud>("stud", Absent{"not known: a lug for your stud, to be looked at"}, {stud_diameter()},
                                "stud of its terminals, for the lugs: its thread or its diameter"),
        key<&BatteryKeys::where>("where", usual("canopy"), {surroundings()},
                                 "where the battery stands: a place or a temperature"),
    };
    return rows;
}

void look_through_battery(const WholeProfile& whole, Faults& faults) {
    const BatteryKeys& keys = whole.given.battery;
    main_fuse_of_table(keys.main_fuse, keys.have_main_fuse, "battery", whole.tables, faults);
    place_of_table(whole.given.battery.where, "battery.where", whole.tables, faults);
    const ChemistryRow* chemistry = chemistry_of(whole.complete, whole.tables);
    if (keys.heater && chemistry && !chemistry->charge_above)
        add(faults, "battery.heater", "a lead battery has no heater: it takes charge in the cold too, if slowly",
            "take it out; a mat that warms it is a [[load]]");
}

}  // namespace

SectionRow battery_section() {
    SectionRow row =
        one_section<&Profile::battery>("battery", "the house battery, or equal ones in parallel", battery_rows());
    row.contradictions = &look_through_battery;
    return row;
}

}  // namespace voltwright
