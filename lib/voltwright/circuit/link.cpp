#include "voltwright/circuit/link.hpp"

#include <algorithm>

namespace voltwright {

LinkCurrent link_current(Voltage source, Resistance loop, const LinkedBattery& battery, Current loads,
                         std::optional<Current> spare) {
    const auto through = [&](Resistance inside) -> Current {
        return (source - battery.open + inside * loads) / (loop + inside);
    };
    LinkCurrent link{.source = source,
                     .open = battery.open,
                     .loop = loop,
                     .inside = battery.taking,
                     .loads = loads,
                     .spare = spare,
                     .current = through(battery.taking),
                     .terminals = Voltage{}};
    if (link.current < loads) {
        link.inside = battery.giving;
        link.current = std::min(through(battery.giving), loads);
    }
    link.current = std::max(link.current, Current{});
    if (spare && link.current > *spare) {
        link.current = *spare;
        link.inside = *spare < loads ? battery.giving : battery.taking;
        link.terminals = battery.open + link.inside * (*spare - loads);
        link.source = link.terminals + loop * *spare;
        return link;
    }
    link.terminals = source - loop * link.current;
    return link;
}

}  // namespace voltwright
