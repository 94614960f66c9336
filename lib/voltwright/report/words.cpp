#include "voltwright/report/words.hpp"

#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

namespace {

/// How each kind of finding is said. {about} is the thing, {found} and {allowed} the quantities, {detail} a name.
struct Sentence {
    std::string_view code;
    std::string_view words;
};

constexpr Sentence sentences[] = {
    {"acid-freezes",
     "{about}: it is at {found}, {detail}; its acid begins to freeze at {allowed}, and frozen it bursts."},
    {"ampacity", "{about}: {detail} would carry {found} at worst; where it runs it may carry {allowed}."},
    {"ampacity-row",
     "{about}: the ampacity table does not print a cable of {found}; the row of {detail} was taken, the next with no "
     "more copper."},
    {"assumed-runs", "The profile does not describe these runs: {about}. They were assumed, {found} of cable in all."},
    {"bank-links",
     "{about}: {detail} batteries side by side can feed a fault in each other; their links are not in this plan."},
    {"basis-from-memory", "The ampacities of {detail} are from memory, not read from the standard."},
    {"battery-assumed",
     "{about}: a short at its far end decides for {detail}, and that rests on an assumed resistance of the battery, up "
     "to "
     "{found} with age."},
    {"battery-sensor",
     "{about}: a smart alternator is steered by a sensor at the negative post of the starter battery."},
    {"blows-on-start", "{about}: its start draws {found} for a moment; the {detail} may blow."},
    {"body-return",
     "{about}: the vehicle's body is the return. Its resistance is assumed at {found} ({detail}) and may be {allowed} "
     "or more."},
    {"breaking-capacity",
     "{about}: a dead short behind the {detail} may draw {found} through it; it is made to interrupt {allowed}."},
    {"charge-voltage-cold",
     "{about}: in the cold its sensor lifts {detail} to {found}; above {allowed} lamps and fridges suffer."},
    {"charge-voltage-high",
     "{about}: it charges to {found}; {detail} takes {allowed} at most, and gasses or fails above."},
    {"charge-voltage-low", "{about}: it charges to {found}; {detail} wants at least {allowed}, or it is never full."},
    {"charged-too-hard", "{about}: the charger gives {found}; the battery is made to take {allowed}."},
    {"charger-cycles",
     "{about}: with {detail} the charger would be left {found} at the lowest running voltage and needs {allowed}: it "
     "would switch off, see the voltage rise, and switch on again without end."},
    {"charger-does-not-start",
     "{about}: with the engine running as usual its input reads {found}; it starts above {allowed}, so it never does."},
    {"charger-hot", "{about}: it is so hot where it stands that {found} is left of its {allowed}."},
    {"charger-hunts",
     "{about}: at full output its input falls to {found} and it gives up below {allowed}: it would switch on and off "
     "without end."},
    {"charger-not-fed", "{about}: its feed cannot bring the power for {found} at all, so it charges nothing."},
    {"charger-starved",
     "{about}: with {detail} the charger would be left {found} at the lowest running voltage and needs {allowed}."},
    {"clearness-assumed",
     "{about}: no clearness is given. The usual sky of this month and latitude lets {found} of a clear sky's sun "
     "through; "
     "by place it is {allowed} to {detail}."},
    {"cut-out", "{about}: it switches itself off, first {detail}, and is off for {found} of the trip."},
    {"delivery", "{about}: so much power cannot be brought through {detail} at all; the voltage would collapse."},
    {"depth-limit", "{about}: it falls to {found}, below its limit of {allowed}{detail}."},
    {"discharged-too-hard", "{about}: everything that is on together draws {found}; it is made to give {allowed}."},
    {"driving-loses", "{about}: the loads take more than it gives: an hour of driving costs {found}."},
    {"drop", "{about}: {detail} loses {found}; {allowed} is allowed."},
    {"fridge-contradicts", "{about}: of its two rated points the hotter takes no more than the cooler."},
    {"fridge-guessed",
     "{about}: nobody measured what it takes; by a rule of thumb up to {found} a day. The night rests on it."},
    {"fridge-one-point",
     "{about}: its daily use is known at one temperature alone; on this trip it was taken as up to {found} a day."},
    {"fridge-overwhelmed",
     "{about}: at {detail} around it, it would have to run {found} of the time: it cannot stay cold."},
    {"fuse-above-part", "{about}: the {detail} is too large: what sits behind it allows {allowed}."},
    {"fuse-before", "{about}: it has no fuse of its own; the {detail} before it protects it as well."},
    {"fuse-distance",
     "Each fuse sits within {found} of the post of its battery, or within {allowed} if the cable is in a sheath or "
     "enclosure all the way."},
    {"fuse-elsewhere", "{about}: the {detail} does not protect it: no source feeds it from there."},
    {"fuse-missing",
     "{about}: there is no fuse where the {detail} can feed it; a short would draw about {found} from there."},
    {"fuse-too-large",
     "{about}: the {detail} is too large: the cable may carry {allowed} where it runs, and would melt before the fuse "
     "blows."},
    {"fuse-too-small", "{about}: the {detail} is too small: {allowed} is needed to carry the current for long."},
    {"guard-hunts",
     "{about}: its guard trips {detail} times on the trip: it starts, sees too little, and stops again."},
    {"in-line-holder",
     "{about}: {found} would flow through the {detail}; in-line blade holders are good for {allowed} for long."},
    {"inverter-above-battery",
     "{about}: at its rated output it would draw {found}; the battery is made to give {allowed}."},
    {"inverter-overloaded", "{about}: what may be on at one time ({detail}) draws {found}; it gives {allowed}."},
    {"joint-heat", "{about}: the {detail} would turn {found} into heat; more than {allowed} is not sound."},
    {"lug-stud", "{about}: no lug for a cable of {detail} has a hole for a stud of {found}."},
    {"never-full", "{about}: charging never brings it beyond {found} on this trip."},
    {"never-sleeps",
     "The charger is woken by voltage, and the alternator is smart: a resting starter battery reads {found}, above the "
     "{allowed} at which the charger switches off. It would empty the starter battery."},
    {"no-ampacity", "{about}: the ampacity table has no row for so thin a conductor as {detail}."},
    {"no-fuse-fits",
     "{about}: no fuse fits: at least {found} to carry the current, at most {allowed} to protect what is behind it."},
    {"no-fuse-starts",
     "{about}: no fuse fits: on starting {found} flow for a moment, and none up to {allowed} is sure to let that "
     "pass."},
    {"no-run-heavy",
     "{about}: no run leads to it, and it draws {found}: neither its cable nor its fuse is in this plan."},
    {"no-run", "{about}: no run leads to it; it is taken to sit at the battery."},
    {"no-size-carries",
     "{about}: no size passes. It would carry {found} at worst; even {detail} may carry only {allowed} where it runs."},
    {"no-size-fits", "{about}: no size passes ({detail}). The thickest loses {found}; {allowed} is allowed."},
    {"part-at-least", "{about}: what the {detail} may carry is not known here; take one made for at least {found}."},
    {"part-rating",
     "{about}: the {detail} would carry {found}; on this cable and in this heat it is good for {allowed}."},
    {"selectivity",
     "{about}: a dead short behind its {detail} draws about {found}: the {allowed} fuse before it may blow too."},
    {"short-burns-on",
     "{about}: a short at its far end may burn for {found} before the {detail} clears it; {allowed} is the most."},
    {"short-never-cleared",
     "{about}: a short at its far end may draw no more than {found}: the {detail} need not clear that at all."},
    {"short-time-unknown",
     "{about}: a short at its far end may draw no more than {found}, and nobody printed how soon the {detail} clears "
     "that; a "
     "bolted fuse of its rating would want {allowed}."},
    {"smart-current",
     "{about}: the alternator is smart, so its voltage may fall until the charger gives up at {detail}. Less volts "
     "means more amps: {found} at worst instead of {allowed} as usual."},
    {"solar-load", "{about}: it begins at the panel's regulator, and neither its cable nor its fuse is judged here."},
    {"solar-no-fuse", "{about}: it has no fuse, and the house battery can push {found} into a short of it."},
    {"solar-not-sized",
     "{about}: this cable is not sized here, and the house battery can push {found} into a short of it."},
    {"spare-current", "{about}: the charger draws {found} from the alternator, which has {allowed} to spare."},
    {"start-too-hot",
     "{about}: its start heats the cable with {found}; {detail} stands {allowed} before its insulation is too hot."},
    {"starter-assumed",
     "The starter battery's resistance is assumed, {found} to {allowed}; the fault currents rest on it."},
    {"starter-capacity-assumed",
     "The starter battery's capacity is assumed, {found}; how long it feeds what hangs on it rests on that."},
    {"starter-drained",
     "{about}: fed by the starter battery. In the longest time without the engine {found} are taken. {allowed} bring "
     "it down to {detail}. Below that the engine may not start."},
    {"starter-guard-low",
     "{about}: fed by the starter battery, with its guard at {found}. {allowed} is made for a battery that starts an "
     "engine."},
    {"starter-load",
     "{about}: fed by the starter battery. In the longest time without the engine {found} are taken. {allowed} bring "
     "it down to {detail}."},
    {"terminal", "{about}: {detail} is {found}; the charger's terminal takes {allowed}."},
    {"too-cold-to-charge", "{about}: below {detail} it takes no charge: of {allowed} driven, {found} put nothing in."},
    {"too-hot", "{about}: it is {found} where the cable runs, and its insulation is rated for {allowed}."},
    {"too-thin", "{about}: {detail} is {found}; a vehicle's shaking asks for {allowed}."},
    {"trade-size", "{about}: \"{detail}\" is named by its outside; its copper is about {found}."},
    {"without-power", "{about}: the battery gives no more, first {detail}; it is without power for {found}."},
    {"way-drop",
     "{about}: with all on that can be on together, up to {found} would be lost on the way to it; {allowed} is "
     "allowed."},
    {"withstand", "{about}: the {detail} may let {found} through in a short; its cable stands {allowed}."},
};

}  // namespace

std::string show(const Finding& finding) {
    const auto sentence = std::find_if(std::begin(sentences), std::end(sentences),
                                       [&](const Sentence& s) { return s.code == finding.code; });
    const std::string found = finding.found ? show(*finding.found) : "an unknown amount";
    const std::string allowed = finding.allowed ? show(*finding.allowed) : "less";
    if (sentence == std::end(sentences))
        return finding.about + ": " + std::string(finding.code) + ", " + found + " against " + allowed + ".";
    return fmt::format(fmt::runtime(sentence->words), fmt::arg("about", finding.about), fmt::arg("found", found),
                       fmt::arg("allowed", allowed), fmt::arg("detail", finding.detail));
}

std::string place_in_words(const Place& place) {
    switch (place.kind) {
        case PlaceKind::starter_battery: return "starter battery";
        case PlaceKind::house_battery: return "house battery";
        default: return place.name;
    }
}

std::string size_words(const RunPlan& run) {
    const Candidate* taken = run.taken();
    if (!run.sized()) return "not sized";
    if (!taken) return "no size passes";
    const std::string size = show_cable(taken->size, run.task.run.insulation);
    return run.to_lay() ? size : "no size passes, " + size + " comes nearest";
}

std::string failings(const Candidate& candidate) {
    std::string words;
    for (const Criterion criterion : candidate.fails)
        words += (words.empty() ? "" : ", ") + std::string(show(criterion));
    return words;
}

std::string heading_of(const RunPlan& run) {
    const SystemRun& task = run.task;
    const std::string way =
        task.from.name + " to " + task.to.name + ", " + show(static_cast<const Length&>(task.run.length));
    const bool named = *task.run.name != task.to.name;
    return named ? *task.run.name + ", " + way : way;
}

std::string show(const FuseFit& fuse) {
    return show(fuse.rating) + " " + fuse.family + " at the " + place_in_words(fuse.at);
}

std::string origin_of_cable(const RunPlan& run) {
    return run.task.run.have_cable ? "there already" : run.choice.given ? "given in the profile" : "";
}

std::string origin_of(const FuseFit& fuse) {
    return fuse.have ? "there already" : fuse.given ? "given in the profile" : "";
}

std::string no_fuse_words(const Candidate& candidate) {
    const bool wanted =
        std::find(candidate.fails.begin(), candidate.fails.end(), Criterion::fuse) != candidate.fails.end();
    return wanted ? "no fuse fits" : "no fuse";
}

std::string other_class_words(const Plan& plan) {
    if (!plan.other_class) return {};
    const OtherClass& other = *plan.other_class;
    const std::string cable = show(other.insulation) + " cable";
    if (other.runs.empty()) return cable + " would do as well: no size and no fuse changes.";
    std::string changed, none;
    for (const OtherCable& run : other.runs) {
        if (!run.size) {
            none += (none.empty() ? "" : ", ") + run.run;
            continue;
        }
        changed += (changed.empty() ? "" : ", ") + run.run + " " + show(*run.size);
        if (!run.other_fuse) continue;
        for (const FuseFit& fuse : run.fuses) changed += " with " + show(fuse.rating) + " " + fuse.family;
    }
    std::string words = "With " + cable + " (much of what shops sell): ";
    if (!changed.empty()) words += changed + (none.empty() ? "." : "; ");
    if (!none.empty()) words += none + (none.find(", ") == std::string::npos ? " does not pass." : " do not pass.");
    return words;
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
    return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string verdict_line(const Plan& plan) {
    const auto count = [&](Level level) {
        return static_cast<std::size_t>(std::count_if(plan.findings.begin(), plan.findings.end(),
                                                      [&](const Finding& finding) { return finding.level == level; }));
    };
    std::string line = plan.holds() ? "THE PLAN HOLDS." : "THE PLAN DOES NOT HOLD.";
    if (const std::size_t stops = count(Level::stop))
        line += "  " + counted(stops, "thing stops it.", "things stop it.");
    if (const std::size_t assumed = plan.assumed().size())
        line += "  " + counted(assumed, "cable is assumed.", "cables are assumed.");
    if (const std::size_t warns = count(Level::warn)) line += "  " + counted(warns, "warning.", "warnings.");
    if (const std::size_t notes = count(Level::note))
        line += "  " + counted(notes, "thing to note.", "things to note.");
    return line;
}

}  // namespace voltwright
