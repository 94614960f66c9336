#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/shopping/parts_list.hpp"
#include "voltwright/shopping/prices.hpp"

/// What to buy: everything that the plan's runs are made of, counted.
namespace voltwright {

/// What has to be bought for a plan, with a price where the list has one.
///
/// Counted by common practice, where no standard says more: as many spare fuses of a kind as are fitted, two at most; a
/// lug on each stud of a bolt-down fuse; half a metre of black cable from an appliance to the body; two holes in a run that
/// passes from one place to another; a label at each end of each cable; one tube a run; half a metre each way between two
/// batteries of a bank, and a fuse on each of them. Where several runs get their blade fuses at one place that is neither a
/// battery nor the charger, that is a fuse block with as many ways; other blade fuses sit in holders in the cable.
PartsList parts_list(const System& system, const Plan& plan, const PriceList* prices = nullptr,
                     Ratio allowance = percent(10), const Tables& tables = built_in_tables());

}  // namespace voltwright
