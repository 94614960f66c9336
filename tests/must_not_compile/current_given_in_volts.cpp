// error: (could not convert|no viable conversion|no matching function)

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
constexpr double squared(Current current) { return in_amperes(current) * in_amperes(current); }
const double heat = squared(12_V);
#else
constexpr double squared(Current current) { return in_amperes(current) * in_amperes(current); }
const double heat = squared(12_A);
#endif
