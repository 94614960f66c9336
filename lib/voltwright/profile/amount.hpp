#pragma once

#include "voltwright/units/dimension.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string>

namespace voltwright {

/// A count, or a quantity of a dimension that is known only when the program runs.
struct Amount {
    std::optional<Dimension> dimension;  ///< empty: a count
    double value;                        ///< in the dimension's coherent unit
};

inline Amount amount(int count) { return {{}, static_cast<double>(count)}; }
template <class Q>
Amount amount(Q quantity) {
    return {dimension<Q>(), quantity.value()};
}

/// In the unit that the trade would say: "120 Ah", "3".
std::string show(const Amount& amount);
/// As a profile writes it, to the last digit.
std::string write(const Amount& amount);

}  // namespace voltwright
