#include "unit/profile/reading.hpp"

#include "voltwright/profile/complete.hpp"

#include <functional>
#include <set>

namespace voltwright {

namespace {

using testing::faults_of;
using testing::simplest;
using testing::sound;
using testing::tree;

/// Every key of every section, and of the sections that stand inside a value.
void each_key(const std::function<void(const std::string& path, const Key& key)>& visit) {
    std::function<void(const std::string&, std::span<const Key>)> walk;
    std::function<void(const std::string&, const Shape&)> into = [&](const std::string& path, const Shape& shape) {
        if (shape.kind == Shape::Kind::section) walk(path + ".", shape.keys);
        for (const Shape& part : shape.parts) into(path, part);
    };
    walk = [&](const std::string& before, std::span<const Key> keys) {
        for (const Key& key : keys) {
            visit(before + std::string(key.name), key);
            into(before + std::string(key.name), key.shape());
        }
    };
    for (const SectionRow& section : sections())
        walk(section.name.empty() ? "" : std::string(section.name) + ".", section.keys);
}

/// A profile as text, by the key table alone.
std::string written(const Profile& profile) {
    std::string text;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile); ++i) {
            if (!section.name.empty())
                text += (section.many ? "[[" : "[") + std::string(section.name) + (section.many ? "]]\n" : "]\n");
            for (const Key& key : section.keys)
                if (const std::string value = key.written(section.look(profile, i)); !value.empty())
                    text += std::string(key.name) + " = " + value + "\n";
        }
    return text;
}

std::string lines_of(const Faults& faults) {
    std::string text;
    for (const Fault& fault : faults)
        text += fault.path + ": " + fault.what + (fault.hint.empty() ? "" : " | " + fault.hint) + "\n";
    return text;
}

std::string replaced(std::string text, std::string_view old, std::string_view fresh) {
    const std::size_t at = text.find(old);
    REQUIRE(at != std::string::npos);
    return text.replace(at, old.size(), fresh);
}

/// Every key that there is, given.
const std::string everything = R"(title = "Namaqualand, \"seed\" week"
[trip]
days = 12
low = "9 ± 2 degC"
high = "31 ± 3 degC"
drives = ["08:30-10:00", "16:00-17:30"]
start = 2026-09-14
latitude = "-30.2 deg"
clearness = "80 %"
dull_days = 2
[[day]]
on = "2-4"
drives = "none"
low = "5 degC"
high = "25 degC"
clearness = "40 %"
[[day]]
on = [6, 9]
[starter]
alternator = "smart"
running = "14.4 V"
lowest_running = "12.5 V"
capacity = "70 Ah"
cold_cranking = "720 A"
internal_resistance = "4.5 mOhm"
spare_current = "60 A"
where = "55 degC"
stud = "M8"
main_fuse = "80 A post"
have_main_fuse = true
[battery]
chemistry = "lfp"
capacity = "105 Ah"
count = 2
depth_limit = "75 %"
charge_limit = "80 A"
discharge_limit = "150 A"
start_soc = "90 ± 5 %"
health = "92 %"
internal_resistance = "3.25 ± 0.5 mOhm"
stud = "5/16 in"
charge_above = "2 degC"
charge_below = "50 degC"
heater = "60 W"
main_fuse = "100 A class T"
have_main_fuse = true
where = "cabin"
[charger]
kind = "dc-dc"
closes_at = "13.4 V"
opens_at = "12.7 V"
rating = "140 A"
output = "25 A"
efficiency = "91 %"
input_on = "12.2 V"
input_off = "11.2 V"
wake = "ignition"
input_limit = "35 A"
absorption = "14.3 V"
float = "13.5 V"
temperature_sensor = false
full_output_to = "50 degC"
derate = "3 %"
off_above = "70 degC"
fuse_max = "40 A"
terminal = "16 mm2"
stud = "6 mm"
where = "closed vehicle"
[solar]
panel = "110 W"
series = 1
parallel = 2
short_circuit = "3.3 A"
most_power_voltage = "18 V"
open_circuit = "22 V"
output = "10 A"
fuse_max = "25 A"
terminal = "10 mm2"
where = "cabin"
tilt = "20 deg"
azimuth = "-15 deg"
regulator = "pwm"
shade = "12 %"
[inverter]
output = "300 W"
efficiency = "87 %"
standby = "6 W"
[[run]]
to = "charger"
length = "19 ft"
from = "starter"
name = "feed"
return = "4 ± 1 mOhm"
return_size = "6 AWG"
insulation = "105 degC xlpe"
where = [{ place = "engine bay", length = "2 m" }, { place = "35 degC", length = "3.8 m" }]
loaded_in_bundle = 3
joints = ["lug", "two-pole plug 50 A", "0.3 mOhm"]
size = "8 AWG"
fuse = { starter = "50 A SF30", charger = "none" }
have = "cable, fuse"
breaking = "2.5 kA"
[[run]]
to = "battery"
length = "1 m"
return = "body"
where = "canopy"
fuse = "none"
[[run]]
to = "fridge"
length = "3 m"
where = "40 degC"
size = "6 mm auto"
fuse = "15 A blade"
[[fridge]]
name = "seed fridge"
draw = "45 ± 5 W"
rated = [{ around = "25 degC", a_day = "22 Ah" }, { around = "32 degC", inside = "4 degC", freezer = "-6 degC", a_day = "380 Wh" }]
counted_at = "12.8 V"
litres = "40 l"
inside = "4 degC"
freezer = "-12 degC"
freezer_share = "40 %"
opened = 15
essential = false
cut_out = "10.4 V"
cut_in = "11.7 V"
fuse_max = "10 A"
inrush = { current = "15 A", time = "0.5 s" }
where = "shade"
restock = [{ on = "2-3", at = "17:00", mass = "4 kg", from = "24 degC" }]
[[load]]
name = "lamp"
draw = "1.5 A"
hours = ["18:30-22:00", "05:00-06:30"]
duty = "50 %"
essential = true
through = "inverter"
cut_out = "11 V"
cut_in = "12 V"
runs = "2 min"
every = "20 min"
inrush = { current = "8 A", time = "100 ms" }
where = "cabin"
[[load]]
name = "heater"
draw = "2.2 Ohm"
[rules]
ampacity = "iso-13297"
sizes = ["8 AWG", "16 mm2"]
fuses = ["40 A SF30", "15 A blade"]
feed_drop = "5 %"
output_drop = "1.25 %"
essential_drop = "4 %"
other_drop = "8 %"
fuse_use = "75 %"
panel_drop = "2 %"
smallest = "1.5 mm2"
[[reading]]
across = ["starter", "charger"]
with = ["seed fridge", "lamp"]
engine = "idling"
voltage = "650 ± 10 mV"
when = "day 2, noon"
[[reading]]
through = "feed"
current = "27.5 A"
counted = "18 Ah"
time = "12 h"
on = "11 min"
off = "19 min"
ran = "31 h"
stopped = "11.4 V"
[meter]
voltage = "1 % + 10 mV"
millivolts = "0.5 % + 0.3 mV"
current = "1.5 % + 0.2 A"
)";

}  // namespace

TEST_CASE(
    "every key has its sentence, its default or the words for its absence, and a range or a reason to have none") {
    std::set<std::string> paths;
    each_key([&](const std::string& path, const Key& key) {
        CAPTURE(path);
        CHECK(paths.insert(path).second);
        REQUIRE(!key.sentence.empty());
        CHECK(key.sentence.back() != '.');
        CHECK(key.sentence.find_first_not_of(' ') == 0);
        CHECK(key.sentence.size() <= 130);
        if (const auto* absent = std::get_if<Absent>(&key.fallback)) CHECK(!absent->words.empty());
        if (const auto* rule = std::get_if<ByRule>(&key.fallback)) CHECK((!rule->words.empty() && rule->value));

        // A quantity or a count has one range for each of its dimensions; anything else may do without.
        std::function<std::set<std::size_t>(const Shape&)> dimensions = [&](const Shape& shape) {
            std::set<std::size_t> found;
            for (const Dimension dimension : shape.dimensions) found.insert(static_cast<std::size_t>(dimension));
            for (const Shape& part : shape.parts)
                if (part.kind != Shape::Kind::section) found.merge(dimensions(part));
            return found;
        };
        const Shape shape = key.shape();
        CHECK(!shape.says.empty());
        if (shape.kind == Shape::Kind::whole) CHECK(key.ranges.size() == 1);
        CHECK(key.ranges.size() >= dimensions(shape).size());
        if (!key.ranges.empty()) CHECK(!show_ranges(key).empty());
    });
    CHECK(paths.size() > 120);
}

TEST_CASE("every section has its sentence, of one form") {
    for (const SectionRow& section : sections()) {
        CAPTURE(section.name);
        CHECK(!section.sentence.empty());
        CHECK(section.sentence.back() != '.');
        CHECK(!section.keys.empty());
    }
}

TEST_CASE("the example of a key is what the key reads") {
    each_key([](const std::string& path, const Key& key) {
        if (key.shape().kind == Shape::Kind::whole || path.find('.') != path.rfind('.')) return;
        CAPTURE(path);
        const std::string name = path.substr(path.rfind('.') + 1), section = path.substr(0, path.find('.'));
        for (const SectionRow& row : sections()) {
            if (row.name != section) continue;
            Profile profile;
            row.add(profile);
            const Entry value = tree("it = " + example_of(key));
            Faults faults;
            key.read(*value.find("it"), path, row.at(profile, 0), faults);
            // Only the range may speak against it.
            for (const Fault& fault : faults)
                CHECK_MESSAGE(fault.what.find("outside the range") != std::string::npos, fault.what);
            CHECK(key.given(row.look(profile, 0)));
        }
    });
}

TEST_CASE("a profile that gives every key reads, and comes back the same when written") {
    const Profile profile = sound(everything);
    each_key([&](const std::string& path, const Key&) {
        const std::string name = path.substr(path.rfind('.') + 1);
        CAPTURE(path);
        CHECK(everything.find(name + " = ") != std::string::npos);
    });
    for (const SectionRow& section : sections()) {
        if (section.name.empty()) continue;
        CAPTURE(section.name);
        REQUIRE(section.count(profile) > 0);
        if (section.name == "reading") continue;
        for (const Key& key : section.keys) {
            CAPTURE(key.name);
            CHECK(key.given(section.look(profile, 0)));
        }
    }
    const std::string once = written(profile);
    CHECK(written(sound(once)) == once);
    // Spreads and units in the trade's own form.
    CHECK(once.find("high = \"31 +- 3 degC\"") != std::string::npos);
    CHECK(once.find("latitude = \"-30.2 deg\"") != std::string::npos);
}

TEST_CASE("completing fills in every default, changes nothing that was given, and does nothing the second time") {
    for (const std::string& toml : {simplest, everything, replaced(simplest, "\"agm\"", "\"lfp\""),
                                    simplest + "[starter]\nalternator = \"smart\"\n[inverter]\noutput = \"300 W\"\n"}) {
        CAPTURE(toml);
        const Profile given = sound(toml);
        const Profile completed = complete(given, built_in_tables());
        for (const SectionRow& section : sections()) {
            CAPTURE(section.name);
            REQUIRE(section.count(completed) == section.count(given));
            for (std::size_t i = 0; i < section.count(given); ++i)
                for (const Key& key : section.keys) {
                    CAPTURE(key.name);
                    const SectionView before = section.look(given, i);
                    const SectionView after = section.look(completed, i);
                    if (key.given(before) && key.name != "rated") CHECK(key.written(after) == key.written(before));
                    const bool has_default =
                        std::holds_alternative<Usual>(key.fallback) || std::holds_alternative<ByRule>(key.fallback);
                    // Of the sky nothing is known without a place, lead is charged at any temperature, and what a relay goes by a
                    // charger does not have.
                    const bool may_lack = key.name == "clearness" || key.name == "dull_days" || key.name == "charge_above" ||
                                          key.name == "charge_below" || key.name == "closes_at" ||
                                          key.name == "opens_at";
                    if (has_default && !may_lack) CHECK(key.given(after));
                }
        }
        CHECK(written(complete(completed, built_in_tables())) == written(completed));
        CHECK(written(sound(written(completed))) == written(completed));
    }
}

TEST_CASE("what is not there has no defaults") {
    const Profile completed = complete(sound(simplest), built_in_tables());
    CHECK(!completed.solar);
    CHECK(!completed.inverter);
    CHECK(completed.loads.empty());
    CHECK(!completed.fridges.at(0).cut_out);
    CHECK(!completed.runs.at(0).where);
}

TEST_CASE("defaults that follow from the rest of the profile") {
    const Profile plain = complete(sound(simplest), built_in_tables());
    CHECK(plain.starter.lowest_running->value == near(volts(13.8), volts(1e-12)));
    CHECK(plain.charger.input_on->value == near(volts(13.2), volts(1e-12)));
    CHECK(plain.charger.input_off->value == near(volts(12.7), volts(1e-12)));
    CHECK(plain.charger.wake == Wake::voltage);
    CHECK(plain.runs[0].name == "feed");
    CHECK(plain.runs[0].from == "starter");
    CHECK(plain.runs[1].name == "battery");
    CHECK(plain.runs[1].from == "charger");
    CHECK(plain.runs[2].from == "battery");
    CHECK(plain.runs[2].loaded_in_bundle == 2);
    CHECK(plain.fridges[0].name == "fridge");
    CHECK((*plain.fridges[0].rated)[0].inside->value == near(celsius(5.0), kelvins(1e-9)));
    CHECK(plain.meter.voltage->fixed == near(millivolts(50.0), millivolts(1e-9)));

    const Profile smart = complete(sound(simplest + "[starter]\nalternator = \"smart\"\n"), built_in_tables());
    CHECK(smart.starter.lowest_running->value == near(volts(12.3), volts(1e-12)));
    CHECK(smart.charger.input_on->value == near(volts(12.0), volts(1e-12)));
    CHECK(smart.charger.input_off->value == near(volts(11.0), volts(1e-12)));
    CHECK(smart.charger.wake == Wake::ignition);

    const Profile body = complete(sound(replaced(simplest, "length = \"3 m\"", "length = \"3 m\"\nreturn = \"body\"")),
                                  built_in_tables());
    CHECK(body.runs[2].loaded_in_bundle == 1);
}

TEST_CASE("a battery's limits follow from its chemistry's row, its capacity and how many there are") {
    const std::string two = replaced(simplest, "capacity  = \"120 Ah\"", "capacity = \"100 Ah\"\ncount = 2");
    for (const std::string_view chemistry : {"flooded", "agm", "gel", "lfp"}) {
        CAPTURE(chemistry);
        const Profile bank = complete(sound(replaced(two, "agm", chemistry)), built_in_tables());
        const ChemistryRow* row = find_chemistry(built_in_tables(), chemistry);
        REQUIRE(row);
        // 200 Ah at a rate of 1/h is 200 A.
        CHECK(bank.battery.charge_limit->value == near(amperes(200.0 * in_per_hour(row->charge_limit)), amperes(0.01)));
        CHECK(bank.battery.discharge_limit->value ==
              near(amperes(200.0 * in_per_hour(row->discharge_limit)), amperes(0.01)));
        CHECK(bank.battery.depth_limit->value == near(row->depth_limit, ratio(1e-12)));
        CHECK(bank.charger.absorption->value == near(row->absorption, volts(1e-9)));
        CHECK(bank.charger.float_->value == near(row->float_, volts(1e-9)));
    }
}

TEST_CASE("an unknown key is answered with the nearest, and what was meant is not called missing as well") {
    const Faults faults = faults_of(replaced(simplest, "length = \"6 m\"", "lenght = \"6 m\""));
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].path == "run[0].lenght");
    CHECK(faults[0].what == "`lenght` is no key of [[run]]");
    CHECK(faults[0].hint == "did you mean `length`?");
    CHECK(faults[0].at_key);
}

TEST_CASE("faults of a profile: path, clause and hint") {
    const auto with = [](std::string_view old, std::string_view fresh) { return replaced(simplest, old, fresh); };
    struct Case {
        std::string toml, expected;
    };
    const Case cases[] = {
        {with("length = \"6 m\"", "length = 6"),
         "run[0].length: a length is wanted; this is a bare number, without its unit | write it in quotes, as in \"6.5 "
         "m\"\n"},
        {with("length = \"6 m\"", "length = \"-6 m\""),
         "run[0].length: -6 m is outside the range of `length` | it may be above 0 m, at most 100 m\n"},
        {with("length = \"6 m\"", "length = \"0 m\""),
         "run[0].length: 0 m is outside the range of `length` | it may be above 0 m, at most 100 m\n"},
        {with("length = \"6 m\"", ""),
         "run[0].length: this [[run]] has no `length` | write length = \"6 m\": length of the cable one way, as it is "
         "laid\n"},
        {with("\"31 degC\"", "\"400 degC\""),
         "trip.high: 400 degC is outside the range of `high` | it may be -60 degC to 60 degC\n"},
        {with("days   = 3", "days = 0"), "trip.days: 0 is outside the range of `days` | it may be 1 to 366\n"},
        {with("days   = 3", "days = 5000"), "trip.days: 5000 is outside the range of `days` | it may be 1 to 366\n"},
        {with("\"120 Ah\"", "\"0 Ah\""),
         "battery.capacity: 0 Ah is outside the range of `capacity` | it may be 1 Ah to 5000 Ah\n"},
        {with("\"08:30-10:00\"", "\"10:00-08:30\""),
         "trip.drives: this drive ends before it starts | a drive over midnight is two: \"22:00-24:00\" and "
         "\"00:00-02:00\"\n"},
        {with("\"08:30-10:00\"", "[\"08:30-10:00\", \"09:00-11:00\"]"),
         "trip.drives[1]: this drive overlaps another of the same day | write the two as one\n"},
        {with("[battery]\nchemistry = \"agm\"\ncapacity  = \"120 Ah\"\n", ""),
         "battery: the profile has no [battery]; its chemistry and capacity are needed | write a line [battery], and "
         "below it "
         "chemistry = \"agm\", capacity = \"120 Ah\"\n"},
        {with("[battery]", "[batery]"), "batery: `[batery]` is no section of a profile | did you mean `[battery]`?\n"},
        {with("[battery]", "[[battery]]"),
         "battery: there is only one [battery] in a profile; this is a list of them | write [battery], with count for "
         "equal batteries\n"},
        {with("[[fridge]]", "[fridge]"),
         "fridge: there may be several [[fridge]] in a profile, so its header has two brackets | write [[fridge]]\n"},
        {with("[[fridge]]", "[[frige]]"),
         "frige: `[[frige]]` is no section of a profile | did you mean `[[fridge]]`?\n"},
        {"chemistry = \"agm\"\n" + simplest,
         "chemistry: `chemistry` is no key of the top of the profile | it belongs below [battery]\n"},
        {"run = 5\n" + simplest.substr(0, simplest.find("[[run]]")),
         "run: `run` is a section; this is a whole number | write a line [[run]], and its keys below it\n"},
        {simplest + "[solar]\npanel = \"100 W\"\n",
         "solar: [solar] needs `start` and `latitude` in [trip] | write below [trip]: start = 2026-09-14, latitude = "
         "\"30 deg\" "
         "(south of the equator: \"-30 deg\")\n"},
        {with("days   = 3", "start = 2026-09-14") + "[solar]\npanel = \"100 W\"\n",
         "solar: [solar] needs `latitude` in [trip] | write below [trip]: latitude = \"30 deg\" (south of the equator: "
         "\"-30 deg\")\n"},
        {with("rated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]",
              "rated = [{ arround = \"25 degC\", a_day = \"22 V\" }]"),
         "fridge[0].rated[0].arround: `arround` is no key of `rated` | did you mean `around`?\n"
         "fridge[0].rated[0].a_day: this is a voltage; a charge or an energy is wanted | \"120 Ah\"\n"},
        {with("draw  = \"45 W\"", "draw = \"45 W\"\ninrush = { current = \"20 A\" }"),
         "fridge[0].inrush.time: this `inrush` has no `time` | write time = \"0.2 s\": how long it lasts\n"},
        {with("draw  = \"45 W\"", "draw = \"45 W\"\ninrush = \"20 A\""),
         "fridge[0].inrush: a current and its time in braces is wanted; this is a text | as in { current = \"20 A\", "
         "time = \"0.2 s\" }\n"},
        {with("length = \"6 m\"", "length = \"6 m\"\nwhere = [{ place = \"cabin\", length = \"0 m\" }]"),
         "run[0].where[0].length: 0 m is outside the range of `length` | it may be above 0 m, at most 100 m\n"},
        {with("length = \"6 m\"", "length = \"6 m\"\nfuse = { starter = \"5000 A SF30\" }"),
         "run[0].fuse.starter: 5000 A is outside the range of `fuse` | it may be above 0 A, at most 1000 A\n"},
        {simplest + "[[reading]]\nacross = [\"a\", \"b\", \"c\"]\n",
         "reading[0].across: a meter has two leads; these are 3 places | one place for its two poles, or two points: "
         "[\"starter +\", \"charger +\"]\n"},
    };
    for (const Case& one : cases) {
        CAPTURE(one.toml);
        CHECK(lines_of(faults_of(one.toml)) == one.expected);
    }
}

TEST_CASE("all faults are reported at once, in the order of the file") {
    const Faults faults =
        faults_of(replaced(replaced(simplest, "days   = 3", "days = \"3\""), "length = \"3 m\"", "length = \"3 V\""));
    REQUIRE(faults.size() == 2);
    CHECK(faults[0].path == "trip.days");
    CHECK(faults[1].path == "run[2].length");
}

TEST_CASE("too many entries of a list are one fault") {
    for (const auto& [section, most] :
         {std::pair{"run", 100}, {"load", 200}, {"fridge", 10}, {"day", 366}, {"reading", 200}}) {
        CAPTURE(section);
        Entry root = tree(simplest);
        Entry list;
        list.content = Entry::List(static_cast<std::size_t>(most) + 1, [] {
            Entry entry;
            entry.content = Entry::Section{};
            return entry;
        }());
        if (Entry* old = root.find(section))
            *old = list;
        else
            root.section()->emplace_back(section, list);
        Faults faults;
        (void)read_profile(root, faults);
        REQUIRE(faults.size() == 1);
        CHECK(faults[0].path == std::string(section) + "[" + std::to_string(most) + "]");
        CHECK(faults[0].what == "a profile may have " + std::to_string(most) + " of [[" + section + "]]; this has " +
                                    std::to_string(most + 1));
    }
}

TEST_CASE("an empty profile says what is needed") {
    CHECK(lines_of(faults_of("")) ==
          "trip: the profile has no [trip]; its low and high are needed | write a line [trip], and below it low = \"14 "
          "degC\", high = \"31 degC\"\n"
          "battery: the profile has no [battery]; its chemistry and capacity are needed | write a line [battery], and "
          "below it "
          "chemistry = \"agm\", capacity = \"120 Ah\"\n"
          "charger: the profile has no [charger]; its output is needed | write a line [charger], and below it output = "
          "\"25 A\"\n");
}

TEST_CASE("entries of lists have names") {
    const Profile profile = sound(everything);
    std::string names;
    for (const SectionRow& section : sections())
        if (section.many)
            for (std::size_t i = 0; i < section.count(profile); ++i) names += entry_name(profile, section, i) + ";";
    CHECK(names == "2-4;6,9;feed;battery;fridge;seed fridge;lamp;heater;1;2;");
}

}  // namespace voltwright
