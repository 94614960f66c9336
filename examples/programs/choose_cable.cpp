// The library in a few lines: the feed of a 25 A charger, 6 m from the starter battery through a hot engine bay.

#include "voltwright/sizing/choice.hpp"
#include "voltwright/units/literals.hpp"
#include "voltwright/units/show.hpp"

#include <iostream>

using namespace voltwright;
using namespace voltwright::literals;

int main() {
    const InternalResistance battery = known_resistance(5_mOhm, 2_mOhm);
    const FuseEnd at_starter{place_named("starter"), 61_degC, 12.7_V, 14.2_V, battery};
    const CableRun feed{.name = "feed", .length = 6_m, .around = 61_degC, .fused_at = {at_starter}};
    const ConverterLoad charger{.output = 25_A};
    const Supply supply{.normal = 14.2_V, .lowest = 13.8_V, .drop_limit = 6_percent};
    const Rules rules{.sizes = {awg(10), awg(8), awg(6), awg(4)}, .shelf = {}};

    const Choice choice = choose_cable(feed, charger, supply, rules);
    if (const Candidate* taken = choice.chosen()) {
        std::cout << show(taken->size) << ", " << show(taken->fuses.front().rating) << " fuse; loses "
                  << show(taken->drop->drop) << " of " << show(taken->drop->allowed) << '\n';
    } else {
        std::cout << "none of these sizes will do\n";
    }
}
