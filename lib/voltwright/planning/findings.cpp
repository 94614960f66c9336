#include "voltwright/planning/findings.hpp"

#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/sizing/fitting.hpp"
#include "voltwright/units/show.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// Looks at one run and gathers what there is to say.
class Look {
public:
    Look(const RunPlan& run, const RunPlan* before, const System& system, const Tables& tables)
        : run_(run), before_(before), system_(system), tables_(tables), name_(*run.task.run.name) {}

    Findings all() && {
        if (!run_.sized()) return {};
        surroundings();
        parts();
        unrated();
        hot_joints();
        body_return();
        trade_size();
        shared_way();
        if (const Candidate* taken = run_.to_lay()) {
            if (!taken->fits()) size_fails(*taken);
            for (const FuseFit& fuse : taken->fuses) {
                given_fuse(fuse);
                breaking_capacity(fuse);
                in_line_holder(fuse);
                starting(fuse);
            }
            ampacity_row(*taken);
            times_unknown(*taken);
            battery_assumed(*taken);
        } else {
            nothing_fits();
        }
        missing_fuses();
        fuses_elsewhere();
        return std::move(findings_);
    }

private:
    void add(Level level, std::string_view code, std::optional<Measure> found, std::optional<Measure> allowed,
             std::string remedy, std::string source, std::string detail = {}) {
        findings_.push_back(
            {level, code, name_, found, allowed, std::move(remedy), std::move(source), std::move(detail)});
    }

    /// Of the finding just added: without this power the trip is another one; a load's is missing with the engine off too.
    void bears_on_the_trip() {
        const RunRole role = run_.task.role;
        findings_.back().concern =
            role == RunRole::feed || role == RunRole::output ? Concern::trip : Concern::engine_off;
    }

    [[nodiscard]] Temperature hottest() const {
        const CableRun& run = run_.task.run;
        Temperature hottest = run.way.empty() ? run.around : run.way.front().around;
        for (const WayPart& part : run.way) hottest = std::max(hottest, part.around);
        return hottest;
    }

    /// Whether the return is what is too thin.
    [[nodiscard]] bool thin_return() const {
        const auto& back = run_.task.run.return_size;
        const Candidate* taken = run_.to_lay();
        if (!back || !taken) return false;
        const auto conductor = conductor_of(tables_, *back);
        return conductor && conductor->area < taken->area;
    }
    /// The conductor that is judged: "8 AWG", or "its return of 16 AWG".
    [[nodiscard]] std::string thinner_of(const Candidate& taken) const {
        return thin_return() ? "its return of " + cable(*run_.task.run.return_size) : cable(taken.size);
    }

    [[nodiscard]] Area thinner_area(const Candidate& taken) const {
        return thin_return() ? conductor_of(tables_, *run_.task.run.return_size)->area : taken.area;
    }

    /// "6 AWG, 105 degC"
    [[nodiscard]] std::string cable(Gauge size) const { return show_cable(size, run_.task.run.insulation); }

    // ---- remedies that were tried ------------------------------------------------------------------------------------

    /// The run as it would be chosen with a change; empty where it would still fail something.
    [[nodiscard]] std::optional<Candidate> would_do(const CableRun& changed, const Rules& rules) const {
        const Choice choice = choose_cable(changed, run_.task.load, run_.task.supply, rules, tables_, Ladder::needed);
        const Candidate* taken = choice.chosen();
        const auto sound = [](const FuseFit& fuse) {
            return fuse.in_window &&
                   fuse.fault.expected.current <= breaking_tolerance * fuse.fault.breaking_capacity.value;
        };
        if (!taken || !taken->fits() || taken->fuses.size() != changed.fused_at.size() ||
            !std::all_of(taken->fuses.begin(), taken->fuses.end(), sound))
            return {};
        return *taken;
    }
    [[nodiscard]] std::optional<Candidate> would_do(const CableRun& changed) const {
        return would_do(changed, system_.rules);
    }

    /// "a 50 A SF30 fuse"
    [[nodiscard]] static std::string fuses_of(const Candidate& candidate) {
        std::string words;
        for (const FuseFit& fuse : candidate.fuses)
            words += (words.empty() ? "a " : " and a ") + show(fuse.rating) + " " + fuse.family + " fuse";
        return words;
    }

    /// The fuse that this cable would get if none were given; empty where none does.
    [[nodiscard]] std::string fuse_that_fits(Gauge size) const {
        CableRun changed = run_.task.run;
        changed.given = size;
        changed.given_fuses.clear();
        const auto candidate = would_do(changed);
        return candidate ? fuses_of(*candidate) : std::string();
    }

    /// Cable and fuse as they would be chosen if neither were given; empty where nothing does.
    [[nodiscard]] std::string cable_and_fuse() const {
        CableRun changed = run_.task.run;
        changed.given.reset();
        changed.given_fuses.clear();
        const auto candidate = would_do(changed);
        return candidate ? "A cable of " + cable(candidate->size) + " with " + fuses_of(*candidate) + " would do."
                         : std::string();
    }

    /// What a cable back would do in place of the body; empty where it would not.
    [[nodiscard]] std::string cable_back() const {
        CableRun changed = run_.task.run;
        if (!changed.body) return {};
        changed.body.reset();
        changed.given.reset();
        changed.loaded_in_bundle = std::max(changed.loaded_in_bundle, 2);
        const auto candidate = would_do(changed);
        return candidate
                   ? "Lay a cable back (return = \"cable\"): " + cable(candidate->size) + " out and back would do."
                   : std::string();
    }

    /// "A cable of 6 AWG, 105 degC would do", or what to do when none does.
    [[nodiscard]] std::string size_that_fits() const {
        const Candidate* taken = run_.taken();
        if (thin_return())
            return "First lay a return as thick as the way out, " + cable(taken->size) + ", and plan again.";
        const Candidate* least = run_.choice.least_that_fits();
        const bool fuse_stays_wrong = least && std::any_of(least->fuses.begin(), least->fuses.end(),
                                                           [](const FuseFit& fuse) { return !fuse.in_window; });
        const bool helps = least && !(taken && taken->size == least->size);
        if (helps && !fuse_stays_wrong) return "A cable of " + cable(least->size) + " would do.";
        if (const std::string both = cable_and_fuse(); !both.empty()) return both;
        if (helps) return "A cable of " + cable(least->size) + " would do.";
        if (const std::string back = cable_back(); !back.empty()) return back;
        return "No size of the shop passes: shorten the run, allow more drop, or lower the current.";
    }

    [[nodiscard]] const std::string& basis_title() const { return system_.rules.ampacity_basis; }

    void surroundings() {
        const Temperature rating = run_.task.run.insulation;
        if (hottest() < rating) return;
        add(Level::stop, "too-hot", hottest(), rating,
            "Lay the cable elsewhere, or take insulation with a higher rating.", basis_title());
    }

    /// A part that would melt, with the size that was taken or the thickest there is.
    void parts() {
        const Candidate* size = run_.taken();
        if (!size) return;
        for (const PartRating& part : size->parts) {
            if (run_.choice.design.current <= part.rating) continue;
            std::string remedy = "Take a part rated for more, or leave it out.";
            if (const Candidate* least = run_.choice.least_that_fits())
                remedy = "On a cable of " + cable(least->size) + " it would do; or leave it out.";
            add(Level::stop, "part-rating", run_.choice.design.current, part.rating, std::move(remedy),
                "makers' curves, from memory", part.part);
        }
    }

    /// What is not rated here, and what has to be read on it before it is bought.
    void unrated() {
        const Candidate* size = run_.taken();
        if (!size) return;
        for (const UnratedPart& part : unrated_parts(run_.task.run, *size, run_.choice.design.current, tables_))
            add(Level::note, "part-at-least", part.at_least, {},
                "Read it on the part: amperes for long, at 12 V d.c. and in the heat where it sits.",
                "common practice, no source", part.part);
    }

    /// A joint that glows before any fuse acts.
    void hot_joints() {
        const Candidate* size = run_.taken();
        if (!size) return;
        const Current design = run_.choice.design.current;
        for (const JointHeat& joint : voltwright::hot_joints(run_.task.run, *size, design, tables_))
            add(Level::warn, "joint-heat", joint.heat, joint.limit,
                "Take one with less resistance. Measure across it with " + show(design) +
                    " flowing: " + show(Voltage(joint.limit / design)) + " at most.",
                std::string(joint.source.cite), joint.part);
    }

    void body_return() {
        const auto& body = run_.task.run.body;
        if (!body || body->measured) return;
        add(Level::warn, "body-return", body->resistance.value, body->high,
            "Measure it: volts between the two earth points with a known current, divided by the current; give it as "
            "return = \"4 mOhm\". A bolted tub or a ladder frame is return = \"frame\".",
            std::string(body->resistance.source.cite), run_.task.body_name);
    }

    void trade_size() {
        const auto& given = run_.task.run.given;
        if (!given || given->system != GaugeSystem::trade) return;
        const auto conductor = conductor_of(tables_, *given);
        add(Level::warn, "trade-size", conductor->area, {},
            "Count and measure the strands, or go by what the reel says in mm2.", std::string(conductor->source.cite),
            show(*given));
    }

    void shared_way() {
        if (run_.way && run_.way->collapses && run_.task.role == RunRole::trunk) {
            add(Level::stop, "delivery", {}, {}, "Shorten the way, or take thicker cable for the trunk.",
                "P = V·I through a resistance", run_.taken() ? cable(run_.taken()->size) : "");
            bears_on_the_trip();
        }
        if (!run_.to_lay()) return;  // said of the run itself
        if (!run_.way || run_.task.role == RunRole::trunk || run_.way->lost <= run_.way->allowed + volts(1e-9)) return;
        add(Level::stop, "way-drop", run_.way->lost, run_.way->allowed,
            "Give it a run of its own, thicker cable than the shop has, or allow it more.", "the rules of the profile");
    }

    // ---- sizes -------------------------------------------------------------------------------------------------------

    /// The criterion that stands most in the way.
    void nothing_fits() {
        if (!run_.taken()) return;
        const Candidate& nearest = *run_.taken();
        const Criterion why = nearest.fails.front();
        if (why == Criterion::fuse && !nearest.fuses.empty()) return given_fuse(nearest.fuses.front());
        if (why == Criterion::fuse && !nearest.windows.empty()) return no_fuse(nearest.windows.front());
        if (why == Criterion::lug) return no_lug(nearest);
        if (why == Criterion::clearing || why == Criterion::withstand) return shorts(nearest, why);
        if (why == Criterion::terminal || why == Criterion::charger_input || why == Criterion::delivery)
            return size_fails(nearest, why);
        const bool melts = std::any_of(findings_.begin(), findings_.end(),
                                       [](const Finding& one) { return one.code == "part-rating"; });
        if (why == Criterion::part && melts) return;  // said of the part itself
        if (why == Criterion::ampacity && nearest.ampacity) {
            add(Level::stop, "no-size-carries", run_.choice.design.current, nearest.ampacity->current,
                "Lower the current, lay the cable in cooler places, or take insulation with a higher rating.",
                std::string(nearest.ampacity->table.source.cite), cable(nearest.size));
            return;
        }
        const std::string back = cable_back();
        add(Level::stop, "no-size-fits", nearest.drop ? std::optional<Measure>(nearest.drop->drop) : std::nullopt,
            Measure{*run_.task.supply.drop_limit * nominal_voltage},
            back.empty() ? "Shorten the run, allow more drop, or lower the current." : back, "the rules of the profile",
            std::string(show(why)));
    }

    /// No rating lies between what carries the current and what protects; or one does, and a start would blow it.
    void no_fuse(const FuseWindow& window) {
        const auto& starting = run_.task.run.starting;
        const bool there_is_one = std::any_of(tables_.fuses.begin(), tables_.fuses.end(), [&](const FuseRow& row) {
            return row.rating >= window.at_least && row.rating <= window.at_most;
        });
        if (there_is_one && !starting.empty()) {
            const auto hardest =
                std::max_element(starting.begin(), starting.end(),
                                 [](const ShortCurrent& a, const ShortCurrent& b) { return a.current < b.current; });
            return add(Level::stop, "no-fuse-starts", hardest->current, window.at_most,
                       "Ask the appliance's maker for the fuse that it starts behind, or for a slower one.",
                       "the families' time limits");
        }
        add(Level::stop, "no-fuse-fits", window.at_least, window.at_most, room_for_fuse(window),
            "I_n between design current and ampacity", std::string(show(Criterion::fuse)));
    }

    /// What makes room for a fuse: never a larger one than cable, parts and manual allow.
    [[nodiscard]] std::string room_for_fuse(const FuseWindow& window) const {
        if (system_.rules.shelf) {
            Rules any_fuse = system_.rules;
            any_fuse.shelf.reset();
            if (const auto candidate = would_do(run_.task.run, any_fuse))
                return "The shelf of rules.fuses is what limits it: with " + fuses_of(*candidate) + " on it, " +
                       cable(candidate->size) + " would do.";
        }
        if (window.parts && *window.parts == window.at_most)
            return "What sits in the run allows no larger one: take a part made for a fuse of " +
                   show(window.at_least) + " and more, or lower the current.";
        if (window.appliance && *window.appliance == window.at_most)
            return "fuse_max allows no larger one, and a smaller one would blow. Read it again in the manual; if it is "
                   "right, lower the current.";
        return "The cable is what limits it: insulation with a higher rating, a cooler way, or a lower current.";
    }

    void size_fails(const Candidate& taken) {
        for (const Criterion criterion : taken.fails) size_fails(taken, criterion);
    }

    void size_fails(const Candidate& taken, Criterion criterion) {
        const std::string size = thinner_of(taken);
        const std::string& rules = basis_title();
        switch (criterion) {
            case Criterion::mechanical:
                return add(Level::warn, "too-thin", thinner_area(taken), system_.rules.smallest, size_that_fits(),
                           "rules.smallest", size);
            case Criterion::terminal:
                return add(Level::stop, "terminal", taken.area, *run_.task.run.terminal,
                           "Crimp on a reducing pin, or take a thinner cable that passes.", "the charger's manual",
                           size);
            case Criterion::lug: return no_lug(taken);
            case Criterion::ampacity:
                if (!taken.ampacity)
                    return add(Level::stop, "no-ampacity", taken.area, {}, size_that_fits(), rules, size);
                return add(Level::stop, "ampacity", run_.choice.design.current, taken.ampacity->current,
                           size_that_fits(), std::string(taken.ampacity->table.source.cite), size);
            case Criterion::part: return;  // said of the part itself
            case Criterion::clearing:
            case Criterion::withstand: return shorts(taken, criterion);
            case Criterion::fuse: {
                const bool has_fuse = !taken.fuses.empty();
                if (has_fuse) return;  // said of the fuse itself
                const FuseWindow& window = taken.windows.front();
                return add(Level::stop, "no-fuse-fits", window.at_least, window.at_most, size_that_fits(),
                           "I_n between design current and ampacity", size);
            }
            case Criterion::delivery:
                add(Level::stop, "delivery", {}, {}, size_that_fits(), "P = V·I through a resistance", size);
                return bears_on_the_trip();
            case Criterion::drop: {
                const Level level = run_.task.role == RunRole::feed ? Level::warn : Level::stop;
                return add(level, "drop", taken.drop->drop, taken.drop->allowed, size_that_fits(),
                           "the rules of the profile", size);
            }
            case Criterion::charger_input: return starved(taken);
            case Criterion::price: return;  // no failing
        }
    }

    /// No lug of this size has a hole for a stud at an end: the first such stud is told.
    void no_lug(const Candidate& size) {
        std::vector<std::pair<Area, Gauge>> conductors = {{size.area, size.size}};
        if (const auto& back = run_.task.run.return_size; back && !run_.task.run.body)
            conductors.emplace_back(conductor_of(tables_, *back)->area, *back);
        for (const Length& stud : run_.task.run.studs)
            for (const auto& [area, gauge] : conductors) {
                if (lug_takes(area, stud, tables_)) continue;
                const StudRow* nearest = nearest_stud(area, stud, tables_);
                std::string remedy = "The nearest stud that such a lug fits is " + std::string(nearest->stud) + ".";
                if (const Candidate* least = run_.choice.least_that_fits())
                    remedy += " Or take " + cable(least->size) + ", which fits.";
                remedy += " If a shop has such a lug all the same, leave the stud unsaid.";
                return add(Level::stop, "lug-stud", stud, nearest->diameter, std::move(remedy),
                           std::string(nearest->source.cite), show(gauge));
            }
    }

    /// The battery that feeds a short in this run, where nobody gave its resistance.
    [[nodiscard]] const InternalResistance* assumed_battery() const {
        const auto& ends = run_.task.run.fused_at;
        return !ends.empty() && ends.front().internal.assumed ? &ends.front().internal : nullptr;
    }
    /// A fuse that was chosen is the smallest there may be.
    [[nodiscard]] std::string cure_of_short(bool smaller_fuse) const {
        const bool other_size = run_.choice.least_that_fits() || thin_return();
        std::string cure = other_size ? size_that_fits() : "Shorten the run.";
        if (smaller_fuse) cure += " Or fit a smaller fuse.";
        if (const InternalResistance* battery = assumed_battery())
            cure += " The short rests on an assumed resistance of the battery, up to " +
                    show(Protection::aged * battery->high) + " with age: give internal_resistance, from its sheet.";
        return cure;
    }

    /// A size that a short decides, and with it a figure that nobody gave.
    void battery_assumed(const Candidate& taken) {
        const InternalResistance* battery = assumed_battery();
        if (!battery || run_.choice.given || run_.choice.decided_by != Criterion::clearing) return;
        add(Level::note, "battery-assumed", Protection::aged * battery->high, {},
            "Give the battery's internal_resistance, from its sheet or measured: a thinner cable may do.",
            std::string(battery->source.cite), cable(taken.size));
    }

    /// A short so small that even a slow fuse of a family with known times need not clear it, behind one whose times
    /// nobody printed.
    void times_unknown(const Candidate& taken) {
        for (const Protection& one : taken.protection) {
            const auto fuse = std::find_if(taken.fuses.begin(), taken.fuses.end(),
                                           [&](const FuseFit& fit) { return fit.at == one.at; });
            if (one.known || fuse == taken.fuses.end()) continue;
            std::optional<Current> slowest;
            for (const FuseFamilyRow& family : tables_.fuse_families)
                if (const auto least =
                        surely_clears(tables_, family.family, fuse->rating, Protection::longest_clearing);
                    least && family.form == FuseForm::bolted)
                    slowest = std::max(slowest.value_or(Current{}), *least);
            if (!slowest || one.lowest.current >= *slowest) continue;
            add(Level::warn, "short-time-unknown", one.lowest.current, *slowest,
                "Ask for its time-current curve: it has to clear that within 5 s. Or fit a bolted fuse of a family "
                "whose "
                "times are known, or a thicker cable.",
                "IEC 60364-4-41: 5 s at most", fuse_name(*fuse));
        }
    }

    /// A short that burns on, or that burns the cable; or a start that does.
    void shorts(const Candidate& taken, Criterion criterion) {
        if (criterion == Criterion::withstand && taken.start && !taken.start->holds())
            add(Level::stop, "start-too-hot", taken.start->let_through, taken.start->allowed, size_that_fits(),
                "IEC 60364-4-43", cable(taken.size));
        for (const Protection& one : taken.protection) {
            const auto fuse = std::find_if(taken.fuses.begin(), taken.fuses.end(),
                                           [&](const FuseFit& fit) { return fit.at == one.at; });
            const std::string name = fuse == taken.fuses.end() ? one.at.name : fuse_name(*fuse);
            const bool given = fuse != taken.fuses.end() && fuse->given;
            if (criterion == Criterion::clearing && !one.clears_in_time()) {
                std::optional<Measure> clears;
                if (one.clears) clears = *one.clears;
                add(Level::stop, one.clears ? "short-burns-on" : "short-never-cleared",
                    one.clears ? clears : std::optional<Measure>(one.lowest.current), Protection::longest_clearing,
                    cure_of_short(given), "IEC 60364-4-41: 5 s at most", name);
            }
            if (criterion == Criterion::withstand && !one.withstands()) {
                const Withstand& worst = one.at_worst && !one.at_worst->holds() ? *one.at_worst : *one.at_far;
                add(Level::stop, "withstand", worst.let_through, worst.allowed, cure_of_short(given), "IEC 60364-4-43",
                    name);
            }
        }
    }

    void starved(const Candidate& taken) {
        const auto& charger = std::get<ConverterLoad>(run_.task.load);
        const Voltage required = charger.input_off + input_margin;
        const Voltage lowest = *run_.task.supply.lowest;
        const bool wakes_again = lowest > system_.complete.charger.input_on->value;
        const bool falls_below = !taken.lowest || taken.lowest->far_end < charger.input_off;
        std::optional<Measure> left;
        if (taken.lowest) left = taken.lowest->far_end;
        add(Level::stop, wakes_again && falls_below ? "charger-cycles" : "charger-starved", left, required,
            size_that_fits(), "the charger's input window", cable(taken.size));
        bears_on_the_trip();
    }

    // ---- fuses -------------------------------------------------------------------------------------------------------

    /// As a sentence names it.
    [[nodiscard]] static std::string place_of(const Place& end) {
        return is_battery(end) ? end.kind == PlaceKind::starter_battery ? "starter battery" : "house battery"
                               : end.name;
    }

    [[nodiscard]] static std::string fuse_name(const FuseFit& fuse) {
        return show(fuse.rating) + " " + fuse.family + " fuse at the " + place_of(fuse.at);
    }

    void given_fuse(const FuseFit& fuse) {
        if (!fuse.given || fuse.in_window) return;
        const FuseWindow& window = fuse.window;
        const bool none = window.at_least > window.at_most;
        const std::string no_fuse = "No fuse both carries the current and protects what is behind it. ";
        const std::string fits = run_.to_lay() ? fuse_that_fits(run_.to_lay()->size) : std::string();
        if (fuse.rating > window.at_most) {
            const bool cable = window.at_most == window.ampacity;
            std::string remedy =
                fits.empty() ? "Fit a fuse of at most " + show(window.at_most) + "." : "Fit " + fits + ".";
            if (!run_.to_lay())
                if (const std::string both = cable_and_fuse(); !both.empty()) remedy = both;
            if (none || (cable && thin_return())) remedy = (none ? no_fuse : "") + size_that_fits();
            add(Level::stop, cable ? "fuse-too-large" : "fuse-above-part", fuse.rating, window.at_most,
                std::move(remedy), "I_n at most the ampacity of the thinnest conductor", fuse_name(fuse));
        } else {
            const bool blows = fuse.rating < window.design;
            add(blows ? Level::stop : Level::warn, "fuse-too-small", fuse.rating, window.at_least,
                none           ? no_fuse + size_that_fits()
                : fits.empty() ? "Fit a fuse of at least " + show(window.at_least) + "."
                               : "Fit " + fits + ".",
                "common practice: 80 % of the rating for long", fuse_name(fuse));
        }
    }

    static bool on_battery(const FuseFit& fuse) { return is_battery(fuse.at); }

    /// A rating of this family that would do in the place of the fuse: none that a start would blow, and no fuse for a
    /// battery's post anywhere else.
    [[nodiscard]] std::optional<Current> rating_of(const FuseFamilyRow& family, const FuseFit& fuse) const {
        if (family.form == FuseForm::post && !on_battery(fuse)) return {};
        const auto& starting = run_.task.run.starting;
        for (const FuseRow& row : tables_.fuses)
            if (row.family == family.family && row.rating >= fuse.window.at_least &&
                row.rating <= fuse.window.at_most &&
                std::all_of(starting.begin(), starting.end(), [&](const ShortCurrent& start) {
                    return rides_through(tables_, row.family, row.rating, start.current, start.time);
                }))
                return row.rating;
        return {};
    }

    /// Whether a family is made for this much and more.
    [[nodiscard]] bool made_so_large(const FuseFamilyRow& family, Current least) const {
        return std::any_of(tables_.fuses.begin(), tables_.fuses.end(),
                           [&](const FuseRow& row) { return row.family == family.family && row.rating >= least; });
    }

    /// What breaks more than this fuse: a stronger family in its place, or in front of it.
    [[nodiscard]] std::string stronger_family(const FuseFit& fuse) const {
        const Current asked = fuse.fault.expected.current;
        if (before_ && before_->taken())
            for (const FuseFit& front : before_->taken()->fuses)
                if (front.fault.breaking_capacity.value >= asked)
                    return "The " + fuse_name(front) + " before it breaks " +
                           show(front.fault.breaking_capacity.value) +
                           ". Cover this one: it may burst before that one blows.";
        const FuseFamilyRow* best = nullptr;
        Current most = fuse.fault.breaking_capacity.value;
        for (const FuseFamilyRow& family : tables_.fuse_families) {
            const BreakingCapacityRow* row =
                find_breaking_capacity(tables_, family.family, fuse.fault.expected.open_circuit);
            if (!row || row->breaking_capacity <= most) continue;
            most = row->breaking_capacity;
            best = &family;
        }
        if (!best || !made_so_large(*best, fuse.window.at_least)) return class_t(fuse);
        const std::string name = std::string(best->family) + " fuse (" + std::string(best->standard) + ")";
        if (const auto rating = rating_of(*best, fuse)) {
            const std::string written = show(*rating) + " " + std::string(best->family);
            return "A " + show(*rating) + " " + name + " in its place breaks " + show(most) + ": fuse = \"" + written +
                   "\".";
        }
        return "A " + name + " on the battery, in front of it, breaks " + show(most) + "; in its place none would do.";
    }

    /// What is left where no family of the tables breaks enough. More cable in front of the fuse would lessen the current,
    /// and burn unprotected. UL 248-15: 20 kA at 125 V d.c. is usual; makers' sheets second hand, and from memory.
    [[nodiscard]] static std::string class_t(const FuseFit& fuse) {
        constexpr Current breaks = amperes(20000);
        if (fuse.fault.highest.current > breaks)
            return "Split the bank: a fuse at the post of each battery, so that none has to break the current of all.";
        return "Fit a class T fuse there (UL 248-15), of " + show(fuse.window.at_least) + " to " +
               show(fuse.window.at_most) + ": it breaks " + show(breaks) + ". It cannot be planned with here yet.";
    }

    void breaking_capacity(const FuseFit& fuse) {
        const Current capacity = fuse.fault.breaking_capacity.value;
        const Current expected = fuse.fault.expected.current;
        const Current highest = fuse.fault.highest.current;
        if (highest <= capacity) return;
        const bool stops = expected > breaking_tolerance * capacity;
        const bool warns = highest > breaking_tolerance * capacity;
        add(stops   ? Level::stop
            : warns ? Level::warn
                    : Level::note,
            "breaking-capacity", stops ? expected : highest, capacity, stronger_family(fuse),
            std::string(fuse.fault.breaking_capacity.source.cite), fuse_name(fuse));
    }

    /// A fuse within what cable, parts and appliance allow that lets a start pass, its own family first.
    [[nodiscard]] std::string fuse_that_starts(const FuseFit& fuse) const {
        const auto words = [](Current rating, std::string_view family) {
            return "Fit a " + show(rating) + " " + std::string(family) + " fuse: it lets the start pass.";
        };
        if (const FuseFamilyRow* own = find_fuse_family(tables_, fuse.family))
            if (const auto rating = rating_of(*own, fuse)) return words(*rating, own->family);
        for (const FuseFamilyRow& family : tables_.fuse_families)
            if (const auto rating = rating_of(family, fuse); rating && family.usual)
                return words(*rating, family.family);
        if (fuse.window.at_most == fuse.window.ampacity)
            return "No fuse that this cable allows is sure to let it pass: take a thicker cable, then a larger fuse.";
        return "No fuse that is allowed behind it is sure to let it pass: its maker names the fuse that it starts "
               "behind.";
    }

    /// A start that a given fuse may not stand: a fuse that is chosen lets it pass.
    void starting(const FuseFit& fuse) {
        const auto& starting = run_.task.run.starting;
        const auto start = std::find_if(starting.begin(), starting.end(), [&](const ShortCurrent& one) {
            return !rides_through(tables_, fuse.family, fuse.rating, one.current, one.time);
        });
        if (start == starting.end()) return;
        add(Level::warn, "blows-on-start", start->current, fuse.rating, fuse_that_starts(fuse),
            "the family's time limits", fuse_name(fuse));
    }

    void in_line_holder(const FuseFit& fuse) {
        if (!fuse.in_line || run_.choice.design.current <= fuse.in_line->rating) return;
        add(Level::warn, "in-line-holder", run_.choice.design.current, fuse.in_line->rating,
            "Fit a bolt-down fuse: in-line blade holders melt at this current long before the fuse blows.",
            "common practice, no source", fuse_name(fuse));
    }

    /// What a fuse at that end must be, for the size that is taken.
    [[nodiscard]] const FuseWindow* window_at(const FuseEnd& end) const {
        const Candidate* taken = run_.taken();
        const auto index = static_cast<std::size_t>(&end - run_.task.run.fused_at.data());
        return taken && index < taken->windows.size() ? &taken->windows[index] : nullptr;
    }

    void missing_fuses() {
        for (const FuseEnd& end : run_.task.run.fused_at) {
            if (!left_bare(run_.task.run, end)) continue;
            if (const FuseFit* front = fuse_before(end)) {
                add(Level::note, "fuse-before", front->rating, {}, "Nothing to do while that fuse stays as it is.",
                    "I_n at most the ampacity of the thinnest conductor", fuse_name(*front));
                continue;
            }
            const FaultCurrent fault =
                fault_current(end.open_circuit, end.internal.expected, run_.task.run.upstream.cold);
            add(Level::stop, "fuse-missing", fault.current, {}, fuse_for_bare_end(end),
                "a fuse at every end from which a source can feed a run", place_of(end.at));
        }
    }

    [[nodiscard]] std::string fuse_for_bare_end(const FuseEnd& end) const {
        const Candidate* taken = run_.to_lay();
        if (const std::string fits = taken ? fuse_that_fits(taken->size) : std::string(); !fits.empty())
            return "Fit " + fits + " there.";
        const FuseWindow* window = window_at(end);
        if (!window) return "Fit one there.";
        if (window->at_least <= window->at_most)
            return "Fit one there, of " + show(window->at_least) + " to " + show(window->at_most) + ".";
        return "No fuse both holds and protects this cable. " + size_that_fits();
    }

    /// Fuses at ends from which no source feeds the run.
    void fuses_elsewhere() {
        const auto& ends = run_.task.run.fused_at;
        if (ends.empty()) return;
        const FuseEnd& end = ends.front();
        const bool bare = left_bare(run_.task.run, end);
        for (const auto& [at, fuse] : voltwright::fuses_elsewhere(run_.task.run)) {
            const std::string written = show(fuse.rating) + " " + fuse.family;
            CableRun moved = run_.task.run;
            moved.given_fuses = {{end.at, fuse}};
            if (run_.to_lay()) moved.given = run_.to_lay()->size;
            std::string remedy = bare ? "It may stay, and the run wants its fuse at the " + place_of(end.at) + "."
                                      : "It may stay: the fuse at the " + place_of(end.at) + " is the one that counts.";
            if (bare && would_do(moved))
                remedy =
                    "Move it to the " + place_of(end.at) + ": fuse = { " + end.at.name + " = \"" + written + "\" }.";
            add(bare ? Level::warn : Level::note, "fuse-elsewhere", {}, {}, std::move(remedy), "33 CFR 183.455(b)",
                written + " fuse at the " + place_of(at));
        }
    }

    /// A fuse before this run that protects it as well: no larger than what this run bears, and quick enough in a short
    /// at its far end.
    [[nodiscard]] const FuseFit* fuse_before(const FuseEnd& end) const {
        const Candidate* taken = run_.taken();
        const FuseWindow* window = window_at(end);
        if (!before_ || !before_->taken() || !window) return nullptr;
        const CableRun& run = run_.task.run;
        const ShortCircuitLimitRow* limit = find_short_circuit_limit(tables_, run.insulation, run.insulation_material);
        const Area thinner = thin_return() ? conductor_of(tables_, *run.return_size)->area : taken->area;
        for (const FuseFit& fuse : before_->taken()->fuses) {
            if (fuse.rating > window->at_most || !limit) continue;
            const Protection protection =
                protect(fuse, end, run.upstream.hot + taken->hot_loop, thinner, run.insulation, limit->limit, tables_);
            if (protection.known && protection.clears_in_time() && protection.withstands()) return &fuse;
        }
        return nullptr;
    }

    void ampacity_row(const Candidate& taken) {
        const Gauge judged = thin_return() ? *run_.task.run.return_size : taken.size;
        if (!taken.ampacity || taken.ampacity->table_size == judged) return;
        const Area area = thin_return() ? conductor_of(tables_, judged)->area : taken.area;
        add(Level::note, "ampacity-row", area, {}, "Nothing to do: the thinner row is the cautious one.",
            std::string(taken.ampacity->table.source.cite), show(taken.ampacity->table_size));
    }

    const RunPlan& run_;
    const RunPlan* before_;
    const System& system_;
    const Tables& tables_;
    std::string name_;
    Findings findings_;
};

/// A charger that is woken by voltage sleeps only when the resting starter battery reads less than its threshold.
void never_sleeps(const System& system, const Tables& tables, Findings& findings) {
    if (*system.complete.starter.alternator != Alternator::smart || *system.complete.charger.wake != Wake::voltage)
        return;
    const ChemistryRow& starter = *find_chemistry(tables, "flooded");
    findings.push_back(
        {Level::stop,
         "never-sleeps",
         "charger",
         starter.full,
         system.complete.charger.input_off->value,
         "Set wake = \"ignition\" and run the signal wire from an ignition circuit, with its own small fuse.",
         std::string(starter.source.cite),
         {}});
}

void smart_current(const System& system, const std::vector<RunPlan>& runs, Findings& findings) {
    if (*system.complete.starter.alternator != Alternator::smart) return;
    for (const RunPlan& run : runs) {
        if (run.task.role != RunRole::feed || !run.to_lay() || !run.figures) continue;
        findings.push_back({Level::note, "smart-current", *run.task.run.name, run.choice.design.current,
                            run.figures->current, "Cable, fuse and parts are chosen for the larger current.",
                            "a charger draws constant power: most amps at least volts",
                            show(system.complete.charger.input_off->value)});
    }
}

void starter_assumed(const System& system, Findings& findings) {
    if (!system.starter.internal.assumed) return;
    findings.push_back({Level::note,
                        "starter-assumed",
                        "starter",
                        system.starter.internal.low,
                        system.starter.internal.high,
                        "Give cold_cranking, as printed on the battery, if you know it.",
                        std::string(system.starter.internal.source.cite),
                        {}});
}

/// How near to the battery a fuse has to sit.
void fuse_distance(const System& system, const Tables& tables, Findings& findings) {
    const AmpacityBasisRow* basis = find_ampacity_basis(tables, system.rules.ampacity_basis);
    if (!basis || !basis->fuse_within || !basis->fuse_within_enclosed) return;
    findings.push_back({Level::note,
                        "fuse-distance",
                        "fuses",
                        *basis->fuse_within,
                        *basis->fuse_within_enclosed,
                        "Measure along the cable, from the post.",
                        std::string(basis->source.cite),
                        {}});
}

/// A smart alternator is steered by a sensor on the starter battery's negative post: what returns there goes unseen.
void battery_sensor(const System& system, Findings& findings) {
    if (*system.complete.starter.alternator != Alternator::smart) return;
    findings.push_back({Level::note,
                        "battery-sensor",
                        "feed",
                        {},
                        {},
                        "Take the feed's return to the body's earth point, not to the battery's negative post.",
                        "common practice, no source",
                        {}});
}

/// Fuses in series of which both may blow.
void selectivity(const std::vector<RunPlan>& runs, const RunTree& tree, const Tables& tables, Findings& findings) {
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const RunPlan& behind = runs[i];
        if (!behind.to_lay() || behind.taken()->fuses.empty()) continue;
        const RunPlan* front = run_before(runs, tree, i);
        if (!front || !front->to_lay() || front->taken()->fuses.empty()) continue;
        const FuseFit &first = front->taken()->fuses.front(), &second = behind.taken()->fuses.front();
        const Current fault = second.fault.expected.current;
        const auto selective =
            is_selective(tables, {first.family, first.rating}, {second.family, second.rating}, fault);
        if (!selective || *selective) continue;
        findings.push_back({Level::note, "selectivity", *behind.task.run.name, fault, first.rating,
                            "Nothing to do for safety; keep a spare of both.", "the families' time limits",
                            show(second.rating) + " " + second.family + " fuse"});
    }
}

void unfed_loads(const System& system, Findings& findings) {
    // More than what a lamp or a pump draws wants its own cable and fuse. Common practice, no source.
    constexpr Current heavy = amperes(5);
    for (const LoadUnit& load : system.loads) {
        if (std::find(system.unfed.begin(), system.unfed.end(), load.name) == system.unfed.end()) continue;
        const Current drawn = current_at(load.draw, nominal_voltage);
        if (drawn > heavy)
            findings.push_back({Level::warn,
                                "no-run-heavy",
                                load.name,
                                drawn,
                                {},
                                "Measure its way and describe it with a [[run]].",
                                "common practice, no source",
                                {}});
        else
            findings.push_back({Level::note,
                                "no-run",
                                load.name,
                                {},
                                {},
                                "Describe its cable with a [[run]] if it has one to be sized.",
                                "",
                                {}});
    }
}

/// Cables of the solar side are not sized; those that the battery can feed burn all the same.
void solar_cables(const System& system, Findings& findings) {
    if (!system.solar) return;
    const Voltage full = system.house.chemistry->full;
    const Current fault = full / system.house.internal.expected;
    bool described = false;
    for (const SystemRun& run : system.runs) {
        if (run.from.kind != PlaceKind::regulator) continue;
        if (run.to.kind != PlaceKind::house_battery) {
            findings.push_back({Level::warn,
                                "solar-load",
                                *run.run.name,
                                {},
                                {},
                                "Take it from the battery, where its cable and fuse are judged.",
                                "a fuse at every end from which a source can feed a run",
                                {}});
            continue;
        }
        described = true;
        // At the regulator's end it does not part the battery from a short.
        const auto& given = run.run.given_fuses;
        const bool no_fuse = !given.empty() && std::none_of(given.begin(), given.end(), [](const GivenFuse& one) {
            return one.fuse && (!one.at || one.at->kind == PlaceKind::house_battery);
        });
        findings.push_back({no_fuse ? Level::stop : Level::warn,
                            no_fuse ? "solar-no-fuse" : "solar-not-sized",
                            *run.run.name,
                            fault,
                            {},
                            "A fuse at the battery, no larger than that cable may carry.",
                            "a fuse at every end from which a source can feed a run",
                            {}});
    }
    if (!described)
        findings.push_back({Level::warn,
                            "solar-not-sized",
                            "regulator to battery",
                            fault,
                            {},
                            "A fuse at the battery, no larger than that cable may carry.",
                            "a fuse at every end from which a source can feed a run",
                            {}});
}

/// Batteries side by side feed each other's faults.
void bank_links(const System& system, Findings& findings) {
    if (system.house.count < 2) return;
    findings.push_back(
        {Level::note,
         "bank-links",
         "battery",
         {},
         {},
         "A fuse at the post of each, and links that carry the whole current: voltwright parts lists both.",
         "a fuse at every end from which a source can feed a run",
         std::to_string(system.house.count)});
}

void runs_assumed(const std::vector<RunPlan>& runs, Findings& findings) {
    std::string names;
    Length whole{};
    for (const RunPlan& run : runs) {
        if (!run.task.assumed) continue;
        names += (names.empty() ? "" : ", ") + *run.task.run.name;
        whole += *run.task.run.length;
    }
    if (names.empty()) return;
    findings.push_back({Level::warn,
                        "assumed-runs",
                        names,
                        whole,
                        {},
                        "Measure their way and describe each with a [[run]].",
                        "common practice, no source",
                        {}});
}

void basis_from_memory(const System& system, const Tables& tables, Findings& findings) {
    for (const AmpacityRow& row : tables.ampacities) {
        if (row.basis != system.rules.ampacity_basis || row.source.standing != Standing::memory) continue;
        findings.push_back({Level::warn,
                            "basis-from-memory",
                            "rules.ampacity",
                            {},
                            {},
                            "Check the chosen sizes against the printed standard.",
                            std::string(row.source.cite),
                            system.rules.ampacity_basis});
        return;
    }
}

}  // namespace

Findings find_in_run(const RunPlan& run, const RunPlan* before, const System& system, const Tables& tables) {
    return Look(run, before, system, tables).all();
}

Findings find_in_system(const System& system, const std::vector<RunPlan>& runs, const Tables& tables) {
    Findings findings;
    never_sleeps(system, tables, findings);
    runs_assumed(runs, findings);
    basis_from_memory(system, tables, findings);
    smart_current(system, runs, findings);
    battery_sensor(system, findings);
    selectivity(runs, system.tree, tables, findings);
    fuse_distance(system, tables, findings);
    starter_assumed(system, findings);
    unfed_loads(system, findings);
    solar_cables(system, findings);
    bank_links(system, findings);
    return findings;
}

}  // namespace voltwright
