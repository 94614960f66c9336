// What an outsider may hand to choose_cable() by a slip: each is refused, none ends in a cable.
#include <voltwright/sizing/choice.hpp>

#include <functional>
#include <iostream>
#include <limits>
#include <stdexcept>
#include <string>

using namespace voltwright;

namespace {

struct Question {
    CableRun run{.name = std::string("lamp"), .length = metres(4)};
    RunLoad load = SteadyLoad{.current = amperes(20)};
    Supply supply{.normal = volts(12.7), .lowest = volts(12), .drop_limit = percent(3)};
    Rules rules;

    Question() {
        run.fused_at = {{place_named("battery"), celsius(30), volts(12.7), volts(14.4),
                         known_resistance(milliohms(5), milliohms(2))}};
        rules.sizes = {awg(16), awg(12), awg(8), awg(4)};
    }
};

std::string answer(const std::function<void(Question&)>& slip) {
    Question question;
    slip(question);
    try {
        const Choice choice = choose_cable(question.run, question.load, question.supply, question.rules);
        return choice.taken ? "taken" : "none fits";
    } catch (const std::invalid_argument&) {
        return "refused";
    }
}

}  // namespace

int main() {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    struct Slip {
        const char* what;
        std::function<void(Question&)> slip;
    };
    const Slip slips[] = {
        {"no fuse end", [](Question& q) { q.run.fused_at.clear(); }},
        {"a current out of the battery", [](Question& q) { q.load = SteadyLoad{.current = amperes(-25)}; }},
        {"a negative power", [](Question& q) { q.load = PowerLoad{.power = watts(-60), .cut_out = volts(10.4)}; }},
        {"a drop limit that is no number", [nan](Question& q) { q.supply.drop_limit = nan; }},
        {"a drop limit above 1", [](Question& q) { q.supply.drop_limit = 3.0; }},
        {"a negative length", [](Question& q) { q.run.length = metres(-4); }},
        {"a negative voltage", [](Question& q) { q.supply.normal = q.supply.lowest = volts(-12); }},
        {"a bundle without cables", [](Question& q) { q.run.loaded_in_bundle = 0; }},
    };
    int wrong = answer([](Question&) {}) == "taken" ? 0 : 1;
    for (const auto& [what, slip] : slips)
        if (const std::string said = answer(slip); said != "refused") {
            std::cout << what << ": " << said << '\n';
            ++wrong;
        }
    std::cout << "a cable asked for carelessly: " << wrong << " slips passed\n";
    return wrong == 0 ? 0 : 1;
}
