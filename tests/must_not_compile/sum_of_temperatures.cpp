// error: (no match for 'operator[+]'|invalid operands to binary expression)

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Temperature sum = 25_degC + 6_degC;
#else
const Temperature sum = 25_degC + 6_K;
#endif
