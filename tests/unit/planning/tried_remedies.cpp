// What a stop says is to be done, with the keys to change, is made and planned again before it is said.

#include "testing.hpp"
#include "voltwright/files/system_with.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <algorithm>
#include <string>
#include <vector>

using namespace voltwright;

namespace {

LoadedSystem loaded(const std::string& text) {
    auto read = load_system_text("a van", text);
    REQUIRE(read);
    return *std::move(read);
}

std::string van(const std::string& runs, const std::string& more = {}) {
    return "[trip]\nlow = \"10 degC\"\nhigh = \"24 degC\"\ndrives = \"08:00-12:00\"\n[battery]\nchemistry = \"agm\"\n"
           "capacity = \"200 Ah\"\n[charger]\noutput = \"20 A\"\n[[run]]\nto = \"charger\"\nlength = \"4 m\"\n" +
           runs + more;
}

/// A trunk that is far too thin, and behind it a pump that needs what the trunk loses.
const std::string thin_trunk =
    van("[[run]]\nfrom = \"battery\"\nto = \"block\"\nlength = \"4 m\"\nsize = \"18 AWG\"\nhave = \"cable\"\n"
        "[[run]]\nfrom = \"block\"\nto = \"pump\"\nlength = \"6 m\"\n[[run]]\nfrom = \"block\"\nto = \"lamp\"\nlength "
        "= \"6 m\"\n",
        "[[load]]\nname = \"pump\"\ndraw = \"12 A\"\nduty = \"5 %\"\n[[load]]\nname = \"lamp\"\ndraw = \"8 A\"\nduty = "
        "\"5 %\"\n");

/// As a person would: each change typed, and planned again.
Plan as_told(const LoadedSystem& profile, const std::vector<Change>& changes) {
    std::vector<std::string> sets;
    for (const Change& change : changes) sets.push_back(change.key + "=" + change.value);
    auto changed = load_system_text("as told", profile.document.text, sets);
    REQUIRE(changed);
    return make_plan(changed->system);
}

bool says(const Plan& plan, const Finding& finding) {
    return std::any_of(plan.findings.begin(), plan.findings.end(),
                       [&](const Finding& one) { return one.code == finding.code && one.about == finding.about; });
}

}  // namespace

TEST_CASE("what a stop offers to change does away with it, and brings no other stop") {
    const LoadedSystem profile = loaded(thin_trunk);
    Plan plan = make_plan(profile.system);
    try_remedies(plan, system_with(profile));
    REQUIRE_FALSE(plan.holds());
    int offered = 0;
    for (const Finding& finding : plan.findings) {
        if (!finding.stops() || finding.remedy.changes.empty()) continue;
        CAPTURE(show(finding));
        const Plan after = as_told(profile, finding.remedy.changes);
        CHECK_FALSE(says(after, finding));
        CHECK(after.holds());
        ++offered;
    }
    CHECK(offered >= 1);
}

TEST_CASE("what does not do away with its stop is not offered, and what brings another says so") {
    const LoadedSystem profile = loaded(thin_trunk);
    std::vector<std::vector<Change>> asked;
    // A person whose shop sells something else: no change helps.
    const auto nothing_helps = [&](const std::vector<Change>& changes) -> std::optional<System> {
        asked.push_back(changes);
        return profile.system;
    };
    Plan plan = make_plan(profile.system);
    try_remedies(plan, nothing_helps);
    CHECK_FALSE(asked.empty());
    for (const Finding& finding : plan.findings)
        if (finding.stops()) CHECK(finding.remedy.changes.empty());

    // Every change is made, and beside it a run that no cable of the shop fits.
    const LoadedSystem worse = loaded(thin_trunk +
                                      "[[load]]\nname = \"winch\"\ndraw = \"900 A\"\nduty = \"5 %\"\n[[run]]\nfrom = "
                                      "\"battery\"\nto = \"winch\"\nlength = \"9 m\"\n");
    Plan brings = make_plan(profile.system);
    try_remedies(brings, system_with(worse));
    int told = 0;
    for (const Finding& finding : brings.findings) {
        if (!finding.stops()) continue;
        CHECK(finding.remedy.changes.empty());
        told += remedy_in_words(finding).find("Something else stops the plan then, at winch") != std::string::npos;
    }
    CHECK(told >= 1);
}

TEST_CASE("a plan that nothing stops tries nothing") {
    const LoadedSystem profile = loaded(van("[[run]]\nfrom = \"battery\"\nto = \"lamp\"\nlength = \"2 m\"\n",
                                            "[[load]]\nname = \"lamp\"\ndraw = \"10 W\"\nduty = \"20 %\"\n"));
    int tried = 0;
    Plan plan = make_plan(profile.system);
    try_remedies(plan, [&](const std::vector<Change>&) {
        ++tried;
        return std::optional<System>{};
    });
    CHECK(plan.holds());
    CHECK(tried == 0);
}
