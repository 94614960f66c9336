// What every finding brings: words without a gap, and changes of the profile that cure it.

#include "journeys.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/override.hpp"

#include <doctest/doctest.h>

#include <optional>
#include <set>
#include <string>
#include <utility>
#include <variant>
#include <vector>

using namespace voltwright;

namespace {

/// A vehicle with a slip of its owner's: keys of its feed, of its charger, starter battery and fridge, and more sections.
struct Slip {
    std::string feed = {}, charger = {}, starter = {}, fridge = {}, more = {};
};

const std::vector<Slip> slips = {
    {},
    {.feed = "size = \"16 AWG\"\n"},
    {.feed = "size = \"16 AWG\"\nhave = \"cable\"\nname = \"long.way round\"\n"},
    {.feed = "size = \"6 AWG\"\nreturn_size = \"16 AWG\"\n"},
    {.feed = "size = \"12 AWG\"\nreturn = \"body\"\n"},
    {.feed = "return = \"body\"\nlength = \"14 m\"\n"},
    {.feed = "fuse = \"500 A SF51\"\n"},
    {.feed = "fuse = \"5 A blade\"\n"},
    {.feed = "fuse = \"none\"\n"},
    {.feed = "fuse = { charger = \"50 A SF30\" }\n"},
    {.feed = "size = \"6 AWG\"\nfuse = { charger = \"50 A SF30\" }\n"},
    {.feed = "size = \"6 AWG\"\njoints = [\"lug\", \"two-pole plug 50 A\", \"lug\"]\n",
     .charger = "output = \"50 A\"\n"},
    {.feed = "size = \"6 AWG\"\n", .charger = "output = \"25 A\"\nstud = \"M5\"\n"},
    {.charger = "output = \"25 A\"\nabsorption = \"15.6 V\"\n"},
    {.charger = "output = \"25 A\"\nabsorption = \"13.9 V\"\n"},
    {.charger = "output = \"25 A\"\nwake = \"voltage\"\n", .starter = "alternator = \"smart\"\n"},
    {.more = "[rules]\nfuses = [\"5 A blade\", \"250 A SF51\"]\n"},
    {.starter = "spare_current = \"12 A\"\n"},
    {.charger = "output = \"40 A\"\nfuse_max = \"30 A\"\n"},
    {.fridge = "cut_out = \"9.6 V\"\ncut_in = \"10.9 V\"\n",
     .more = "[[run]]\nfrom = \"starter\"\nto = \"fridge\"\nlength = \"3 m\"\n"},
    {.more = "[[run]]\nto = \"fridge\"\nlength = \"9 m\"\n[rules]\nsizes = [\"16 AWG\", \"14 AWG\"]\n"},
    {.more = "[inverter]\noutput = \"1500 W\"\n[[run]]\nto = \"inverter\"\nlength = \"1 m\"\nfuse = \"200 A SF51\"\n"},
    {.more = "[[load]]\nname = \"winch\"\ndraw = \"20 A\"\ninrush = { current = \"120 A\", time = \"1 s\" }\n[[run]]\n"
             "to = \"winch\"\nlength = \"2 m\"\nfuse = \"25 A blade\"\n"},
};

std::string text_of(const Slip& slip, const std::string& chemistry, int days) {
    const std::string length = slip.feed.find("length") == std::string::npos ? "length = \"6 m\"\n" : "";
    const std::string output = slip.charger.find("output") == std::string::npos ? "output = \"25 A\"\n" : "";
    return "[trip]\ndays = " + std::to_string(days) +
           "\nlow = \"10 degC\"\nhigh = \"31 degC\"\ndrives = \"08:00-08:30\"\n[battery]\nchemistry = \"" + chemistry +
           "\"\ncapacity = \"90 Ah\"\n[charger]\n" + output + slip.charger + "[starter]\n" + slip.starter +
           "[[run]]\nto = \"charger\"\n" + length + slip.feed +
           "[[fridge]]\ndraw = \"45 W\"\nrated = [{ around = \"25 degC\", a_day = \"22 Ah\" }]\n" + slip.fridge +
           slip.more;
}

/// The profile with these changes, read, tied and planned anew as `--set` would; empty where it cannot be.
std::optional<Plan> plan_with(const std::string& text, const std::vector<Change>& changes) {
    auto document = std::get<Document>(read_document_text("test", text));
    for (const Change& change : changes) {
        CAPTURE(change.key);
        CAPTURE(change.value);
        const auto fault = set(document.root, change.key, read_override_value(change.value));
        CHECK_MESSAGE(!fault, (fault ? fault->what : ""));
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

using Told = std::pair<FindingCode, std::string>;

std::set<Told> told(const Plan& plan, bool stops_alone) {
    std::set<Told> all;
    for (const Finding& one : plan.findings)
        if (one.stops() || !stops_alone) all.insert({one.code, show(one.about)});
    return all;
}

/// A remedy is applied before it is printed: what it cures is gone, and nothing new stops. A charger that is held back to
/// what the alternator can spare may leave the trip too little: that is told of the trip, and is no reason to overload it.
void check_cure(const std::string& text, const Plan& plan, const Finding& finding) {
    if (finding.remedy.changes.empty()) return;
    const auto cured = plan_with(text, finding.remedy.changes);
    if (!cured) return;
    CHECK_FALSE(told(*cured, false).count({finding.code, show(finding.about)}));
    if (finding.code == FindingCode::spare_current) return;
    const std::set<Told> before = told(plan, true);
    for (const auto& [code, about] : told(*cured, true)) {
        const std::string stop = std::string(show(code)) + " of " + about;
        CAPTURE(stop);
        CHECK(before.count({code, about}));
    }
}

}  // namespace

TEST_CASE(
    "whatever a plan finds, its sentences have no gap and its changes, planned anew, cure it without a new stop") {
    std::set<FindingCode> codes, with_changes;
    for (const Slip& slip : slips)
        for (const char* chemistry : {"agm", "lfp"})
            for (const int days : {1, 6}) {
                const std::string text = text_of(slip, chemistry, days);
                CAPTURE(text);
                const Plan plan = make_plan(testing::system_of_text(text));
                for (const Finding& finding : plan.findings) {
                    const std::string said = show(finding), to_do = remedy_in_words(finding);
                    CAPTURE(said);
                    CAPTURE(to_do);
                    CHECK(said.ends_with("."));
                    CHECK(to_do.ends_with("."));
                    CHECK(!finding.source.id.empty());
                    CHECK(!finding.source.cite.empty());
                    check_cure(text, plan, finding);
                    codes.insert(finding.code);
                    if (!finding.remedy.changes.empty()) with_changes.insert(finding.code);
                }
            }
    // A fault that stops all findings, or all changes, would pass the rest.
    CHECK(codes.size() >= 25);
    CHECK(with_changes.size() >= 10);
}
