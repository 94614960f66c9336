#pragma once

#include "voltwright/provenance/cited.hpp"
#include "voltwright/tables/tables.hpp"
#include "voltwright/units/quantities.hpp"

/// What clouds leave of the sun.
namespace voltwright {

/// A dull day: one day in ten of its month brings less.
///
///     K_d = K·s(K)
///
/// K     clearness index of the month's mean day: sun on the horizontal over the same outside the air
/// s     share of that day's sun: data/dull_days.toml, in a straight line between two rows, as in the first and the last
///       beyond them
/// K_d   clearness index of the dull day; it rises with K
///
/// Of single days: three such days in a row are about the worst three of an ordinary month.
/// Source: Aguiar, Collares-Pereira and Conde 1988, Solar Energy 40, 269-279, recomputed from their matrices.
struct DullDay {
    Ratio clearness_index;
    Cited<Ratio> share;
    Ratio dull;
};

DullDay dull_day(Ratio clearness_index, const Tables& tables);

}  // namespace voltwright
