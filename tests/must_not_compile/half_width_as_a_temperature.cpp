// error: (could not convert|no viable conversion|no matching function)

#include "voltwright/units/literals.hpp"
#include "voltwright/units/spread.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Spread<Temperature> outside{31_degC, 3_degC};
#else
const Spread<Temperature> outside{31_degC, 3_K};
#endif
