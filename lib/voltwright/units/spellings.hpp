#pragma once

#include "voltwright/units/dimension.hpp"

#include <span>
#include <string_view>

namespace voltwright {

/// One spelling of a unit, and what a number in it is in SI.
///
///     value      = (x − zero) · times / over + origin
///     difference =  x · times / over
///
/// zero, origin   only temperatures have them: "32 degF" is 273.15 K, a difference of 32 degF is 17.8 K
///
/// Two factors instead of one, so that "5 %" is exactly what percent(5) is, to the last bit; likewise every maker.
struct Unit {
    std::string_view spelling;
    Dimension dimension;
    double times = 1.0;
    double over = 1.0;
    double zero = 0.0;
    double origin = 0.0;

    [[nodiscard]] constexpr double value_of(double x) const { return (x - zero) * times / over + origin; }
    [[nodiscard]] constexpr double difference_of(double x) const { return x * times / over; }
};

/// Every spelling that is understood. Those of a dimension stand together, the preferred one first.
std::span<const Unit> unit_spellings();

/// The unit so spelt, or nothing. Case is forgiven where no two units are told apart by it: "AMPS" is amperes, but "MV"
/// is not millivolts. A blank inside a spelling may be any run of blanks.
const Unit* find_unit(std::string_view text);

/// The unit that `text` would be if its small m for milli, or large M for mega, were taken for the other.
const Unit* find_unit_but_for_its_m(std::string_view text);

/// The preferred spelling of a dimension.
const Unit& preferred_unit(Dimension dimension);

}  // namespace voltwright
