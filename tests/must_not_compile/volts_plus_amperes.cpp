// error: (no match for 'operator[+]'|invalid operands to binary expression)

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const auto sum = 12_V + 25_A;
#else
const auto sum = 12_V + 2_V;
#endif
