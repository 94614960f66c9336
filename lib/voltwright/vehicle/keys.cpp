#include "voltwright/vehicle/keys.hpp"

#include "voltwright/energy/battery.hpp"
#include "voltwright/energy/sun.hpp"
#include "voltwright/units/scan.hpp"
#include "voltwright/vehicle/forms.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <stdexcept>

namespace voltwright {

namespace {

// ---- ranges ---------------------------------------------------------------------------------------------------------
// Generous: what lies outside is a slip of the pen, not an unusual vehicle.

template <class Q>
Range between(Q low, Q high) {
    return {Measure{low}, Measure{high}, false};
}
/// Above nothing.
template <class Q>
Range up_to(Q high) {
    return {Measure{Q{}}, Measure{high}, true};
}
Range counts(int low, int high) { return {low, high, false}; }

const Range outside_air = between(celsius(-60.0), celsius(60.0));
const Range surroundings = between(celsius(-60.0), celsius(150.0));
const Range share = between(ratio(0.0), percent(100.0));
const Range drop = up_to(percent(30.0));
const Range efficiency = between(percent(50.0), percent(100.0));
const Range charging = between(volts(12.0), volts(16.0));
const Range cut = between(volts(8.0), volts(15.0));
const Range fuse_rating = up_to(amperes(1000.0));
const Range stud_diameter = between(millimetres(3.0), millimetres(20.0));
const Range joint_resistance = between(ohms(0.0), ohms(1.0));

// ---- defaults -------------------------------------------------------------------------------------------------------

Usual usual(const char* written) { return {std::string_view(written)}; }
Usual usual(int number) { return {number}; }
Usual usual(bool truth) { return {truth}; }

std::optional<Entry> text(std::string words) {
    Entry entry;
    entry.content = std::move(words);
    return entry;
}

template <class Q>
std::optional<Entry> quantity(Q value) {
    return text(write(Spread<Q>{value}));
}

/// A value that was worked out, without the last digits of the arithmetic.
std::optional<Entry> rounded(double number, std::string_view unit) {
    char digits[32];
    std::snprintf(digits, sizeof digits, "%.6g", number);
    return text(digits + (" " + std::string(unit)));
}

bool smart(const Profile& profile) { return profile.starter.alternator == Alternator::smart; }

/// One text for a plain alternator, another for one that a computer holds low.
#define VOLTWRIGHT_BY_ALTERNATOR(plain, low)                                                                      \
    ByRule {                                                                                                      \
        plain ", " low " with a smart alternator",                                                                \
            [](const Profile& profile, const Tables&, std::size_t) { return text(smart(profile) ? low : plain); } \
    }

const ChemistryRow* chemistry_of(const Profile& profile, const Tables& tables) {
    return profile.battery.chemistry ? find_chemistry(tables, show(*profile.battery.chemistry)) : nullptr;
}

template <auto Member>
std::optional<Entry> of_chemistry(const Profile& profile, const Tables& tables, std::size_t) {
    const ChemistryRow* row = chemistry_of(profile, tables);
    return row ? quantity(row->*Member) : std::nullopt;
}

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
    return text(digits);
}

bool is(const std::optional<std::string>& name, std::string_view wanted) { return name && same_word(*name, wanted); }

std::optional<Entry> beginning_of_run(const Profile& profile, const Tables&, std::size_t index) {
    const auto& to = profile.runs[index].to;
    if (is(to, "charger")) return text("starter");
    if (is(to, "regulator")) return text("panel");
    return text(is(to, "battery") ? "charger" : "battery");
}

std::optional<Entry> name_of_run(const Profile& profile, const Tables&, std::size_t index) {
    const auto& to = profile.runs[index].to;
    if (!to) return {};
    return text(is(to, "charger") ? "feed" : *to);
}

std::optional<Entry> loaded_conductors(const Profile& profile, const Tables&, std::size_t index) {
    const auto& back = profile.runs[index].return_;
    Entry entry;
    entry.content = std::int64_t{back && std::holds_alternative<ByBody>(*back) ? 1 : 2};
    return entry;
}

std::optional<Entry> towards_equator(const Profile& profile, const Tables&, std::size_t) {
    if (!profile.trip.latitude) return {};
    return text(profile.trip.latitude->value < degrees(0.0) ? "0 deg" : "180 deg");
}

/// The sky of the first day, where the sun counts.
std::optional<Entry> usual_sky(const Profile& profile, const Tables& tables, std::size_t) {
    if (!profile.solar || !profile.trip.latitude || !profile.trip.start) return {};
    const ClearnessIndexRow* row =
        find_clearness_index(tables, profile.trip.latitude->value, profile.trip.start->month);
    return row ? rounded(std::round(in_percent(of_clear_sky(row->usual))), "%") : std::nullopt;
}

// ---- drives ---------------------------------------------------------------------------------------------------------

/// Drives, unlike the hours of a load, stay within their day, and nobody drives twice at once.
template <auto Member>
Key drives_key(Default fallback, std::string_view sentence) {
    Key row = key<Member>("drives", fallback, {}, sentence);
    row.read = [](const Entry& entry, const std::string& path, const Key& self, void* section, Faults& faults) {
        const std::size_t before = faults.size();
        Landing<Member>::read(entry, path, self, section, faults);
        if (faults.size() != before) return;
        std::vector<ClockWindow> drives;
        Form<std::vector<ClockWindow>>::read(entry, path, drives, faults);
        for (std::size_t i = 0; i < drives.size(); ++i) {
            const std::string place = entry.list() ? path + "[" + std::to_string(i) + "]" : path;
            if (drives[i].to.minutes < drives[i].from.minutes) {
                faults.push_back({place, "this drive ends before it starts",
                                  "a drive over midnight is two: \"22:00-24:00\" and \"00:00-02:00\""});
                continue;
            }
            for (std::size_t j = 0; j < i; ++j)
                if (drives[i].from.minutes < drives[j].to.minutes && drives[j].from.minutes < drives[i].to.minutes &&
                    drives[j].from.minutes <= drives[j].to.minutes) {
                    faults.push_back({place, "this drive overlaps another of the same day", "write the two as one"});
                    break;
                }
        }
    };
    return row;
}

/// One pole pair or two places, never three.
Key across_key() {
    Key row = key<&ReadingKeys::across>("across", Absent{"through, or a count, is given", R"("battery")"}, {},
                                        "where the meter's two leads are: two points such as \"charger +\", one place "
                                        "for its two poles, or one joint for its two ends");
    row.read = [](const Entry& entry, const std::string& path, const Key& self, void* section, Faults& faults) {
        const std::size_t before = faults.size();
        Landing<&ReadingKeys::across>::read(entry, path, self, section, faults);
        const auto& places = static_cast<const ReadingKeys*>(section)->across;
        if (faults.size() == before && places && (places->empty() || places->size() > 2))
            faults.push_back({path, "a meter has two leads; these are " + std::to_string(places->size()) + " places",
                              "one place for its two poles, or two points: [\"starter +\", \"charger +\"]"});
    };
    return row;
}

/// A row that a new profile leaves blank, and where one finds its value.
Key asked(Key row, std::string_view found) {
    row.found = found;
    return row;
}

// ---- the rows -------------------------------------------------------------------------------------------------------

std::span<const Key> top_keys() {
    static const std::vector<Key> rows = {
        key<&Profile::title>("title", Absent{"the plan has no title", R"("A week by the lake")"}, {},
                             "what the plan is called on its pages"),
    };
    return rows;
}

std::span<const Key> trip_keys() {
    static const std::vector<Key> rows = {
        asked(key<&TripKeys::days>("days", usual(1), {counts(1, 366)}, "how many days the trip lasts"),
              "a whole number, without quotes"),
        asked(key<&TripKeys::low>("low", Required{R"("14 degC")"}, {outside_air},
                                  "outside temperature at the coldest of the night"),
              "degC, what is usual for the place and the month"),
        asked(key<&TripKeys::high>("high", Required{R"("31 degC")"}, {outside_air},
                                   "outside temperature at the hottest of the day"),
              "degC, of a hot day there"),
        asked(drives_key<&TripKeys::drives>(usual("none"),
                                            "when the engine runs on a usual day: from and to, one text or a list"),
              R"(hours such as "08:00-09:30"; "none" when you stay)"),
        key<&TripKeys::start>("start", Absent{"only the sun needs it"}, {},
                              "date of the first day; needed with [solar]"),
        key<&TripKeys::latitude>("latitude", Absent{"only the sun needs it"}, {between(degrees(-90.0), degrees(90.0))},
                                 "latitude of the trip, south negative; needed with [solar]"),
        key<&TripKeys::clearness>(
            "clearness", ByRule{"by latitude and month, from weather stations; the plan says how much", &usual_sky},
            {share}, "share of the clear sky's sun that comes through the clouds"),
    };
    return rows;
}

std::span<const Key> day_keys() {
    static const std::vector<Key> rows = {
        key<&DayKeys::on>("on", Required{R"("2-3")"}, {},
                          "the days that are unlike the others, counted from 1: \"2-4\", 3 or [1, 6]"),
        drives_key<&DayKeys::drives>(Absent{"as on the usual day", R"("09:00-12:00")"},
                                     "when the engine runs on those days; \"none\" for not at all"),
        key<&DayKeys::low>("low", Absent{"as on the usual day", R"("10 degC")"}, {outside_air},
                           "coldest of the night on those days"),
        key<&DayKeys::high>("high", Absent{"as on the usual day", R"("33 degC")"}, {outside_air},
                            "hottest of the day on those days"),
        key<&DayKeys::clearness>("clearness", Absent{"as on the usual day"}, {share},
                                 "share of the clear sky's sun on those days"),
    };
    return rows;
}

std::span<const Key> starter_keys() {
    static const std::vector<Key> rows = {
        key<&StarterKeys::alternator>(
            "alternator", usual("plain"), {},
            "\"smart\" when the engine's computer lowers the alternator's voltage to save fuel"),
        key<&StarterKeys::running>("running", usual("14.2 V"), {between(volts(12.0), volts(16.0))},
                                   "voltage at the starter battery with the engine running as usual"),
        key<&StarterKeys::lowest_running>("lowest_running", VOLTWRIGHT_BY_ALTERNATOR("13.8 V", "12.3 V"),
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
        key<&StarterKeys::stud>("stud", Absent{"not known: a lug for your stud, to be looked at"}, {stud_diameter},
                                "stud of its terminals, for the lugs: its thread or its diameter"),
        key<&StarterKeys::where>("where", usual("engine bay"), {surroundings},
                                 "where the starter battery stands: a place or a temperature"),
    };
    return rows;
}

std::span<const Key> battery_keys() {
    static const std::vector<Key> rows = {
        asked(key<&BatteryKeys::chemistry>(
                  "chemistry", Required{R"("agm")"}, {},
                  "kind of the house battery: flooded, AGM or gel lead-acid, or lithium iron phosphate"),
              R"("flooded", "agm", "gel", or "lfp" for lithium iron phosphate: on its label)"),
        asked(key<&BatteryKeys::capacity>("capacity", Required{R"("120 Ah")"},
                                          {between(ampere_hours(1.0), ampere_hours(5000.0))},
                                          "capacity of one battery at the 20-hour rate, as printed on it"),
              "Ah, printed on the battery"),
        key<&BatteryKeys::count>("count", usual(1), {counts(1, 20)}, "how many equal batteries stand in parallel"),
        key<&BatteryKeys::depth_limit>("depth_limit", ByRule{"by chemistry", &of_chemistry<&ChemistryRow::depth_limit>},
                                       {up_to(percent(100.0))},
                                       "share of the capacity that may be used before it counts as empty"),
        key<&BatteryKeys::charge_limit>(
            "charge_limit", ByRule{"by chemistry and capacity", &share_of_bank<&ChemistryRow::charge_limit>},
            {up_to(amperes(5000.0))}, "most charging current that all the batteries together may take"),
        key<&BatteryKeys::discharge_limit>(
            "discharge_limit", ByRule{"by chemistry and capacity", &share_of_bank<&ChemistryRow::discharge_limit>},
            {up_to(amperes(20000.0))}, "most current that all the batteries together may give"),
        key<&BatteryKeys::start_soc>("start_soc", usual("100 %"), {share}, "state of charge when the trip begins"),
        key<&BatteryKeys::health>("health", usual("100 %"), {between(percent(10.0), percent(120.0))},
                                  "share of the printed capacity that the battery still has"),
        key<&BatteryKeys::internal_resistance>(
            "internal_resistance", ByRule{"by chemistry and capacity", &battery_resistance}, {up_to(milliohms(1000.0))},
            "internal resistance of one battery, warm and full"),
        key<&BatteryKeys::stud>("stud", Absent{"not known: a lug for your stud, to be looked at"}, {stud_diameter},
                                "stud of its terminals, for the lugs: its thread or its diameter"),
        key<&BatteryKeys::where>("where", usual("canopy"), {surroundings},
                                 "where the battery stands: a place or a temperature"),
    };
    return rows;
}

std::span<const Key> charger_keys() {
    static const std::vector<Key> rows = {
        asked(key<&ChargerKeys::output>("output", Required{R"("25 A")"}, {up_to(amperes(300.0))},
                                        "most current that the charger gives to the battery"),
              "A, printed on the charger"),
        key<&ChargerKeys::efficiency>("efficiency", usual("90 %"), {efficiency}, "power out over power in"),
        key<&ChargerKeys::input_on>("input_on", VOLTWRIGHT_BY_ALTERNATOR("13.2 V", "12.0 V"), {cut},
                                    "voltage at its input above which it begins to charge"),
        key<&ChargerKeys::input_off>("input_off", VOLTWRIGHT_BY_ALTERNATOR("12.7 V", "11.0 V"), {cut},
                                     "voltage at its input below which it stops"),
        key<&ChargerKeys::wake>(
            "wake", VOLTWRIGHT_BY_ALTERNATOR("voltage", "ignition"), {},
            "what tells it that the engine runs: the voltage at its input, or a wire from the ignition"),
        key<&ChargerKeys::input_limit>("input_limit", Absent{"it takes what it needs", R"("40 A")"},
                                       {up_to(amperes(500.0))}, "most current that it takes at its input"),
        key<&ChargerKeys::absorption>("absorption", ByRule{"by chemistry", &of_chemistry<&ChemistryRow::absorption>},
                                      {charging}, "voltage that it charges to, at 25 degC"),
        key<&ChargerKeys::float_>("float", ByRule{"by chemistry", &of_chemistry<&ChemistryRow::float_>}, {charging},
                                  "voltage that it holds a full battery at, at 25 degC"),
        key<&ChargerKeys::temperature_sensor>(
            "temperature_sensor", usual(true), {},
            "whether a sensor on the battery corrects its voltage: more in the cold, less in the heat"),
        key<&ChargerKeys::full_output_to>("full_output_to", usual("45 degC"), {between(celsius(0.0), celsius(120.0))},
                                          "surroundings up to which it gives its full output"),
        key<&ChargerKeys::derate>("derate", usual("2.5 %"), {share},
                                  "output that it loses for each degree above full_output_to"),
        key<&ChargerKeys::off_above>("off_above", usual("65 degC"), {between(celsius(20.0), celsius(150.0))},
                                     "surroundings above which it switches itself off"),
        key<&ChargerKeys::fuse_max>("fuse_max", Absent{"no limit of its own", R"("60 A")"}, {fuse_rating},
                                    "largest fuse that its manual allows at its input"),
        key<&ChargerKeys::terminal>("terminal", Absent{"it takes any size", R"("4 AWG")"}, {},
                                    "largest cable that its terminals take"),
        key<&ChargerKeys::stud>(
            "stud", Absent{"not known: a lug for your stud, to be looked at"}, {stud_diameter},
            "stud of its terminals, for the lugs: its thread or its diameter; clamped ones have none"),
        key<&ChargerKeys::where>("where", usual("canopy"), {surroundings},
                                 "where the charger stands: a place or a temperature"),
    };
    return rows;
}

std::span<const Key> solar_keys() {
    static const std::vector<Key> rows = {
        key<&SolarKeys::panel>("panel", Required{R"("100 W")"}, {up_to(watts(5000.0))},
                               "rated power of the panels together"),
        key<&SolarKeys::tilt>("tilt", usual("0 deg"), {between(degrees(0.0), degrees(90.0))},
                              "tilt of the panel; 0 deg lies flat on the roof"),
        key<&SolarKeys::azimuth>("azimuth", ByRule{"towards the equator", &towards_equator},
                                 {between(degrees(-180.0), degrees(360.0))},
                                 "where a tilted panel looks, from north by east: east is 90 deg"),
        key<&SolarKeys::regulator>("regulator", usual("mppt"), {},
                                   "kind of the regulator: \"mppt\" finds the panel's best voltage, \"pwm\" does not"),
        key<&SolarKeys::shade>("shade", usual("0 %"), {share}, "share of the sun lost to trees, racks and dust"),
    };
    return rows;
}

std::span<const Key> inverter_keys() {
    static const std::vector<Key> rows = {
        key<&InverterKeys::output>("output", Required{R"("300 W")"}, {up_to(watts(10000.0))},
                                   "rated power of the inverter"),
        key<&InverterKeys::efficiency>("efficiency", usual("88 %"), {efficiency}, "power out over power in"),
        key<&InverterKeys::standby>("standby", Absent{"nothing is counted for it", R"("6 W")"},
                                    {between(watts(0.0), watts(200.0))},
                                    "power that it draws while on with nothing plugged in"),
    };
    return rows;
}

std::span<const Key> run_keys() {
    static const std::vector<Key> rows = {
        key<&RunKeys::to>("to", Required{R"("charger")"}, {},
                          "where the run leads: charger, battery, inverter, regulator, a load, a fridge, a fuse block"),
        asked(key<&RunKeys::length>("length", Required{R"("6 m")"}, {up_to(metres(100.0))},
                                    "length of the cable one way, as it is laid"),
              "m, one way: lay a string where the cable will go"),
        key<&RunKeys::from>(
            "from",
            ByRule{"starter for the charger, charger for the battery, panel for the regulator, else battery",
                   &beginning_of_run},
            {}, "where the run begins"),
        key<&RunKeys::name>("name", ByRule{"its `to`; feed for the charger", &name_of_run}, {},
                            "what the run is called"),
        key<&RunKeys::return_>(
            "return", usual("cable"), {joint_resistance},
            "how the current comes back: \"cable\", \"body\", or the measured resistance of the whole return"),
        key<&RunKeys::return_size>("return_size", Absent{"as the way out"}, {},
                                   "size of the cable back, when it is another one"),
        key<&RunKeys::insulation>(
            "insulation", usual("105 degC"), {between(celsius(60.0), celsius(250.0))},
            "temperature rating printed on the cable, with pvc, xlpe, rubber or silicone if known"),
        key<&RunKeys::where>("where", Absent{"by its ends"}, {surroundings},
                             "what the run passes: a place, a temperature, or places with their lengths"),
        key<&RunKeys::loaded_in_bundle>(
            "loaded_in_bundle", ByRule{"2, or 1 with the body as return", &loaded_conductors}, {counts(1, 50)},
            "how many cables that carry current are bundled together, this run's own among them"),
        key<&RunKeys::joints>("joints", Absent{"two lugs at each end"}, {joint_resistance},
                              "what sits in the run beside cable and fuse: names from the joint table, or resistances"),
        key<&RunKeys::size>(
            "size", Absent{"chosen by the plan"}, {},
            "size of the cable: it is judged, not chosen, and bought unless `have` says that it is there"),
        key<&RunKeys::fuse>("fuse", Absent{"chosen by the plan", R"("15 A blade")"}, {fuse_rating},
                            "the fuse, \"50 A SF30\" or \"none\", or by end: { starter = \"50 A SF30\" }; judged and "
                            "bought as size is"),
        key<&RunKeys::have>(
            "have", Absent{"size and fuse are bought", R"("cable")"}, {},
            "what is there already and is not bought: the cable of `size`, the fuse of `fuse`, or both"),
    };
    return rows;
}

std::span<const Key> load_keys() {
    static const std::vector<Key> rows = {
        key<&LoadKeys::name>("name", Required{R"("lamp")"}, {},
                             "what the load is called; a run leads to it by this name"),
        key<&LoadKeys::draw>("draw", Required{R"("3 W")"},
                             {up_to(watts(10000.0)), up_to(amperes(1000.0)), between(milliohms(10.0), ohms(100000.0))},
                             "what it draws while it runs: a power, a current or a resistance"),
        key<&LoadKeys::hours>("hours", usual("00:00-24:00"), {}, "when it is on: from and to, one text or a list"),
        key<&LoadKeys::duty>("duty", usual("100 %"), {share}, "share of those hours that it really runs"),
        key<&LoadKeys::essential>("essential", usual(false), {}, "whether the trip fails when it goes off"),
        key<&LoadKeys::through>("through", Absent{"it is fed with 12 V", R"("inverter")"}, {},
                                "\"inverter\" when it hangs on the inverter"),
        key<&LoadKeys::cut_out>("cut_out", Absent{"it does not switch itself off", R"("10.4 V")"}, {cut},
                                "voltage at its terminals below which it switches itself off"),
        key<&LoadKeys::cut_in>("cut_in", Absent{"as soon as the voltage is above cut_out", R"("11.7 V")"}, {cut},
                               "voltage above which it starts again"),
        key<&LoadKeys::inrush>("inrush", Absent{"none"}, {},
                               "short current on starting: { current = \"20 A\", time = \"0.2 s\" }"),
        key<&LoadKeys::where>("where", usual("canopy"), {surroundings},
                              "where the load stands: a place or a temperature"),
    };
    return rows;
}

std::span<const Key> fridge_keys() {
    static const std::vector<Key> rows = {
        key<&FridgeKeys::name>("name", usual("fridge"), {},
                               "what the fridge is called; a run leads to it by this name"),
        asked(key<&FridgeKeys::draw>("draw", Required{R"("45 W")"}, {up_to(watts(1000.0))},
                                     "power that it draws while the compressor runs"),
              "W, on its rating plate; if only amperes stand there, times 12"),
        asked(key<&FridgeKeys::rated>("rated", Absent{"by litres, a rule of thumb"}, {},
                                      "what it takes in a day at one or two outside temperatures: [{ around = \"25 "
                                      "degC\", a_day = \"22 Ah\" }]"),
              "not known: delete this line, take the # from litres"),
        key<&FridgeKeys::litres>("litres", Absent{"not known"}, {between(litres(1.0), litres(1000.0))},
                                 "its volume, for a rule of thumb where rated is not known"),
        key<&FridgeKeys::inside>("inside", usual("5 degC"), {between(celsius(-40.0), celsius(25.0))},
                                 "temperature that it is set to"),
        key<&FridgeKeys::essential>("essential", usual(true), {}, "whether the trip fails when it goes off"),
        key<&FridgeKeys::cut_out>("cut_out", Absent{"both usual settings are tried", R"("10.4 V")"}, {cut},
                                  "voltage at its terminals below which it switches itself off; with cut_in"),
        key<&FridgeKeys::cut_in>("cut_in", Absent{"both usual settings are tried", R"("11.7 V")"}, {cut},
                                 "voltage above which it starts again; with cut_out"),
        key<&FridgeKeys::fuse_max>("fuse_max", usual("15 A"), {fuse_rating}, "largest fuse that its manual allows"),
        key<&FridgeKeys::inrush>("inrush", Absent{"none"}, {},
                                 "short current on starting: { current = \"15 A\", time = \"0.5 s\" }"),
        key<&FridgeKeys::where>("where", usual("canopy"), {surroundings},
                                "where the fridge stands: a place or a temperature"),
        key<&FridgeKeys::restock>("restock", Absent{"nothing warm is put in"}, {},
                                  "warm things put in: on which days, at what time, how much, how warm"),
    };
    return rows;
}

std::span<const Key> rules_keys() {
    static const std::vector<Key> rows = {
        key<&RulesKeys::ampacity>("ampacity", usual("us-33-cfr-183"), {},
                                  "table that says what current a cable may carry"),
        key<&RulesKeys::sizes>("sizes", usual("awg"), {},
                               "sizes that can be bought: \"awg\", \"metric\", or a list of what the shop has"),
        key<&RulesKeys::fuses>("fuses",
                               Absent{"every rating of the fuse tables", R"(["50 A SF30", "40 A SF30", "15 A blade"])"},
                               {fuse_rating}, "fuses on the shelf: [\"40 A SF30\", \"15 A blade\"]"),
        key<&RulesKeys::feed_drop>("feed_drop", usual("6 %"), {drop},
                                   "most voltage, of 12 V, that the run to the charger may lose"),
        key<&RulesKeys::output_drop>("output_drop", usual("1.5 %"), {drop},
                                     "most voltage, of 12 V, that the run from charger to battery may lose"),
        key<&RulesKeys::essential_drop>("essential_drop", usual("3 %"), {drop},
                                        "most voltage, of 12 V, lost from the battery to an essential load"),
        key<&RulesKeys::other_drop>("other_drop", usual("10 %"), {drop},
                                    "most voltage, of 12 V, lost from the battery to any other load"),
        key<&RulesKeys::fuse_use>("fuse_use", usual("80 %"), {between(percent(30.0), percent(100.0))},
                                  "share of its rating that a fuse carries all day"),
        key<&RulesKeys::smallest>("smallest", usual("1 mm2"),
                                  {between(square_millimetres(0.3), square_millimetres(50.0))},
                                  "smallest cable that stands up to a vehicle's shaking"),
    };
    return rows;
}

std::span<const Key> reading_keys() {
    static const Range any_voltage = between(volts(-30.0), volts(30.0));
    static const Range any_current = between(amperes(-2000.0), amperes(2000.0));
    static const Range any_time = between(seconds(0.0), hours(1000.0));
    static const std::vector<Key> rows = {
        across_key(),
        key<&ReadingKeys::through>("through", Absent{"across, or a count, is given", R"("fridge")"}, {},
                                   "run whose current the clamp measured"),
        key<&ReadingKeys::with>("with", Absent{"all of them off", R"("fridge")"}, {}, "loads that were on"),
        key<&ReadingKeys::engine>("engine", usual("off"), {}, "what the engine did"),
        key<&ReadingKeys::charger>("charger", usual("on"), {},
                                   "whether the charger was switched on: off shows what stands there without its load"),
        key<&ReadingKeys::voltage>("voltage", Absent{"not read", R"("12.7 V")"}, {any_voltage},
                                   "what the meter showed"),
        key<&ReadingKeys::current>("current", Absent{"not read", R"("3.8 A")"}, {any_current}, "what the clamp showed"),
        key<&ReadingKeys::when>("when", Absent{"not noted", R"("in the morning, before the first drive")"}, {},
                                "when it was read, in your own words"),
        key<&ReadingKeys::counted>("counted", Absent{"not counted"},
                                   {between(ampere_hours(-10000.0), ampere_hours(10000.0))},
                                   "ampere-hours that a battery monitor counted over time"),
        key<&ReadingKeys::time>("time", Absent{"not noted"}, {any_time}, "how long was counted"),
        key<&ReadingKeys::on>("on", Absent{"not noted"}, {any_time},
                              "how long the compressor or load ran in one cycle"),
        key<&ReadingKeys::off>("off", Absent{"not noted"}, {any_time}, "how long it then stood still"),
        key<&ReadingKeys::ran>("ran", Absent{"not noted"}, {any_time},
                               "how long the loads ran from a full battery until they stopped"),
        key<&ReadingKeys::stopped>("stopped", Absent{"not noted", R"("11.1 V")"}, {cut},
                                   "voltage at which they stopped"),
    };
    return rows;
}

std::span<const Key> meter_keys() {
    static const std::vector<Key> rows = {
        key<&MeterKeys::voltage>("voltage", usual("0.8 % + 50 mV"),
                                 {between(ratio(0.0), percent(20.0)), between(volts(0.0), volts(1.0))},
                                 "accuracy of the multimeter at 12 V: a share of the reading and a fixed part"),
        key<&MeterKeys::millivolts>("millivolts", usual("0.8 % + 0.5 mV"),
                                    {between(ratio(0.0), percent(20.0)), between(volts(0.0), volts(1.0))},
                                    "accuracy of its millivolt range, on which drops below 0.4 V are read"),
        key<&MeterKeys::current>("current", usual("3 % + 0.2 A"),
                                 {between(ratio(0.0), percent(20.0)), between(amperes(0.0), amperes(20.0))},
                                 "accuracy of the current clamp"),
    };
    return rows;
}

}  // namespace

template <>
std::span<const Key> keys_of<WaySectionKeys>() {
    static const std::vector<Key> rows = {
        key<&WaySectionKeys::place>("place", Required{R"("engine bay")"}, {surroundings},
                                    "a named place, or its temperature"),
        key<&WaySectionKeys::length>("length", Required{R"("2 m")"}, {up_to(metres(100.0))}, "length of the run there"),
    };
    return rows;
}

template <>
std::span<const Key> keys_of<InrushKeys>() {
    static const std::vector<Key> rows = {
        key<&InrushKeys::current>("current", Required{R"("20 A")"}, {up_to(amperes(5000.0))}, "current on starting"),
        key<&InrushKeys::time>("time", Required{R"("0.2 s")"}, {up_to(seconds(60.0))}, "how long it lasts"),
    };
    return rows;
}

template <>
std::span<const Key> keys_of<RatedKeys>() {
    static const std::vector<Key> rows = {
        asked(key<&RatedKeys::around>("around", Required{R"("25 degC")"}, {outside_air}, "outside temperature"),
              "degC, outside, at which that was measured"),
        key<&RatedKeys::inside>("inside", usual("5 degC"), {between(celsius(-40.0), celsius(25.0))},
                                "temperature that it was set to"),
        asked(key<&RatedKeys::a_day>("a_day", Required{R"("22 Ah")"},
                                     {up_to(ampere_hours(1000.0)), up_to(watt_hours(12000.0))},
                                     "what it took in 24 hours: ampere-hours at 12 V, or watt-hours"),
              "Ah or Wh in 24 hours, measured or from its manual"),
    };
    return rows;
}

template <>
std::span<const Key> keys_of<RestockKeys>() {
    static const std::vector<Key> rows = {
        key<&RestockKeys::on>("on", Required{R"("2-3")"}, {}, "days of the trip on which it is put in"),
        key<&RestockKeys::at>("at", Required{R"("17:00")"}, {}, "time of day"),
        key<&RestockKeys::mass>("mass", Required{R"("4 kg")"}, {up_to(kilograms(500.0))}, "mass of what is put in"),
        key<&RestockKeys::from>("from", Required{R"("24 degC")"}, {outside_air}, "how warm it is then"),
    };
    return rows;
}

// ---- the sections ---------------------------------------------------------------------------------------------------

namespace {

SectionRow top(std::string_view sentence, std::span<const Key> keys) {
    return {{},
            false,
            false,
            1,
            sentence,
            keys,
            [](const Profile&) -> std::size_t { return 1; },
            [](Profile& profile, std::size_t) -> void* { return &profile; },
            [](const Profile& profile, std::size_t) -> const void* { return &profile; },
            [](Profile&) {}};
}

/// A section that is always there, whether written or not.
template <auto Member>
SectionRow one(std::string_view name, std::string_view sentence, std::span<const Key> keys) {
    return {name,
            false,
            false,
            1,
            sentence,
            keys,
            [](const Profile&) -> std::size_t { return 1; },
            [](Profile& profile, std::size_t) -> void* { return &(profile.*Member); },
            [](const Profile& profile, std::size_t) -> const void* { return &(profile.*Member); },
            [](Profile&) {}};
}

template <auto Member>
SectionRow perhaps(std::string_view name, std::string_view sentence, std::span<const Key> keys) {
    return {name,
            false,
            true,
            1,
            sentence,
            keys,
            [](const Profile& profile) -> std::size_t { return (profile.*Member).has_value() ? 1 : 0; },
            [](Profile& profile, std::size_t) -> void* { return &(profile.*Member).value(); },
            [](const Profile& profile, std::size_t) -> const void* { return &(profile.*Member).value(); },
            [](Profile& profile) { (profile.*Member).emplace(); }};
}

template <auto Member>
SectionRow many(std::string_view name, std::size_t most, std::string_view sentence, std::span<const Key> keys) {
    return {name,
            true,
            true,
            most,
            sentence,
            keys,
            [](const Profile& profile) { return (profile.*Member).size(); },
            [](Profile& profile, std::size_t index) -> void* { return &(profile.*Member).at(index); },
            [](const Profile& profile, std::size_t index) -> const void* { return &(profile.*Member).at(index); },
            [](Profile& profile) { (profile.*Member).emplace_back(); }};
}

}  // namespace

std::span<const SectionRow> sections() {
    static const std::vector<SectionRow> rows = {
        top("the plan as a whole", top_keys()),
        one<&Profile::trip>("trip", "how long, how warm, and when the engine runs", trip_keys()),
        many<&Profile::days>("day", 366, "days of the trip that are unlike the others", day_keys()),
        one<&Profile::starter>("starter", "the vehicle's own battery and its alternator", starter_keys()),
        one<&Profile::battery>("battery", "the house battery, or equal ones in parallel", battery_keys()),
        one<&Profile::charger>("charger", "the DC-DC charger between the two batteries", charger_keys()),
        perhaps<&Profile::solar>("solar", "a solar panel and its regulator", solar_keys()),
        perhaps<&Profile::inverter>("inverter", "an inverter for mains appliances", inverter_keys()),
        many<&Profile::runs>("run", 100, "cable routes, one for each, out and back", run_keys()),
        many<&Profile::fridges>("fridge", 10, "compressor fridges and freezers", fridge_keys()),
        many<&Profile::loads>("load", 200, "everything else that draws current", load_keys()),
        one<&Profile::rules>("rules", "what the plan is judged by, and what the shop has", rules_keys()),
        many<&Profile::readings>("reading", 200, "what was measured, for diagnose", reading_keys()),
        one<&Profile::meter>("meter", "how true the meter is that the readings were taken with", meter_keys()),
    };
    return rows;
}

std::string entry_name(const Profile& profile, const SectionRow& section, std::size_t index) {
    if (section.name == "run") {
        const RunKeys& run = profile.runs.at(index);
        if (run.name) return *run.name;
        if (run.to) return is(run.to, "charger") ? "feed" : *run.to;
    } else if (section.name == "load") {
        if (const auto& name = profile.loads.at(index).name) return *name;
    } else if (section.name == "fridge") {
        return profile.fridges.at(index).name.value_or("fridge");
    } else if (section.name == "day") {
        if (const auto& on = profile.days.at(index).on) {
            std::string text = Form<TripDays>::write(*on);
            std::erase_if(text, [](char c) { return c == '"' || c == '[' || c == ']' || c == ' '; });
            return text;
        }
    } else if (!section.many) {
        return std::string(section.name);
    }
    return std::to_string(index + 1);
}

// ---- defaults, filled in --------------------------------------------------------------------------------------------

namespace {

void fill(std::span<const Key> keys, void* section, const Profile& profile, const Tables& tables, std::size_t index) {
    for (const Key& key : keys) {
        if (key.given(section)) continue;
        std::optional<Entry> value;
        if (const auto* usual = std::get_if<Usual>(&key.fallback)) {
            value.emplace();
            if (const auto* words = std::get_if<std::string_view>(&usual->written))
                value->content = std::string(*words);
            if (const auto* number = std::get_if<int>(&usual->written)) value->content = std::int64_t{*number};
            if (const auto* truth = std::get_if<bool>(&usual->written)) value->content = *truth;
        } else if (const auto* rule = std::get_if<ByRule>(&key.fallback)) {
            value = rule->value(profile, tables, index);
        }
        if (!value) continue;
        // A table of the caller's own may bring a default beyond our ranges; only one that cannot be read is our fault.
        Faults faults;
        key.read(*value, std::string(key.name), key, section, faults);
        if (!key.given(section)) throw std::logic_error("the default of " + std::string(key.name) + " cannot be read");
    }
}

}  // namespace

Profile complete(const Profile& given, const Tables& tables) {
    Profile profile = given;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile); ++i)
            fill(section.keys, section.at(profile, i), profile, tables, i);
    for (FridgeKeys& fridge : profile.fridges)
        if (fridge.rated)
            for (RatedKeys& rated : *fridge.rated) fill(keys_of<RatedKeys>(), &rated, profile, tables, 0);
    return profile;
}

// ---- in words -------------------------------------------------------------------------------------------------------

std::string show_ranges(const Key& key) {
    struct Bound {
        std::string operator()(int count) const { return std::to_string(count); }
        std::string operator()(const Measure& measure) const { return show(measure); }
    };
    std::string text;
    for (const Range& range : key.ranges) {
        const std::string low = std::visit(Bound{}, range.low), high = std::visit(Bound{}, range.high);
        text += (text.empty() ? "" : "; ") + (range.above ? "above " + low + ", at most " + high : low + " to " + high);
    }
    return text;
}

std::string example_of(const Shape& shape) {
    if (!shape.example.empty()) return std::string(shape.example);
    switch (shape.kind) {
        case Shape::Kind::quantity: return detail::quoted(example_of(shape.dimensions.at(0)));
        case Shape::Kind::gauge: return "\"8 AWG\"";
        case Shape::Kind::stud: return "\"M8\"";
        case Shape::Kind::whole: return "2";
        case Shape::Kind::flag: return "true";
        case Shape::Kind::text: return "\"name\"";
        case Shape::Kind::word: return detail::quoted(shape.words.at(0));
        case Shape::Kind::date: return "2026-09-14";
        case Shape::Kind::clock: return "\"18:30\"";
        case Shape::Kind::window: return "\"18:30-22:00\"";
        case Shape::Kind::days: return "\"2-4\"";
        case Shape::Kind::list: return "[" + example_of(shape.parts.at(0)) + "]";
        case Shape::Kind::one_or_list:
            return shape.parts.at(0).kind == Shape::Kind::section ? "[" + example_of(shape.parts.at(0)) + "]"
                                                                  : example_of(shape.parts.at(0));
        case Shape::Kind::any_of: return example_of(shape.parts.at(0));
        case Shape::Kind::named: return "{ starter = " + example_of(shape.parts.at(0)) + " }";
        case Shape::Kind::section: {
            std::string words;
            for (const Key& key : shape.keys)
                words += (words.empty() ? " " : ", ") + std::string(key.name) + " = " + example_of(key);
            return "{" + words + " }";
        }
    }
    return {};
}

std::string example_of(const Key& key) {
    if (const auto* required = std::get_if<Required>(&key.fallback); required && !required->example.empty())
        return std::string(required->example);
    if (const auto* absent = std::get_if<Absent>(&key.fallback); absent && !absent->example.empty())
        return std::string(absent->example);
    const std::string usual = usual_value(key);
    return usual.empty() ? example_of(key.shape()) : usual;
}

std::string usual_value(const Key& key) {
    const auto* usual = std::get_if<Usual>(&key.fallback);
    if (!usual) return {};
    if (const auto* words = std::get_if<std::string_view>(&usual->written)) return detail::quoted(*words);
    if (const auto* number = std::get_if<int>(&usual->written)) return std::to_string(*number);
    return std::get<bool>(usual->written) ? "true" : "false";
}

}  // namespace voltwright
