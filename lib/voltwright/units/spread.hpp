#pragma once

#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// A quantity as somebody gave it, with what they said of its uncertainty: "31 ± 3 degC".
///
/// The half width means that the true value lies within it 19 times in 20. None said is a half width of nothing.
template <class Q>
struct Spread {
    Q value;
    Difference<Q> half_width = Difference<Q>{};

    /// The plain value: what every calculation but `odds` uses.
    constexpr operator Q() const { return value; }
    friend constexpr bool operator==(const Spread&, const Spread&) = default;
};

}  // namespace voltwright
