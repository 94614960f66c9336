// error: (use of|call to) deleted function

#include "voltwright/units/literals.hpp"
#include "voltwright/units/parse.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Dimension of = dimension<ChargeRate>();
#else
const Dimension of = dimension<Charge>();
#endif
