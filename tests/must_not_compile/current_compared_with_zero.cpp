// error: (no match for 'operator>'|invalid operands to binary expression)

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const bool flows = 25_A > 0;
#else
const bool flows = 25_A > Current{};
#endif
