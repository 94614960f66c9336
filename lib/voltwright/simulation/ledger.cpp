#include "voltwright/simulation/ledger.hpp"

namespace voltwright {

namespace {

/// How much of it the panel gave: in proportion to what each could.
Charge by_sun(const Connections& connections, Charge source, Voltage terminals) {
    if (!(connections.sun > Power{})) return {};
    if (!(connections.charger > Current{})) return source;
    const Current panel = connections.sun / terminals;
    return source * double(panel / (panel + connections.charger));
}

}  // namespace

StepCharges book(Ledger& ledger, const Connections& connections, const OperatingPoint& mean, Current self_discharge,
                 Duration took, const KineticState& after) {
    const Charge source = mean.source * took;
    const Charge used = (mean.source - mean.battery) * took;
    const Charge sunny = by_sun(connections, source, mean.terminals);
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
