// error: (no match for 'operator<'|invalid operands to binary expression)

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const bool holds = 1_V < 5_percent;
#else
const bool holds = 1_V < 5_percent * nominal_voltage;
#endif
