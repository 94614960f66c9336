// What a finding about a fuse says to do is set and planned again: the finding is gone, and no new stop has come. Cables and
// fuses of every size, right and wrong, on vehicles drawn at random.

#include "dice.hpp"
#include "journeys.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/override.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

using namespace voltwright;

namespace {

using testing::Dice;

std::string quoted(const std::string& text) { return "\"" + text + "\""; }

std::string vehicle(unsigned seed) {
    Dice dice(seed);
    const auto one_of = [&](const std::vector<std::string>& all) { return dice.one_of(all); };
    const auto chance = [&](int percents) { return dice.whole(1, 100) <= percents; };
    std::string text = "[trip]\ndays = 1\nlow = \"10 degC\"\nhigh = \"25 degC\"\ndrives = \"08:30-11:00\"\n[starter]\n";
    if (chance(30)) text += "cold_cranking = \"800 A\"\n";
    text += "[battery]\nchemistry = " + quoted(one_of({"agm", "lfp"})) +
            "\ncapacity = " + quoted(one_of({"80 Ah", "150 Ah", "300 Ah"})) +
            "\n[charger]\noutput = " + quoted(one_of({"10 A", "20 A", "25 A", "30 A", "50 A"})) + "\n";
    if (chance(20)) text += "fuse_max = " + quoted(one_of({"30 A", "40 A", "60 A"})) + "\n";
    const std::vector<std::string> sizes = {"16 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "2 AWG", "2/0 AWG"};
    const std::vector<std::string> fuses = {"5 A blade", "15 A blade", "30 A blade", "40 A SF30",
                                            "60 A SF30", "100 A SF30", "150 A SF51", "50 A breaker",
                                            "100 A ANL", "300 A SF51", "40 A post",  "225 A class T"};
    const auto run = [&](const std::string& to) {
        text += "[[run]]\nto = " + quoted(to) + "\nlength = " + quoted(one_of({"0.6 m", "2 m", "5 m"})) + "\n";
        if (chance(40)) text += "size = " + quoted(one_of(sizes)) + "\n";
        if (chance(60)) text += "fuse = " + quoted(chance(15) ? "none" : one_of(fuses)) + "\n";
    };
    run("charger");
    run("battery");
    run("load");
    text += "[[load]]\nname = \"load\"\ndraw = " + quoted(one_of({"2 A", "8 A", "15 A", "25 A"})) +
            "\nhours = \"18:00-18:20\"\n";
    if (chance(30)) {
        text += "[inverter]\noutput = " + quoted(one_of({"300 W", "1000 W", "2000 W", "3000 W"})) + "\n";
        run("inverter");
    }
    if (chance(15)) text += "[rules]\nfuses = [\"15 A blade\", \"30 A blade\", \"40 A SF30\"]\n";
    return text;
}

Plan planned(Document document, const std::vector<Change>& changes) {
    for (const Change& change : changes) {
        const auto fault = set(document.root, change.key, read_override_value(change.value));
        if (fault) FAIL_CHECK(change.key << " = " << change.value << ": " << fault->what);
    }
    Faults faults;
    const Profile profile = read_profile(document.root, faults);
    for (const Fault& fault : faults) FAIL_CHECK(fault.path << ": " << fault.what);
    const auto system = resolve(profile, built_in_tables());
    if (const auto* wrong = std::get_if<Faults>(&system)) {
        for (const Fault& fault : *wrong) FAIL_CHECK(fault.path << ": " << fault.what);
        return {};
    }
    return make_plan(std::get<System>(system));
}

using Stop = std::pair<FindingCode, std::string>;

/// What several fuses break is one finding of the plan, whatever runs it names.
Stop stop_of(const Finding& one) {
    return {one.code, one.code == FindingCode::breaking_capacity ? std::string() : show(one.about)};
}

std::set<Stop> stops_of(const Plan& plan) {
    std::set<Stop> stops;
    for (const Finding& one : plan.findings)
        if (one.stops()) stops.insert(stop_of(one));
    return stops;
}

bool is_of_a_fuse(FindingCode code) {
    constexpr FindingCode codes[] = {FindingCode::fuse_too_small,  FindingCode::fuse_too_large,
                                     FindingCode::fuse_above_part, FindingCode::fuse_missing,
                                     FindingCode::no_fuse_fits,    FindingCode::breaking_capacity,
                                     FindingCode::blows_on_start};
    return std::find(std::begin(codes), std::end(codes), code) != std::end(codes);
}

/// What is still wrong after the changes that a finding asks for, or newly so; empty when the finding is gone and no new stop
/// has come.
std::string left_after(const Document& document, const Finding& finding, const std::set<Stop>& before) {
    const Plan cured = planned(document, finding.remedy.changes);
    for (const Finding& one : cured.findings) {
        if (one.code == finding.code && one.about == finding.about) return show(one);
        if (one.stops() && before.count(stop_of(one)) == 0) return show(one);
    }
    return {};
}

}  // namespace

// Known to fail now and then, and so allowed once in fifty: a fuse of other ohms that leaves too little at the end of a way
// which several runs share, which no single run can tell; and a charger that is starved where it cycled.
TEST_CASE("what is said to do about a fuse, once set, does away with the finding and brings no stop") {
    std::map<FindingCode, int> tried;
    int all = 0, wrong = 0;
    for (unsigned seed = 1; seed <= 240; ++seed) {
        const std::string text = vehicle(seed);
        const auto document = std::get<Document>(read_document_text("test", text));
        const Plan plan = planned(document, {});
        const std::set<Stop> before = stops_of(plan);
        for (const Finding& finding : plan.findings) {
            if (!is_of_a_fuse(finding.code) || finding.remedy.changes.empty()) continue;
            ++tried[finding.code];
            ++all;
            const std::string left = left_after(document, finding, before);
            if (left.empty()) continue;
            ++wrong;
            MESSAGE(show(finding) << " " << remedy_in_words(finding) << " But then: " << left);
        }
    }
    CHECK(50 * wrong <= all);
    CHECK(all >= 100);
    CHECK(tried.size() >= 4);
}
