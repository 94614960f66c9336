// A profile made in a program, not read from a file: a slip of the sign, a bare unit or a day too many is told at its key, and
// nothing is planned.
#include <voltwright/voltwright.hpp>

#include <functional>
#include <iostream>
#include <limits>
#include <string>

using namespace voltwright;

namespace {

constexpr const char* simplest = R"(
[trip]
days = 3
low = "14 degC"
high = "31 degC"
drives = "08:30-10:00"
[battery]
chemistry = "agm"
capacity = "120 Ah"
[charger]
output = "25 A"
[[run]]
to = "charger"
length = "6 m"
[[fridge]]
draw = "45 W"
rated = [{ around = "25 degC", a_day = "22 Ah" }]
)";

/// The key at which resolve() stops a profile with that slip; "planned" when it does not.
std::string stopped_at(const Profile& sound, const std::function<void(Profile&)>& slip) {
    Profile profile = sound;
    slip(profile);
    const auto system = resolve(profile, built_in_tables());
    return system ? "planned" : system.wrong().front().path;
}

}  // namespace

int main() {
    const auto loaded = load_system_text("simplest", simplest);
    if (!loaded) {
        std::cerr << show(loaded.wrong(), Style{});
        return 1;
    }
    struct Slip {
        const char* key;
        std::function<void(Profile&)> slip;
    };
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const Slip slips[] = {
        {"planned", [](Profile&) {}},
        {"run[0].length", [](Profile& p) { p.runs[0].length = Spread<Length>{metres(-6)}; }},
        {"run[0].length", [nan](Profile& p) { p.runs[0].length = Spread<Length>{metres(nan)}; }},
        {"battery.capacity", [](Profile& p) { p.battery.capacity = Spread<Charge>{ampere_hours(-120)}; }},
        {"trip.days", [](Profile& p) { p.trip.days = 5000; }},
        {"trip.low", [](Profile& p) { p.trip.low = Spread<Temperature>{Temperature{}}; }},
        {"charger.output", [](Profile& p) { p.charger.output = {}; }},
        {"fridge[0].rated[0].a_day", [](Profile& p) { p.fridges[0].rated->front().a_day = {}; }},
        {"trip.drives[0]",
         [](Profile& p) {
             p.trip.drives = {{ClockWindow{{600}, {500}}}};
         }},
    };
    int wrong = 0;
    for (const auto& [key, slip] : slips)
        if (const std::string said = stopped_at(loaded->given, slip); said != key) {
            std::cout << key << ": " << said << '\n';
            ++wrong;
        }
    std::cout << "a profile made by hand: " << wrong << " slips passed\n";
    return wrong == 0 ? 0 : 1;
}
