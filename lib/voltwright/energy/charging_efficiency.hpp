#pragma once

#include "voltwright/units/quantities.hpp"

namespace voltwright {

/// The share of the charging current that a lead-acid battery stores; the rest makes gas and heat.
///
///     η = 1 − exp(g·(s − 1)/(I/I₁₀ + 0.55))
///
/// s      state of charge, nothing stored from 1 on
/// g      how suddenly it falls near full: 20.73 as published, for flooded batteries; sealed ones lose less
/// I/I₁₀  charging current over the one that fills the battery in 10 hours, `over_ten_hour_rate`
///
/// Nearly 1 up to 80 %, then falling: why the last tenth takes hours. In the middle it is kinder than a measured
/// battery (Sandia: 91 % on average from empty to 84 %). Source: Copetti, Lorenzo and Chenlo, Progress in Photovoltaics
/// 1(4), 1993, 283-292, from memory; the equation read in a weak copy.
Ratio copetti_charge_efficiency(Ratio soc, Ratio over_ten_hour_rate, Ratio gassing_fall = 20.73);

}  // namespace voltwright
