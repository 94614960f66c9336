#include "voltwright/sizing/protection.hpp"

#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/tables/tables.hpp"

#include <algorithm>

namespace voltwright {

Protection protect(const FuseFit& fuse, const FuseEnd& end, Resistance loop, Area thinnest, Temperature start,
                   Temperature limit, const Tables& tables) {
    Protection protection{.at = fuse.at,
                          .lowest = fault_current(end.open_circuit, Protection::aged * end.internal.high, loop),
                          .clears = {},
                          .known = false,
                          .at_far = {},
                          .at_worst = {}};
    const Current lowest = protection.lowest.current;
    const auto far = fuse_time(tables, fuse.family, fuse.rating, lowest);
    const auto worst = most_let_through(tables, fuse.family, fuse.rating, lowest, fuse.fault.highest.current);
    protection.known = far.has_value();
    if (far && far->at_most) {
        protection.clears = far->at_most;
        protection.at_far = withstand(thinnest, start, limit, lowest, *far->at_most);
    }
    if (worst && worst->at_most)
        protection.at_worst = withstand(thinnest, start, limit, worst->current, *worst->at_most);
    return protection;
}

}  // namespace voltwright
