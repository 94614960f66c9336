#include "voltwright/simulation/ledger.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// How much of a current the panel gave: in proportion to what each could; beside a relay's link all that it can, and the
/// link the rest.
Current by_sun(const Connections& connections, Current source, Voltage terminals) {
    if (!(connections.sun > Power{})) return {};
    if (!(connections.charger > Current{})) return source;
    const Current panel = connections.sun / terminals;
    if (connections.by_relay) return std::min(source, panel);
    return source * double(panel / (panel + connections.charger));
}

}  // namespace

StepCharges book(Ledger& ledger, const Connections& connections, const OperatingPoint& mean, Current self_discharge,
                 Duration took, const KineticState& after) {
    const Charge source = mean.source * took;
    const Charge used = (mean.source - mean.battery) * took;
    const Charge sunny = by_sun(connections, mean.source, mean.terminals) * took;
    ledger.from_sun += sunny;
    ledger.from_charger += source - sunny;
    ledger.used += used;
    ledger.gassed += (mean.battery - mean.stored - self_discharge) * took;
    ledger.leaked += self_discharge * took;
    const Charge before = ledger.now;
    ledger.now = after.available + after.bound;
    return {source, used, ledger.now - before};
}

}  // namespace voltwright
