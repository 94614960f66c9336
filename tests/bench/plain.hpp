#pragma once

/// Every quantity as a plain double: what `energy/wells.cpp` is compiled with once more, to be timed against itself.
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

struct Kinetics {
    Ratio available;
    ChargeRate rate;
    Ratio whole;
};
struct Wells {
    Charge available, bound;
};
struct Stretch {
    Ratio low, high;
    Current at_low, at_high;
};
struct Moved {
    Wells wells;
    Duration took;
    Duration level_time;
};

Moved move_wells(const Wells& wells, const Kinetics& kinetics, Charge whole, const Stretch& stretch, Duration most);

}  // namespace plain
