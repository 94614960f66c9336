// error: (cannot convert|conversion from) .* to 'const double'

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const double current = 25_A;
#else
const double current = in_amperes(25_A);
#endif
