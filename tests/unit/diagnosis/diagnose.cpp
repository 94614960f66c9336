#include "voltwright/diagnosis/diagnose.hpp"
#include "journeys.hpp"
#include "testing.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

/// Readings that no vehicle can show: an answer comes all the same.

namespace voltwright {

namespace {

Diagnosis of_readings(const std::string& readings) {
    const System system = testing::system_of_text(
        "[trip]\nlow = \"-33 degC\"\nhigh = \"41 degC\"\n[battery]\nchemistry = \"flooded\"\ncapacity = \"200 Ah\"\n"
        "[charger]\noutput = \"300 A\"\n[[run]]\nto = \"charger\"\nlength = \"100 m\"\n"
        "[[run]]\nto = \"clock\"\nlength = \"0.3 m\"\n[[run]]\nto = \"lamp\"\nlength = \"5 m\"\n"
        "[[fridge]]\ndraw = \"300 W\"\nrated = [{ around = \"25 degC\", a_day = \"21 Ah\" }]\n"
        "[[load]]\nname = \"heater\"\ndraw = \"500 W\"\n[[load]]\nname = \"fan\"\ndraw = \"1.4 A\"\n"
        "[[load]]\nname = \"clock\"\ndraw = \"0.001 W\"\n[[load]]\nname = \"lamp\"\ndraw = \"6 W\"\n"
        "[[load]]\nname = \"alarm\"\ndraw = \"0.001 W\"\n" +
        readings);
    return diagnose(system, make_plan(system));
}

bool holds_numbers(const Diagnosis& diagnosis) {
    for (const FaultCandidate& one : diagnosis.candidates)
        if ((one.extra && !std::isfinite(in_ohms(*one.extra))) ||
            (one.uncertainty && !std::isfinite(in_ohms(*one.uncertainty))) || !std::isfinite(one.odds))
            return false;
    for (const Comparison& one : diagnosis.comparisons)
        if (!std::isfinite(one.expected.number()) || !std::isfinite(one.tolerance.number()) ||
            !std::isfinite(one.explained.number()))
            return false;
    return true;
}

}  // namespace

TEST_CASE("a clock of a milliwatt that is read to draw 25 A is answered, and pinned on no one joint") {
    const Diagnosis diagnosis = of_readings(
        "[meter]\ncurrent = \"0 % + 0 A\"\n[[reading]]\nacross = [\"clock +\", \"lamp +\"]\n"
        "with = [\"fan\", \"lamp\", \"clock\", \"alarm\", \"fridge\", \"heater\"]\nvoltage = \"1.1 V\"\n"
        "[[reading]]\nthrough = \"clock\"\nwith = [\"lamp\", \"clock\", \"alarm\"]\ncurrent = \"25 A\"\n");
    CHECK(diagnosis.verdict != Verdict::nothing_wrong);
    CHECK(diagnosis.verdict != Verdict::found);
    CHECK(holds_numbers(diagnosis));
}

TEST_CASE("a meter that claims to be without error is not believed") {
    const Diagnosis diagnosis = of_readings(
        "[meter]\nvoltage = \"0 % + 0 V\"\nmillivolts = \"0 % + 0 V\"\ncurrent = \"0 % + 0 A\"\n"
        "[[reading]]\nthrough = \"lamp\"\nwith = [\"lamp\"]\ncurrent = \"0.5 A\"\n"
        "[[reading]]\nacross = [\"battery +\", \"lamp +\"]\nwith = [\"lamp\"]\nvoltage = \"0.4 V\"\n");
    CHECK(diagnosis.verdict != Verdict::nothing_wrong);
    CHECK(holds_numbers(diagnosis));
    REQUIRE(diagnosis.comparisons.size() == 2);
    for (const Comparison& one : diagnosis.comparisons) CHECK(one.tolerance.number() > 0.0);
    if (diagnosis.next) {
        REQUIRE(diagnosis.next->tolerance);
        CHECK(std::visit([](auto number) { return number.value() > 0.0; }, *diagnosis.next->tolerance));
    }
}

// ---- one fridge on three metres, all sound: 12.5 V, 4.2 A, 0.14 V out, 0.11 V back, 12.25 V at the fridge ---------

namespace {

/// Of a van with a charger, a fridge and a lamp, whose fuses sit at the battery, with none in front of them; each reading with its fridge on, if nothing else is said.
Diagnosis of_runs(const std::string& runs, const std::string& readings) {
    const System system = testing::system_of_text(
        "[trip]\ndays = 3\nlow = \"12 degC\"\nhigh = \"28.5 degC\"\ndrives = [\"08:00-09:30\"]\n"
        "[battery]\nchemistry = \"agm\"\ncapacity = \"100 Ah\"\nmain_fuse = \"none\"\n[charger]\noutput = \"20 A\"\n"
        "[[run]]\nto = \"charger\"\nlength = \"4.5 m\"\n[[run]]\nto = \"battery\"\nlength = \"1 m\"\n" +
        runs + "[[fridge]]\ndraw = \"50 W\"\nlitres = \"40 L\"\n[[load]]\nname = \"lamp\"\ndraw = \"10 W\"\n" +
        readings);
    return diagnose(system, make_plan(system));
}

Diagnosis of_van(const std::string& readings) {
    return of_runs("[[run]]\nto = \"fridge\"\nlength = \"3 m\"\n[[run]]\nto = \"lamp\"\nlength = \"2 m\"\n", readings);
}

Diagnosis diagnosis_with_block(const std::string& readings) {
    return of_runs(
        "[[run]]\nto = \"block\"\nlength = \"2 m\"\n"
        "[[run]]\nfrom = \"block\"\nto = \"fridge\"\nlength = \"3 m\"\n"
        "[[run]]\nfrom = \"block\"\nto = \"lamp\"\nlength = \"2 m\"\n",
        readings);
}

std::string across(const std::string& where, const std::string& voltage, const std::string& state) {
    return "[[reading]]\nacross = " + where + "\nvoltage = \"" + voltage + "\"\n" + state + "\n";
}

std::string through(const std::string& run, const std::string& current, const std::string& state) {
    return "[[reading]]\nthrough = \"" + run + "\"\ncurrent = \"" + current + "\"\n" + state + "\n";
}

const std::string fridge_on = "with = \"fridge\"", driving = "engine = \"driving\"";
const std::string way_out = "[\"battery +\", \"fridge +\"]", way_back = "[\"fridge -\", \"battery -\"]";

const Anomaly* anomaly(const Diagnosis& diagnosis, Anomaly::Kind kind) {
    for (const Anomaly& one : diagnosis.anomalies)
        if (one.kind == kind) return &one;
    return nullptr;
}

}  // namespace

TEST_CASE("a voltage below zero across a place is swapped poles, not a blown fuse, and never nothing wrong") {
    for (const char* place : {"\"fridge\"", "\"charger\""}) {
        const Diagnosis diagnosis =
            of_van(across(place, "-12.6 V", "") + across("\"battery\"", "12.7 V", "") +
                   across("\"battery\"", "12.50 V", fridge_on) + across(way_out, "0.14 V", fridge_on) +
                   through("fridge", "4.2 A", fridge_on));
        REQUIRE(diagnosis.anomalies.size() == 1);
        CHECK(diagnosis.anomalies[0].kind == Anomaly::Kind::poles_swapped);
        CHECK(diagnosis.verdict == Verdict::told_by_one);
    }
    // The same with the poles named the other way round: then plus on minus is what is wrong.
    CHECK(anomaly(of_van(across("[\"fridge -\", \"fridge +\"]", "12.6 V", "")), Anomaly::Kind::poles_swapped));
    CHECK_FALSE(anomaly(of_van(across("[\"fridge -\", \"fridge +\"]", "-12.6 V", "")), Anomaly::Kind::poles_swapped));
}

TEST_CASE("a blown fuse: the way in which it lies, then the fuse, and no reading is called wrong") {
    const std::string dead_fridge =
        across("\"battery\"", "12.6 V", fridge_on) + across("\"fridge\"", "0.00 V", fridge_on);
    SUBCASE("the far end is dead: either side") {
        const Diagnosis diagnosis = of_van(dead_fridge);
        REQUIRE(anomaly(diagnosis, Anomaly::Kind::nothing_arrives));
        REQUIRE(diagnosis.next);
        CHECK(diagnosis.next->across == std::vector<std::string>{"battery +", "fridge +"});
    }
    SUBCASE("the whole voltage along the way out: its fuse is asked for") {
        const Diagnosis diagnosis =
            of_van(dead_fridge + across(way_out, "12.6 V", fridge_on) + across(way_back, "0.0 mV", fridge_on) +
                   through("fridge", "0.0 A", fridge_on));
        const Anomaly* open = anomaly(diagnosis, Anomaly::Kind::open_circuit);
        REQUIRE(open);
        CHECK(open->elements.size() == 4);
        CHECK(open->elements.front() == "fridge fuse at battery");
        CHECK(open->fuse);
        CHECK(diagnosis.verdict == Verdict::told_by_one);
        CHECK(diagnosis.candidates.empty());
        REQUIRE(diagnosis.next);
        CHECK(diagnosis.next->across == std::vector<std::string>{"fridge fuse at battery"});
    }
    SUBCASE("the whole voltage across the fuse: it alone") {
        const Diagnosis diagnosis =
            of_van(dead_fridge + across("\"fridge fuse at battery\"", "12.6 V", fridge_on) +
                   across(way_back, "0.0 mV", fridge_on) + through("fridge", "0.0 A", fridge_on));
        const Anomaly* open = anomaly(diagnosis, Anomaly::Kind::open_circuit);
        REQUIRE(open);
        CHECK(open->elements == std::vector<std::string>{"fridge fuse at battery"});
        CHECK(diagnosis.candidates.empty());
        CHECK_FALSE(diagnosis.next);
    }
    SUBCASE("the lamp on the same block is dead as well: what both hang on") {
        const auto of_block = [](const std::string& lamp) {
            return diagnosis_with_block(across("\"fridge\"", "0 V", fridge_on) +
                                        across("\"lamp\"", lamp, "with = \"lamp\""));
        };
        const Diagnosis both = of_block("0 V");
        const Anomaly* open = anomaly(both, Anomaly::Kind::open_circuit);
        REQUIRE(open);
        for (const std::string& one : open->elements) CHECK(one.rfind("block ", 0) == 0);
        const Diagnosis one_of_them = of_block("12.3 V");
        open = anomaly(one_of_them, Anomaly::Kind::open_circuit);
        REQUIRE(open);
        for (const std::string& one : open->elements) CHECK(one.rfind("fridge ", 0) == 0);
    }
    SUBCASE("nothing across the fuse: one of the others") {
        const Diagnosis diagnosis = of_van(dead_fridge + across(way_out, "12.6 V", fridge_on) +
                                           across("\"fridge fuse at battery\"", "0.0 mV", fridge_on));
        const Anomaly* open = anomaly(diagnosis, Anomaly::Kind::open_circuit);
        REQUIRE(open);
        CHECK(open->elements.size() == 3);
        CHECK(std::count(open->elements.begin(), open->elements.end(), "fridge fuse at battery") == 0);
    }
    SUBCASE("the whole voltage along the way back") {
        const Diagnosis diagnosis = of_van(dead_fridge + across(way_back, "12.6 V", fridge_on));
        const Anomaly* open = anomaly(diagnosis, Anomaly::Kind::open_circuit);
        REQUIRE(open);
        for (const std::string& one : open->elements) CHECK(one.back() == '-');
    }
}

TEST_CASE("a tenfold slip is no open way where a current flows all the same") {
    // 1.24 V noted as 12.4 V, with 4.2 A and 12.25 V at the far end.
    const Diagnosis diagnosis =
        of_van(across("\"battery\"", "12.50 V", fridge_on) + across("\"fridge\"", "12.25 V", fridge_on) +
               across(way_out, "12.4 V", fridge_on) + across(way_back, "0.11 V", fridge_on) +
               through("fridge", "4.2 A", fridge_on));
    CHECK_FALSE(anomaly(diagnosis, Anomaly::Kind::open_circuit));
    REQUIRE_FALSE(diagnosis.candidates.empty());
    CHECK(diagnosis.candidates.front().measurement == 2);
}

TEST_CASE("more volts than a 12 V system can have are told as noted wrongly") {
    const Diagnosis diagnosis =
        of_van(across("\"starter\"", "21.4 V", driving) + across("\"charger\"", "13.6 V", driving) +
               across("\"battery\"", "12.6 V", fridge_on));
    const Anomaly* impossible = anomaly(diagnosis, Anomaly::Kind::impossible);
    REQUIRE(impossible);
    CHECK(impossible->measurement == 0);
    CHECK(diagnosis.candidates.empty());
}

TEST_CASE("an appliance that is on and takes nothing is told, and asked for its voltage") {
    const Diagnosis diagnosis =
        of_van(across("\"battery\"", "12.60 V", fridge_on) + through("fridge", "0.0 A", fridge_on));
    CHECK(anomaly(diagnosis, Anomaly::Kind::nothing_flows));
    CHECK(diagnosis.verdict == Verdict::told_by_one);
    REQUIRE(diagnosis.next);
    CHECK(diagnosis.next->across == std::vector<std::string>{"fridge"});
}

TEST_CASE("batteries outside of what the test plan gives are told by themselves") {
    SUBCASE("an alternator that does not charge") {
        const Diagnosis diagnosis =
            of_van(across("\"starter\"", "12.3 V", driving) + across("\"charger\"", "12.3 V", driving));
        CHECK(anomaly(diagnosis, Anomaly::Kind::not_charged));
        CHECK(diagnosis.verdict == Verdict::told_by_one);
    }
    SUBCASE("a charging profile that is not the battery's") {
        const Diagnosis diagnosis = of_van(across("\"battery\"", "15.6 V", driving));
        CHECK(anomaly(diagnosis, Anomaly::Kind::overcharged));
        CHECK(diagnosis.verdict == Verdict::told_by_one);
    }
    SUBCASE("a battery that has to be charged first") {
        CHECK(anomaly(of_van(across("\"battery\"", "11.9 V", "")), Anomaly::Kind::low_battery));
        CHECK(anomaly(of_van(across("\"starter\"", "12.0 V", "")), Anomaly::Kind::low_battery));
    }
    SUBCASE("but not where the next reading says that it was noted wrongly, and not under load") {
        // 14.05 V noted as 10.45 V: the charger at its end of the feed cannot have more than that.
        CHECK_FALSE(
            anomaly(of_van(across("\"starter\"", "10.45 V", driving) + across("\"charger\"", "13.4 V", driving)),
                    Anomaly::Kind::not_charged));
        CHECK_FALSE(anomaly(of_van(across("\"battery\"", "12.2 V", fridge_on)), Anomaly::Kind::low_battery));
        CHECK(of_van(across("\"battery\"", "12.6 V", "") + across("\"starter\"", "14.1 V", driving)).anomalies.empty());
    }
}

TEST_CASE("a reading noted tenfold beside a bad joint does not hide it") {
    // 0.36 V back instead of 0.11 V: 0.25 V/4.2 A = 60 mΩ too much. The way out, 0.14 V, noted as 1.4 V.
    const std::string readings = across("\"battery\"", "12.50 V", fridge_on) +
                                 across("\"fridge\"", "12.01 V", fridge_on) + across(way_out, "1.4 V", fridge_on) +
                                 across(way_back, "0.36 V", fridge_on) + through("fridge", "4.2 A", fridge_on);
    const auto slip = [](const Diagnosis& diagnosis) {
        return std::any_of(diagnosis.candidates.begin(), diagnosis.candidates.end(), [](const FaultCandidate& one) {
            return one.kind == FaultKind::gross_error && one.identified && one.measurement == 2;
        });
    };
    SUBCASE("with the side only: two lugs explain it alike") {
        const Diagnosis diagnosis = of_van(readings);
        CHECK(slip(diagnosis));
        CHECK(diagnosis.verdict == Verdict::several);
        CHECK(std::count_if(diagnosis.candidates.begin(), diagnosis.candidates.end(), [](const FaultCandidate& one) {
                  return one.kind == FaultKind::joint && !one.identified && one.element.back() == '-';
              }) == 2);
        CHECK(diagnosis.next);
    }
    SUBCASE("with the lug: it alone") {
        const Diagnosis diagnosis = of_van(readings + across("\"fridge lug at battery -\"", "250 mV", fridge_on));
        CHECK(slip(diagnosis));
        REQUIRE_FALSE(diagnosis.candidates.empty());
        CHECK(diagnosis.candidates.front().element == "fridge lug at battery -");
        CHECK(diagnosis.candidates.front().identified);
        CHECK(in_milliohms(*diagnosis.candidates.front().extra) == doctest::Approx(60.0).epsilon(0.05));
    }
}

TEST_CASE("current where nothing is on: the load is missing in the reading, and its state is left alone") {
    const Diagnosis diagnosis = of_van(across("\"battery\"", "12.50 V", "") + across("\"fridge\"", "12.01 V", "") +
                                       across(way_out, "0.14 V", "") + through("fridge", "4.2 A", ""));
    CHECK(anomaly(diagnosis, Anomaly::Kind::unexpected_current));
    CHECK(diagnosis.candidates.empty());
    CHECK(diagnosis.verdict == Verdict::told_by_one);
}

// ---- what the limits tell ------------------------------------------------------------------------------------------

TEST_CASE("a warm regulator is no dead alternator, a battery at its rest is") {
    // Service manuals give 12.9 to 14.1 V for a hot regulator.
    for (const char* warm : {"13.0 V", "13.3 V", "13.6 V"}) {
        const Diagnosis diagnosis = of_van(across("\"starter\"", warm, "engine = \"idling\""));
        CHECK_FALSE(anomaly(diagnosis, Anomaly::Kind::not_charged));
        REQUIRE(anomaly(diagnosis, Anomaly::Kind::low_charging));
        CHECK_FALSE(anomaly(diagnosis, Anomaly::Kind::low_charging)->grave());
    }
    CHECK(anomaly(of_van(across("\"starter\"", "12.6 V", "engine = \"idling\"")), Anomaly::Kind::not_charged));
}

TEST_CASE("full volts off load and few under load: the run cannot carry, and by how much when its current is known") {
    const std::string off = across("\"charger\"", "13.5 V", driving + "\ncharger = \"off\"");
    const std::string on = across("\"charger\"", "9.8 V", driving);
    for (const std::string& before : {off, across("\"starter\"", "13.5 V", driving)}) {
        const Diagnosis diagnosis = of_van(before + on);
        const Anomaly* carries = anomaly(diagnosis, Anomaly::Kind::cannot_carry);
        REQUIRE(carries);
        CHECK(carries->run == "feed");
        CHECK(carries->gives_up);
        CHECK_FALSE(carries->flows);
        CHECK(in_volts(std::get<Voltage>(*carries->found)) == doctest::Approx(3.7));
        CHECK_FALSE(anomaly(diagnosis, Anomaly::Kind::not_charged));
    }
    const Diagnosis clamped = of_van(off + on + through("feed", "18 A", driving));
    REQUIRE(anomaly(clamped, Anomaly::Kind::cannot_carry));
    CHECK(in_amperes(*anomaly(clamped, Anomaly::Kind::cannot_carry)->flows) == doctest::Approx(18.0));
    CHECK(anomaly(of_van(across("\"fridge\"", "12.6 V", "") + across("\"fridge\"", "10.2 V", fridge_on)),
                  Anomaly::Kind::cannot_carry));
}

TEST_CASE("without a clamp two signs of three tell that the charger does nothing, and no reading is called wrong") {
    const std::string starter = across("\"starter\"", "14.20 V", driving),
                      charger = across("\"charger\"", "14.20 V", driving),
                      house = across("\"battery\"", "12.50 V", driving),
                      lossless = across("[\"starter +\", \"charger +\"]", "0 mV", driving);
    for (const std::string& signs : {starter + charger + house, starter + charger + lossless, house + lossless}) {
        const Diagnosis diagnosis = of_van(signs);
        REQUIRE(anomaly(diagnosis, Anomaly::Kind::charger_idle));
        // What a lamp may lose on a sound feed is told beside it.
        CHECK(anomaly(diagnosis, Anomaly::Kind::charger_idle)->limit);
        CHECK(diagnosis.verdict == Verdict::told_by_one);
        CHECK(diagnosis.candidates.empty());
    }
    CHECK_FALSE(anomaly(of_van(house), Anomaly::Kind::charger_idle));
    CHECK_FALSE(
        anomaly(of_van(starter + across("\"charger\"", "13.7 V", driving) + house), Anomaly::Kind::charger_idle));
}

TEST_CASE("twice the volts are a 24 V vehicle, but not beside a reading of 12 V") {
    CHECK(anomaly(of_van(across("\"starter\"", "25.4 V", "")), Anomaly::Kind::other_voltage));
    const Diagnosis slipped = of_van(across("\"starter\"", "25.4 V", "") + across("\"starter\"", "14.2 V", driving));
    CHECK_FALSE(anomaly(slipped, Anomaly::Kind::other_voltage));
    CHECK(anomaly(slipped, Anomaly::Kind::impossible));
}

TEST_CASE("what electronics and a clamp's zero take while all is off is one figure for list and diagnosis") {
    const std::string use = across("\"battery\"", "12.60 V", fridge_on) + across("\"fridge\"", "12.38 V", fridge_on);
    const Diagnosis asleep = of_van(through("fridge", "0.3 A", "") + use);
    CHECK(asleep.verdict == Verdict::nothing_wrong);
    for (const Comparison& one : asleep.comparisons) CHECK(one.as_it_should());
    CHECK(of_van(through("fridge", "0.4 A", "") + use).verdict == Verdict::told_by_one);
}

TEST_CASE("a lone huge drop ends in its limit and a cause, not in an empty contradiction") {
    for (const char* drop : {"0.80 V", "2.5 V", "5 V"}) {
        const Diagnosis diagnosis = of_van(across("\"feed lug at charger +\"", drop, driving));
        CHECK(anomaly(diagnosis, Anomaly::Kind::beyond_limit));
        CHECK(diagnosis.verdict != Verdict::contradiction);
        CHECK(diagnosis.verdict != Verdict::nothing_wrong);
    }
}

TEST_CASE("no more flows in what is suspected than the charger takes before it gives up") {
    const Diagnosis diagnosis = of_van(across("[\"starter +\", \"charger +\"]", "1.5 V", driving));
    // 20 A at some 14.9 V, over 90 % and 12.7 V.
    for (const FaultCandidate& one : diagnosis.candidates)
        if (one.at) CHECK(in_amperes(*one.at) < 20.0 * 1.05 * 14.9 / 0.85 / 12.7);
}

}  // namespace voltwright
