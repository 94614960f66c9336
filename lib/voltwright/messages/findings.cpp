#include "voltwright/messages/findings.hpp"

#include "voltwright/messages/arguments.hpp"
#include "voltwright/messages/filled.hpp"
#include "voltwright/messages/remedies.hpp"
#include "voltwright/units/show.hpp"

#include <cstddef>
#include <iterator>
#include <optional>

namespace voltwright {

namespace {

/// A kind of finding: its name in an answer, what is wrong, and what to do where the finding brings no step of its own.
/// {about} is the thing, {found} and {allowed} the quantities, every other name an argument of the finding.
struct FindingRow {
    FindingCode code;
    std::string_view name;
    std::string_view wrong;
    std::string_view to_do = {};
};

constexpr FindingRow finding_rows[] = {
    {FindingCode::acid_freezes, "acid-freezes",
     "{about}: it is at {found}, {soc} charged, {at}; its acid begins to freeze at {allowed}, and frozen it bursts.",
     "<Keep it above {keep} charged. >{more_charge}, a larger battery, or a warmer place for it."},
    {FindingCode::ampacity, "ampacity",
     "{about}: {cable} would carry {found} at worst< for {lasts} every {every}>; where it runs it may carry "
     "{allowed}."},
    {FindingCode::assumed_runs, "assumed-runs",
     "The profile does not describe these runs: {about}. They were assumed, {found} of cable in all.",
     "Measure their way and describe each with a [[run]]."},
    {FindingCode::bank_links, "bank-links",
     "{about}: no cable and fuse of the shop bring {found} from each of {count} batteries side by side.",
     "Ask for less at once, or put more batteries side by side."},
    {FindingCode::basis_from_memory, "basis-from-memory",
     "The ampacities of {basis} are from memory, not read from the standard.",
     "Check the chosen sizes against the printed standard."},
    {FindingCode::battery_assumed, "battery-assumed",
     "{about}: a short at its far end decides for {cable}, and that rests on an assumed resistance of the battery, "
     "up to {found} with age.",
     "Give the battery's internal_resistance, from its sheet or measured: a thinner cable may do."},
    {FindingCode::battery_sensor, "battery-sensor",
     "{about}: a smart alternator is steered by a sensor at the negative post of the starter battery.",
     "Take the feed's return to the body's earth point, not to the battery's negative post."},
    {FindingCode::battery_too_cold, "battery-too-cold",
     "{about}: it gets as cold as {found}; below {allowed} its own guard may switch everything off.",
     "Put it where it stays warmer."},
    {FindingCode::battery_too_hot, "battery-too-hot",
     "{about}: it gets {found} warm where it stands; it may be {allowed} at most.",
     "Let it stand where it stays cooler: out of the engine bay, out of a closed vehicle's sun."},
    {FindingCode::blows_in_use, "blows-in-use",
     "{about}: it draws {found} for {lasts}; the {fuse} may blow before that is over."},
    {FindingCode::blows_on_start, "blows-on-start",
     "{about}: its start draws {found} for a moment; the {fuse} may blow."},
    {FindingCode::body_return, "body-return",
     "{about}: the vehicle's body is the return. Its resistance is assumed at {found} ({body}) and may be {allowed} "
     "or more.",
     "Measure it: volts between the two earth points with a known current, divided by the current; give it as return "
     "= \"4 mOhm\". A bolted tub or a ladder frame is return = \"frame\"."},
    {FindingCode::breaking_capacity, "breaking-capacity",
     "{about}: a dead short behind the {fuse} would draw {found}; it is made to interrupt {allowed}.< The same goes "
     "for "
     "{others}.>"},
    {FindingCode::charge_voltage_cold, "charge-voltage-cold",
     "{about}: in the cold its sensor lifts {absorption} to {found}; above {allowed} lamps and fridges suffer.",
     "Set its absorption lower for the winter, or see what lamps, fridge and heater bear."},
    {FindingCode::charge_voltage_high, "charge-voltage-high",
     "{about}: it charges to {found}; {chemistry} takes {allowed} at most, and gasses or fails above.",
     "Set its absorption to {least} to {most}, or as the battery's sheet says."},
    {FindingCode::charge_voltage_low, "charge-voltage-low",
     "{about}: it charges to {found}; {chemistry} wants at least {allowed}, or it is never full.",
     "Set its absorption to {least} to {most}, or as the battery's sheet says."},
    {FindingCode::charged_by_both, "charged-by-both",
     "{about}: the charger and the sun together give up to {found}; the battery is made to take {allowed}.",
     "Take a smaller charger, or see what the battery's sheet allows."},
    {FindingCode::charged_in_the_cold, "charged-in-the-cold",
     "{about}: at {at} its cells bear {allowed} of charge; the charger gives {found}. The trip counts "
     "on no more than they bear."},
    {FindingCode::charged_too_hard, "charged-too-hard",
     "{about}: the charger gives {found}; the battery is made to take {allowed}."},
    {FindingCode::charger_cycles, "charger-cycles",
     "{about}: with {cable} the charger would be left {found} at the lowest running voltage and needs {allowed}: it "
     "would switch off, see the voltage rise, and switch on again without end."},
    {FindingCode::charger_does_not_start, "charger-does-not-start",
     "{about}: with the engine running as usual its input reads {found}; it starts above {allowed}, so it never does.",
     "Have the alternator looked at, set input_on lower, or take a charger made for a smart alternator."},
    {FindingCode::charger_hot, "charger-hot",
     "{about}: it is so hot where it stands that {found} is left of its {allowed}.",
     "Let it stand cooler, with air around it."},
    {FindingCode::charger_hunts, "charger-hunts",
     "{about}: at full output its input falls to {found} and it gives up below {allowed}: it would switch on and off "
     "without end.",
     "A thicker or shorter feed leaves it more volts."},
    {FindingCode::charger_not_fed, "charger-not-fed",
     "{about}: its feed cannot bring the power for {found} at all, so it charges nothing.",
     "A thicker or shorter feed, or a charger with a smaller output."},
    {FindingCode::charger_starved, "charger-starved",
     "{about}: with {cable} the charger would be left {found} at the lowest running voltage and needs {allowed}."},
    {FindingCode::clearness_assumed, "clearness-assumed",
     "{about}: no clearness is given, and it decides. {found} of a clear sky's sun is usual for this month and "
     "latitude, by place {least} to {most}.< At {fails_at} the trip does not hold.>< At {holds_at} it holds.>",
     "Give clearness in [trip] for your region and month."},
    {FindingCode::cut_out, "cut-out",
     "{about}: it switches itself off, first {first}, and is off for {found} of the trip."},
    {FindingCode::delivery, "delivery",
     "{about}: so much power cannot be brought< through {cable}> at all; the voltage would collapse."},
    {FindingCode::depth_limit, "depth-limit",
     "{about}: it falls to {found}, below its limit of {allowed}< at {battery} ({warm_limit} in the warm)>, first "
     "{first}<, with "
     "{dull_days} dull days in a row>."},
    {FindingCode::discharged_too_hard, "discharged-too-hard",
     "{about}: everything that is on together draws {found}; it is made to give {allowed}.",
     "A larger battery, or not everything at once."},
    {FindingCode::driving_loses, "driving-loses",
     "{about}: the loads take more than it gives: an hour of driving costs {found}.",
     "A larger charger, or fewer loads while driving."},
    {FindingCode::drop, "drop", "{about}: {cable} loses {found}; {allowed} is allowed."},
    {FindingCode::fridge_contradicts, "fridge-contradicts",
     "{about}: of its two rated points the hotter takes no more than the cooler.",
     "Measure again: the hotter day should take more."},
    {FindingCode::fridge_guessed, "fridge-guessed",
     "{about}: nobody measured what it takes; by a rule of thumb up to {found} a day. The night rests on it.",
     "Count its ampere-hours for a day at a known temperature and give them as rated."},
    {FindingCode::fridge_overwhelmed, "fridge-overwhelmed",
     "{about}: at {around} around it, it would have to run {found} of the time. A usual filling warms to {warms_to}.",
     "Park it in the shade, set it warmer, or take one whose compressor draws {draws} or more."},
    {FindingCode::fridge_starts_warm, "fridge-starts-warm",
     "{about}: taken to start cold. Filled with {mass} at {from} it takes {found} more: then the trip would not hold.",
     "Cool it down on mains or while driving before the trip; put drinks in cold. What goes in warm is restock in "
     "[[fridge]]."},
    {FindingCode::fuse_above_part, "fuse-above-part",
     "{about}: the {fuse} is too large: what sits behind it allows {allowed}."},
    {FindingCode::fuse_by_manual, "fuse-by-manual",
     "{about}: the {fuse} is the largest that fuse_max allows. It carries {allowed} for long there; {found} may blow "
     "it.",
     "Fit it where it stays cool, and keep a spare."},
    {FindingCode::fuse_distance, "fuse-distance",
     "Each fuse sits within {found} of the post of its battery, or within {allowed} if the cable is in a sheath or "
     "enclosure all the way.",
     "Measure along the cable, from the post."},
    {FindingCode::fuse_elsewhere, "fuse-elsewhere",
     "{about}: the {fuse} does not protect it: no source feeds it from there."},
    {FindingCode::fuse_missing, "fuse-missing",
     "{about}: there is no fuse where the {end} can feed it; a short would draw about {found} from there."},
    {FindingCode::fuse_too_large, "fuse-too-large",
     "{about}: the {fuse} is too large: the cable may carry {allowed} where it runs, and would melt before the fuse "
     "blows."},
    {FindingCode::fuse_too_small, "fuse-too-small",
     "{about}: the {fuse} is too small: {allowed} is needed to carry the current for long."},
    {FindingCode::gas_inside, "gas-inside",
     "{about}: it gives off gas that explodes when it is charged, and stands in the {place}.",
     "Put it in a box with a hose to the outside, or take AGM or gel."},
    {FindingCode::guard_hunts, "guard-hunts",
     "{about}: its guard trips {times} times on the trip: it starts, sees too little, and stops again.",
     "A thicker cable to it, or a lower setting of its guard."},
    {FindingCode::in_line_holder, "in-line-holder",
     "{about}: {found} would flow through the {fuse}; in-line blade holders are good for {allowed} for long.",
     "Fit a bolt-down fuse: in-line blade holders melt at this current long before the fuse blows."},
    {FindingCode::inverter_above_battery, "inverter-above-battery",
     "{about}: at its rated output it would draw {found}; the battery is made to give {allowed}.",
     "Keep what hangs on it below {bearable}, or take a larger battery."},
    {FindingCode::inverter_overloaded, "inverter-overloaded",
     "{about}: what may be on at one time ({loads}) draws {found}; it gives {allowed}."},
    {FindingCode::joint_heat, "joint-heat",
     "{about}: the {part} would turn {found} into heat; more than {allowed} is not sound.",
     "Take one with less resistance. Measure across it with {design} flowing: {most} at most."},
    {FindingCode::load_hours, "load-hours",
     "{about}: neither hours nor duty is given; counted as off. An hour takes {an_hour}. With more than {found} a day "
     "the "
     "trip does not hold.",
     "Give hours or duty of what is on."},
    {FindingCode::lug_stud, "lug-stud", "{about}: no lug for a cable of {size} has a hole for a stud of {found}.",
     "The nearest stud that such a lug fits is {nearest_stud}.< Or take {cable}, which fits.> If a shop has such a "
     "lug all the same, leave the stud unsaid."},
    {FindingCode::never_full, "never-full",
     "{about}: charging never brings it beyond {found}< for {days} days in a row> on this trip.",
     "Charge it from the mains or in the sun when you are back: lead that stays part charged wears out."},
    {FindingCode::never_sleeps, "never-sleeps",
     "The charger is woken by voltage, and the alternator is smart: a resting starter battery reads {found}, above "
     "the {allowed} at which the charger switches off. It would empty the starter battery.",
     "Set wake = \"ignition\" and run the signal wire from an ignition circuit, with its own small fuse."},
    {FindingCode::new_battery_only, "new-battery-only",
     "{about}: the trip holds while it is new. Worn to {found} of its capacity, it does not.",
     "If it is new, say health = \"100 %\" in [battery]. If not, count its ampere-hours from full to empty, or take a "
     "larger one."},
    {FindingCode::no_ampacity, "no-ampacity",
     "{about}: the ampacity table has no row for so thin a conductor as {cable}."},
    {FindingCode::no_charger, "no-charger", "{about}: {found} of driving charge nothing; the profile has no [charger].",
     "Describe one and its run, or say kind = \"none\" in [charger]."},
    {FindingCode::no_fuse_fits, "no-fuse-fits",
     "{about}: no fuse fits: at least {found} to carry the current, at most {allowed} to protect what is behind it."},
    {FindingCode::no_fuse_starts, "no-fuse-starts",
     "{about}: no fuse fits: {found} flow for {lasts}, and none up to {allowed} is sure to let that pass.",
     "Ask the appliance's maker for the fuse that it starts behind, or for a slower one."},
    {FindingCode::no_run_heavy, "no-run-heavy",
     "{about}: no run leads to it, and it draws {found}: neither its cable nor its fuse is in this plan.",
     "Measure its way and describe it with a [[run]]."},
    {FindingCode::no_size_carries, "no-size-carries",
     "{about}: no size passes. It would carry {found} at worst< for {lasts} every {every}>; even {cable} may carry "
     "only "
     "{allowed} where it runs.",
     "Lower the current, lay the cable in cooler places, or take insulation with a higher rating."},
    {FindingCode::no_size_fits, "no-size-fits",
     "{about}: no size passes ({criterion}). The thickest loses {found}; {allowed} is allowed.",
     "No shorter run does either: lower the current."},
    {FindingCode::panel_ampacity, "panel-ampacity",
     "{about}: of the panel's bright and lasting sun {cable} has to bear {found} before any correction; its table "
     "allows {allowed}."},
    {FindingCode::panel_strings, "panel-strings",
     "{about}: of {count} strings side by side the others push {found} into one that fails.",
     "A fuse for each string, made for panels (gPV): more than {at_least}, at most {at_most}, no more than its plate "
     "allows."},
    {FindingCode::part_at_least, "part-at-least",
     "{about}: what the {part} may carry is not known here; take one made for at least {found}< for long and {peak} "
     "for {lasts}>.",
     "Read it on the part: amperes for long, at 12 V d.c. and in the heat where it sits."},
    {FindingCode::part_charged, "part-charged",
     "{about}: for {days} days in a row it is never fuller than {found}. Published batteries that lived like that kept "
     "{least} to {most} of their capacity.",
     "Charge it full once a week, from the mains< or on one drive of {drive}>."},
    {FindingCode::part_rating, "part-rating",
     "{about}: the {part} would carry {found}; on this cable and in this heat it is good for {allowed}.",
     "Take one that is good for {found} in this heat."},
    {FindingCode::regulator_small, "regulator-small",
     "{about}: the panels may push {found} through it; it is made for {allowed}.",
     "Take a larger regulator, or fewer panels."},
    {FindingCode::relay_cranks, "relay-cranks",
     "{about}: an engine started while it is closed draws up to {found} back through it and its fuses.",
     "Take one that opens while the starter turns, or carry a spare of both fuses."},
    {FindingCode::relay_fuse, "relay-fuse",
     "{about}: the {fuse} feeds a short in it too, through the relay; its cable may carry {allowed}.",
     "Fit a smaller fuse there, or lay thicker cable here."},
    {FindingCode::relay_hunts, "relay-hunts",
     "{about}: with current flowing {found} are left at it, and below {allowed} it opens: it would open and close "
     "without end.",
     "A thicker or shorter cable from the starter battery leaves it more volts."},
    {FindingCode::relay_never_closes, "relay-never-closes",
     "{about}: with the engine running as usual it sees {found}; it closes at {allowed}, so it never does, and nothing "
     "is charged."},
    {FindingCode::relay_rush, "relay-rush",
     "{about}: through the relay up to {found} flow into it at first; it is made to take {allowed}."},
    {FindingCode::relay_smart, "relay-smart",
     "{about}: a smart alternator lowers its voltage, to {allowed} at times, and then nothing is charged. All charge "
     "here is reckoned at {found}."},
    {FindingCode::relay_spare, "relay-spare",
     "{about}: the relay lets up to {found} be drawn at first; the alternator has {allowed} to spare."},
    {FindingCode::relay_stays_closed, "relay-stays-closed",
     "{about}: it opens below {allowed}, and a rested starter battery reads {found}: it stays closed, and the loads "
     "empty both batteries.",
     "Set opens_at higher, or take a relay that opens at 12.8 V."},
    {FindingCode::sensor_assumed, "sensor-assumed",
     "{about}: it is taken to have a sensor on the battery. Without one the battery is charged less in the cold, and "
     "falls "
     "to {found}.",
     "Fit the sensor to the battery. If it has none, say temperature_sensor = false."},
    {FindingCode::short_burns_on, "short-burns-on",
     "{about}: a short on it may draw {short} for {lasts} before the {fuse} clears it. The cable would reach {found}; "
     "{allowed} is the most."},
    {FindingCode::short_never_cleared, "short-never-cleared",
     "{about}: a short on it may draw no more than {short}, which the {fuse} need not clear at all. The cable would "
     "reach {found}; {allowed} is the most for long."},
    {FindingCode::short_time_unknown, "short-time-unknown",
     "{about}: a short at its far end may draw no more than {found}, and nobody printed how soon the {fuse} clears "
     "that; a bolted fuse of its rating would want {allowed}.",
     "Ask for its time-current curve: it has to clear that in time. Or fit a bolted fuse of a family whose times are "
     "known, or a thicker cable."},
    {FindingCode::solar_load, "solar-load",
     "{about}: it draws {found} from the panel's regulator, whose terminals for loads carry what is printed there.",
     "Take it from the battery."},
    {FindingCode::spare_current, "spare-current",
     "{about}: the charger draws {found} from the alternator, which has {allowed} to spare.",
     "Set the charger's input limit, or take a smaller one."},
    {FindingCode::start_too_hot, "start-too-hot",
     "{about}: its start heats the cable with {found}; {cable} stands {allowed} before its insulation is too hot."},
    {FindingCode::starter_capacity_assumed, "starter-capacity-assumed",
     "The starter battery's capacity is assumed, {found}; how long it feeds what hangs on it rests on that.",
     "Give capacity in [starter], as printed on the battery."},
    {FindingCode::starter_drained, "starter-drained",
     "{about}: fed by the starter battery. In the longest time without the engine {found} are taken. {allowed} bring "
     "it down to {least}<, after {lasts}>. Below that the engine may not start.",
     "Feed it from the house battery."},
    {FindingCode::starter_guard_low, "starter-guard-low",
     "{about}: fed by the starter battery, with its guard at {found}. {allowed} is made for a battery that starts an "
     "engine.",
     "Set its guard to the high setting."},
    {FindingCode::starter_load, "starter-load",
     "{about}: fed by the starter battery. In the longest time without the engine {found} are taken. {allowed} bring "
     "it down to {least}<, after {lasts}>.",
     "Start the engine before that, or feed it from the house battery."},
    {FindingCode::terminal, "terminal", "{about}: {cable} is {found}; the charger's terminal takes {allowed}.",
     "Crimp on a reducing pin."},
    {FindingCode::too_cold_to_charge, "too-cold-to-charge",
     "{about}: below {charges_above} it takes no charge. Of {allowed} with the engine or the sun on it, {found} put "
     "nothing in."},
    {FindingCode::too_hot, "too-hot",
     "{about}: it is {found} where the cable runs, and its insulation is rated for {allowed}.",
     "Lay the cable elsewhere, or take insulation with a higher rating."},
    {FindingCode::too_hot_to_charge, "too-hot-to-charge",
     "{about}: it gets {found} warm; above {allowed} it takes no charge, for {lasts} with the engine or the sun on it.",
     "Let it stand where it stays cooler. If its sheet allows more, give that as charge_below."},
    {FindingCode::too_thin, "too-thin", "{about}: {cable} is {found}; a vehicle's shaking asks for {allowed}."},
    {FindingCode::trade_size, "trade-size", "{about}: \"{size}\" is named by its outside; its copper is about {found}.",
     "Count and measure the strands, or go by what the reel says in mm2."},
    {FindingCode::way_drop, "way-drop",
     "{about}: with all on that can be on together, up to {found} would be lost on the way to it; {allowed} is "
     "allowed.",
     "Give it a run of its own from the battery, or shorten the way."},
    {FindingCode::without_power, "without-power",
     "{about}: the battery gives no more, first {first}; it is without power for {found}."},
    {FindingCode::withstand, "withstand",
     "{about}: the {fuse} may let {found} through in a short; its cable stands {allowed}."},
};

constexpr bool each_code_has_its_row() {
    for (std::size_t i = 0; i < std::size(finding_rows); ++i)
        if (static_cast<std::size_t>(finding_rows[i].code) != i) return false;
    return true;
}
static_assert(each_code_has_its_row() &&
                  std::size(finding_rows) == static_cast<std::size_t>(FindingCode::withstand) + 1,
              "one row for each FindingCode, in its order");

const FindingRow& finding_row(FindingCode code) { return finding_rows[static_cast<std::size_t>(code)]; }

std::optional<std::string> words_of(const Arguments& arguments, std::string_view name) {
    const Argument* argument = find_argument(arguments, name);
    return argument ? std::optional(in_words(argument->value)) : std::nullopt;
}

std::optional<std::string> words_of(const Finding& finding, std::string_view name) {
    if (name == "about") return show(finding.about);
    if (name == "found") return finding.found ? show(*finding.found) : "an unknown amount";
    if (name == "allowed") return finding.allowed ? show(*finding.allowed) : "less";
    return words_of(finding.arguments, name);
}

}  // namespace

std::string_view show(FindingCode code) { return finding_row(code).name; }

std::string show(const Finding& finding) {
    return filled(finding_row(finding.code).wrong, [&](std::string_view name) { return words_of(finding, name); });
}

std::string remedy_in_words(const Finding& finding) {
    if (finding.remedy.steps.empty())
        return filled(finding_row(finding.code).to_do, [&](std::string_view name) { return words_of(finding, name); });
    std::string words;
    for (const RemedyStep& step : finding.remedy.steps)
        words += (words.empty() ? "" : " ") + filled(sentence_of(step.code), [&](std::string_view name) {
                     auto own = words_of(step.arguments, name);
                     return own ? own : words_of(finding, name);
                 });
    return words;
}

}  // namespace voltwright
