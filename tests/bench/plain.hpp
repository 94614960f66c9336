#pragma once

/// Every quantity as a plain double: what `energy/kinetic_battery.cpp` is compiled with once more, to be timed against itself.
/// The names are the library's; nothing here keeps an ampere from being added to a volt.

#include <cmath>

namespace plain {

using Ratio = double;
using Charge = double;
using Current = double;
using Duration = double;
using ChargeRate = double;
using ChargeTime = double;

inline double seconds(double x) { return x; }
inline double in_seconds(double x) { return x; }
inline double in_amperes(double x) { return x; }
using std::abs;
using std::sqrt;

struct KineticParameters {
    Ratio available;
    ChargeRate rate;
    Ratio whole;
};
struct KineticState {
    Charge available, bound;
};
struct LinearSegment {
    Ratio low, high;
    Current at_low, at_high;
};
struct KineticStep {
    KineticState state;
    Duration took;
    Duration level_time;
};

KineticStep advance(const KineticState& state, const KineticParameters& kinetics, Charge whole,
                    const LinearSegment& segment, Duration most);

}  // namespace plain
