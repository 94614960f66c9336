#include "testing.hpp"

#include "voltwright/sizing/choice.hpp"

#include <functional>
#include <limits>
#include <string>
#include <vector>

/// What an outsider may hand to choose_cable by a slip, and what it says of it.

namespace voltwright {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

struct Asked {
    CableRun run{.name = std::string("lamp"), .length = metres(4)};
    RunLoad load = SteadyLoad{.current = amperes(20)};
    Supply supply{.normal = volts(12.7), .lowest = volts(12), .drop_limit = percent(3)};
    Rules rules;

    Asked() {
        run.fused_at = {{place_named("battery"),
                         celsius(30),
                         volts(12.7),
                         volts(14.4),
                         {milliohms(3), milliohms(8), milliohms(5.5), {"a test", "given"}, true}}};
        rules.sizes = {awg(16), awg(12), awg(8), awg(4)};
    }
};

/// What the choice says of it; "taken" when it took a cable, "none" when none would do.
std::string answer(const std::function<void(Asked&)>& slip) {
    Asked asked;
    slip(asked);
    try {
        return choose_cable(asked.run, asked.load, asked.supply, asked.rules).taken ? "taken" : "none";
    } catch (const std::invalid_argument& refusal) {
        return refusal.what();
    }
}

}  // namespace

TEST_CASE("a cable is not chosen for what is no amount, no share or without a fuse") {
    struct Case {
        const char* field;
        std::function<void(Asked&)> slip;
    };
    const std::vector<Case> cases = {
        {"CableRun::fused_at", [](Asked& a) { a.run.fused_at.clear(); }},
        {"CableRun::length", [](Asked& a) { a.run.length = metres(-4); }},
        {"CableRun::length", [](Asked& a) { a.run.length = metres(0); }},
        {"CableRun::length", [](Asked& a) { a.run.length = metres(nan); }},
        {"CableRun::length", [](Asked& a) { a.run.length = metres(infinite); }},
        {"CableRun::around", [](Asked& a) { a.run.around = celsius(nan); }},
        {"CableRun::insulation", [](Asked& a) { a.run.insulation = Temperature{}; }},
        {"CableRun::loaded_in_bundle", [](Asked& a) { a.run.loaded_in_bundle = 0; }},
        {"CableRun::loaded_in_bundle", [](Asked& a) { a.run.loaded_in_bundle = -3; }},
        {"WayPart::length",
         [](Asked& a) {
             a.run.way = {{"roof", metres(-1), celsius(30)}};
         }},
        {"WayPart::around",
         [](Asked& a) {
             a.run.way = {{"roof", metres(1), celsius(nan)}};
         }},
        {"Joint::measured",
         [](Asked& a) {
             a.run.joints = {{"plug", milliohms(-500)}};
         }},
        {"Upstream::hot", [](Asked& a) { a.run.upstream.hot = ohms(nan); }},
        {"FuseEnd::open_circuit", [](Asked& a) { a.run.fused_at[0].open_circuit = volts(-12); }},
        {"FuseEnd::internal", [](Asked& a) { a.run.fused_at[0].internal.expected = ohms(nan); }},
        {"SteadyLoad::current", [](Asked& a) { a.load = SteadyLoad{.current = amperes(-25)}; }},
        {"SteadyLoad::current", [](Asked& a) { a.load = SteadyLoad{.current = amperes(nan)}; }},
        {"PowerLoad::power", [](Asked& a) { a.load = PowerLoad{.power = watts(-60)}; }},
        {"PowerLoad::cut_out", [](Asked& a) { a.load = PowerLoad{.power = watts(60), .cut_out = volts(0)}; }},
        {"ResistiveLoad::resistance",
         [](Asked& a) { a.load = ResistiveLoad{.resistance = ohms(0), .highest = volts(14.4)}; }},
        {"ResistiveLoad::highest",
         [](Asked& a) { a.load = ResistiveLoad{.resistance = ohms(1), .highest = volts(nan)}; }},
        {"ConverterLoad::output", [](Asked& a) { a.load = ConverterLoad{.output = amperes(0)}; }},
        {"ConverterLoad::efficiency",
         [](Asked& a) { a.load = ConverterLoad{.output = amperes(20), .efficiency = percent(120)}; }},
        {"Supply::normal", [](Asked& a) { a.supply.normal = volts(-12); }},
        {"Supply::lowest", [](Asked& a) { a.supply.lowest = volts(nan); }},
        {"Supply::drop_limit", [](Asked& a) { a.supply.drop_limit = ratio(nan); }},
        {"Supply::drop_limit", [](Asked& a) { a.supply.drop_limit = ratio(3); }},
        {"Rules::fuse_use", [](Asked& a) { a.rules.fuse_use = ratio(80); }},
    };
    CHECK(answer([](Asked&) {}) == "taken");
    for (const Case& one : cases) {
        CAPTURE(one.field);
        CHECK(answer(one.slip).rfind(one.field, 0) == 0);
    }
}

}  // namespace voltwright
