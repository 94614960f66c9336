#include "voltwright/messages/remedies.hpp"

#include <cstddef>
#include <iterator>

namespace voltwright {

namespace {

/// A next step, one fact a sentence. Names in braces are arguments of the step or of its finding.
struct RemedyRow {
    RemedyCode code;
    std::string_view name;
    std::string_view words;
};

constexpr RemedyRow remedy_rows[] = {
    {RemedyCode::take_cable, "take-cable", "A cable of {cable} would do."},
    {RemedyCode::take_cable_and_fuse, "take-cable-and-fuse", "A cable of {cable} with {fuses} would do."},
    {RemedyCode::thicker_return, "thicker-return",
     "First lay a return as thick as the way out, {cable}, and plan again."},
    {RemedyCode::cable_back, "cable-back", "Lay a cable back (return = \"cable\"): {cable} out and back would do."},
    {RemedyCode::cable_back_and_shorter, "cable-back-and-shorter",
     "Lay a cable back (return = \"cable\") and shorten the run to {length}: {cable} out and back would do."},
    {RemedyCode::no_size_does, "no-size-does",
     "No size of the shop passes, and no shorter run does: lower the current."},
    {RemedyCode::shop_lacks_size, "shop-lacks-size", "The sizes of rules.sizes are what limits it: {cable} would do."},
    {RemedyCode::shorten_run_to, "shorten-run-to", "Shorten the run: {length} would do."},
    {RemedyCode::shorten_way_or_thicker_trunk, "shorten-way-or-thicker-trunk",
     "Shorten the way, or take thicker cable for the trunk."},
    {RemedyCode::part_on_cable, "part-on-cable", "On a cable of {cable} it would do; or leave it out."},
    {RemedyCode::then_for, "then-for", "Then, for {then_for}:"},
    {RemedyCode::brings_another, "brings-another",
     "Something else stops the plan then, at {then_for}: plan again with it."},

    {RemedyCode::fit_fuse, "fit-fuse", "Fit {fuses}."},
    {RemedyCode::fit_fuse_there, "fit-fuse-there", "Fit {fuses} there."},
    {RemedyCode::fit_fuse_of_at_most, "fit-fuse-of-at-most", "Fit a fuse of at most {at_most}."},
    {RemedyCode::fit_fuse_of_at_least, "fit-fuse-of-at-least", "Fit a fuse of at least {at_least}."},
    {RemedyCode::fit_one_there, "fit-one-there", "Fit one there."},
    {RemedyCode::smaller_fuse, "smaller-fuse", "Or fit a smaller fuse."},
    {RemedyCode::no_fuse_does, "no-fuse-does", "No fuse both carries the current and protects what is behind it."},
    {RemedyCode::no_fuse_for_this_cable, "no-fuse-for-this-cable", "No fuse both holds and protects this cable."},
    {RemedyCode::fuse_stays, "fuse-stays", "It may stay: the fuse at the {end} is the one that counts."},
    {RemedyCode::fuse_stays_and_another, "fuse-stays-and-another",
     "It may stay, and the run wants its fuse at the {end}."},
    {RemedyCode::move_fuse, "move-fuse", "Move it to the {end}: fuse = {value}."},
    {RemedyCode::fuse_that_starts, "fuse-that-starts", "Fit a {fuse}: it lets the start pass."},
    {RemedyCode::thicker_cable_then_fuse, "thicker-cable-then-fuse",
     "No fuse that this cable allows is sure to let it pass: take a thicker cable, then a larger fuse."},
    {RemedyCode::ask_for_its_fuse, "ask-for-its-fuse",
     "No fuse that is allowed behind it is sure to let it pass: its maker names the fuse that it starts behind."},

    {RemedyCode::shelf_lacks_fuse, "shelf-lacks-fuse",
     "The shelf of rules.fuses is what limits it: with {fuses} on it, {cable} would do."},
    {RemedyCode::shelf_lacks_fuse_alone, "shelf-lacks-fuse-alone",
     "The shelf of rules.fuses has none that fits: put {fuses} on it."},
    {RemedyCode::part_limits_fuse, "part-limits-fuse",
     "What sits in the run allows no larger one: take a part made for a fuse of {at_least} and more, or lower the "
     "current."},
    {RemedyCode::manual_limits_fuse, "manual-limits-fuse",
     "fuse_max allows no larger one, and a smaller one would blow. Read it again in the manual; if it is right, lower "
     "the current."},
    {RemedyCode::cable_limits_fuse, "cable-limits-fuse",
     "The cable is what limits it: insulation with a higher rating, a cooler way, or a lower current."},

    {RemedyCode::family_in_its_place, "family-in-its-place",
     "In {run} take a {fuse}, which breaks {breaks}: fuse = \"{written}\"."},
    {RemedyCode::family_on_the_battery, "family-on-the-battery",
     "Fit a {family} fuse on the battery, in front of it: it breaks {breaks}."},
    {RemedyCode::split_the_bank, "split-the-bank",
     "Split the bank: a fuse at the post of each battery, so that none has to break the current of all."},

    {RemedyCode::give_internal_resistance, "give-internal-resistance",
     "The battery's resistance is assumed. If it is {resistance} or less by its sheet, give internal_resistance in "
     "[{battery}]: then it holds."},
    {RemedyCode::larger_battery, "larger-battery", "A battery of {capacity} would do as well."},
    {RemedyCode::gentler_charger, "gentler-charger",
     "It ages early. Take a charger of {allowed} at most<, or a battery of {capacity}>; what its sheet allows counts."},
    {RemedyCode::smaller_charger, "smaller-charger",
     "The battery's own switch would cut the charger off. Take a charger of {allowed} at most<, or a battery of "
     "{capacity}>; what its sheet allows counts."},
    {RemedyCode::charge_before_leaving, "charge-before-leaving", "Charge it before you leave."},
    {RemedyCode::more_charge_or_larger_battery, "more-charge-or-larger-battery", "{more_charge} or a larger battery."},
    {RemedyCode::more_charge_larger_battery_or_cooler_fridge, "more-charge-larger-battery-or-cooler-fridge",
     "{more_charge}, a larger battery, or a cooler place for the fridge."},
    {RemedyCode::keep_it_on, "keep-it-on", "{more_charge} or a larger battery keeps it on."},
    {RemedyCode::frost_keeps_charge_out, "frost-keeps-charge-out", "In frost it takes no charge."},
    {RemedyCode::heater_warms, "heater-warms",
     "Take one with a heater of {heater}<, or put it where it stays above {charges_above}>."},
    {RemedyCode::larger_heater, "larger-heater",
     "A heater of {heater} warms it in time<; or put it where it stays above {charges_above}>."},
    {RemedyCode::weaker_charger_or_warmer, "weaker-charger-or-warmer",
     "Set the charger to {allowed} in the cold, or warm the battery first; what its sheet allows counts."},
    {RemedyCode::lower_absorption, "lower-absorption",
     "Set its absorption to {lower} for the winter, or see what lamps, fridge and heater bear."},
    {RemedyCode::warm_place, "warm-place", "Put it where it stays above {charges_above}."},
    {RemedyCode::warm_then_more, "warm-then-more",
     "Put it where it stays above {charges_above}; that alone does not do. {more_charge} or a larger battery."},
    {RemedyCode::see_that_it_refuses, "see-that-it-refuses",
     "See that its own guard or the charger refuses then: charged in frost it is ruined."},
    {RemedyCode::standard_guard, "standard-guard", "Set its guard to the standard setting: it then stays on."},
    {RemedyCode::standard_guard_helps, "standard-guard-helps",
     "Its guard at the standard setting helps, and does not do alone."},
    {RemedyCode::other_hours, "other-hours",
     "Use them at different hours and say so in `hours`, or take a larger inverter."},
    {RemedyCode::larger_inverter, "larger-inverter", "Take a larger inverter, or an appliance that draws less."},

    {RemedyCode::relay_by_ignition, "relay-by-ignition",
     "Have it worked by a wire from the ignition (wake = \"ignition\"), or take a DC-DC charger in its place."},
    {RemedyCode::charger_instead, "charger-instead", "Take a DC-DC charger in its place: it brings its own voltage."},
    {RemedyCode::charger_of_at_most, "charger-of-at-most",
     "Take a DC-DC charger of at most {at_most} in the relay's place."},
};

constexpr bool each_remedy_has_its_row() {
    for (std::size_t i = 0; i < std::size(remedy_rows); ++i)
        if (static_cast<std::size_t>(remedy_rows[i].code) != i) return false;
    return true;
}
static_assert(each_remedy_has_its_row() &&
                  std::size(remedy_rows) == static_cast<std::size_t>(RemedyCode::charger_of_at_most) + 1,
              "one row for each RemedyCode, in its order");

const RemedyRow& remedy_row(RemedyCode code) { return remedy_rows[static_cast<std::size_t>(code)]; }

}  // namespace

std::string_view show(RemedyCode code) { return remedy_row(code).name; }

std::string_view sentence_of(RemedyCode code) { return remedy_row(code).words; }

}  // namespace voltwright
