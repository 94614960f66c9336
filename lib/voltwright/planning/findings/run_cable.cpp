#include "voltwright/planning/findings/run_concerns.hpp"
#include "voltwright/planning/findings/run_remedies.hpp"
#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/sizing/short_time.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

Temperature hottest_place(const CableRun& run) {
    Temperature hottest = run.way.empty() ? run.around : run.way.front().around;
    for (const WayPart& part : run.way) hottest = std::max(hottest, part.around);
    return hottest;
}

Finding too_thin(const RunContext& of, const Candidate& taken) {
    const JudgedConductor thinner = judged_conductor(of, taken);
    return {.level = Level::warn,
            .code = FindingCode::too_thin,
            .about = subject_of(of),
            .found = thinner.area,
            .allowed = of.system.rules.smallest,
            .arguments = {{"cable", named_cable(of, thinner)}},
            .remedy = size_that_fits(of),
            .source = sources::smallest_rule};
}

Finding terminal_too_small(const RunContext& of, const Candidate& taken) {
    return {.level = Level::stop,
            .code = FindingCode::terminal,
            .about = subject_of(of),
            .found = taken.area,
            .allowed = *of.way().terminal,
            .arguments = {{"cable", named_cable(of, judged_conductor(of, taken))}},
            .source = sources::charger_manual};
}

/// What a conductor would carry and what it may; of a short time both for as long.
void judge_current(const RunContext& of, const Candidate& size, Finding& finding) {
    const DesignCurrent& design = of.run.choice.design;
    finding.found = peak_current(design);
    finding.allowed = size.ampacity->current;
    if (!design.short_time) return;
    const HeatedConductor conductor = heated_conductor(judged_conductor(of, size).area, of.way().insulation,
                                                       hottest_surroundings(of.way()), size.ampacity);
    finding.allowed = Current(size.ampacity->current * factor_in(conductor, *design.short_time));
    finding.arguments.push_back({"lasts", design.short_time->on});
    finding.arguments.push_back({"every", design.short_time->cycle});
}

Finding ampacity_passed(const RunContext& of, const Candidate& taken) {
    Finding one{.level = Level::stop,
                .code = FindingCode::no_ampacity,
                .about = subject_of(of),
                .found = taken.area,
                .arguments = {{"cable", named_cable(of, judged_conductor(of, taken))}},
                .remedy = size_that_fits(of),
                .source = ampacity_source(of)};
    if (!taken.ampacity) return one;
    one.code = FindingCode::ampacity;
    judge_current(of, taken, one);
    if (const auto& panel = of.run.choice.design.panel; panel && of.design() <= taken.ampacity->current) {
        one.code = FindingCode::panel_ampacity;
        one.found = panel->table_least;
        one.allowed = taken.ampacity->table.value;
    }
    one.source = taken.ampacity->table.source;
    return one;
}

Finding no_fuse_for_size(const RunContext& of, const Candidate& taken) {
    const FuseWindow& window = taken.windows.front();
    return {.level = Level::stop,
            .code = FindingCode::no_fuse_fits,
            .about = subject_of(of),
            .found = window.at_least,
            .allowed = window.at_most,
            .remedy = size_that_fits(of),
            .source = sources::fuse_window};
}

Finding power_not_brought(const RunContext& of, const Candidate& taken) {
    return {.level = Level::stop,
            .code = FindingCode::delivery,
            .about = subject_of(of),
            .arguments = {{"cable", named_cable(of, judged_conductor(of, taken))}},
            .remedy = size_that_fits(of),
            .source = sources::power_delivery,
            .concern = concern_of_power(of)};
}

/// Volts that a charger or a regulator raises again cost power alone.
bool is_raised_again(RunRole role) { return role == RunRole::feed || role == RunRole::panel; }

Finding drop_too_large(const RunContext& of, const Candidate& taken) {
    return {.level = is_raised_again(of.run.task.role) ? Level::warn : Level::stop,
            .code = FindingCode::drop,
            .about = subject_of(of),
            .found = taken.drop->drop,
            .allowed = taken.drop->allowed,
            .arguments = {{"cable", named_cable(of, judged_conductor(of, taken))}},
            .remedy = size_that_fits(of),
            .source = sources::drop_rules};
}

/// A charger that is left too little when the alternator gives least: where its input then rises enough to wake it, it
/// switches on and off.
Finding starved_charger(const RunContext& of, const Candidate& taken) {
    const auto& charger = std::get<ConverterLoad>(of.run.task.load);
    const bool wakes_again = *of.run.task.supply.lowest > of.system.charger.input_on;
    const bool falls_below = !taken.lowest || taken.lowest->far_end < charger.input_off;
    Finding one{.level = Level::stop,
                .code = wakes_again && falls_below ? FindingCode::charger_cycles : FindingCode::charger_starved,
                .about = subject_of(of),
                .allowed = Voltage(charger.input_off + input_margin),
                .arguments = {{"cable", named_cable(of, taken.size)}},
                .remedy = size_that_fits(of),
                .source = sources::input_window,
                .concern = concern_of_power(of)};
    // Beyond half of the source's voltage more current brings no more power.
    one.found = taken.lowest ? taken.lowest->far_end : Voltage(*of.run.task.supply.lowest / 2.0);
    return one;
}

void find_failing(const RunContext& of, const Candidate& taken, Criterion criterion, Findings& found) {
    switch (criterion) {
        case Criterion::mechanical: return found.push_back(too_thin(of, taken));
        case Criterion::terminal: return found.push_back(terminal_too_small(of, taken));
        case Criterion::lug: return find_missing_lug(of, taken, found);
        case Criterion::ampacity: return found.push_back(ampacity_passed(of, taken));
        case Criterion::part: return;  // said of the part itself
        case Criterion::clearing:
        case Criterion::withstand: return find_shorts(of, taken, criterion, found);
        case Criterion::fuse:
            if (taken.fuses.empty()) found.push_back(no_fuse_for_size(of, taken));
            return;  // else said of the fuse itself
        case Criterion::delivery: return found.push_back(power_not_brought(of, taken));
        case Criterion::drop: return found.push_back(drop_too_large(of, taken));
        case Criterion::charger_input:
            // What does not come at the usual voltage does not come at the lowest: said once.
            if (taken.drop) found.push_back(starved_charger(of, taken));
            return;
        case Criterion::price: return;  // no failing
    }
}

Finding no_size_carries(const RunContext& of, const Candidate& nearest) {
    Finding one{.level = Level::stop,
                .code = FindingCode::no_size_carries,
                .about = subject_of(of),
                .arguments = {{"cable", named_cable(of, nearest.size)}},
                .source = nearest.ampacity->table.source};
    judge_current(of, nearest, one);
    return one;
}

Finding no_size_fits(const RunContext& of, const Candidate& nearest) {
    Finding one{.level = Level::stop,
                .code = FindingCode::no_size_fits,
                .about = subject_of(of),
                .allowed = Measure{*of.run.task.supply.drop_limit * nominal_voltage},
                .arguments = {{"criterion", std::string(show(nearest.fails.front()))}},
                .remedy = way_out(of).value_or(Remedy{}),
                .source = sources::drop_rules};
    if (nearest.drop) one.found = nearest.drop->drop;
    return one;
}

}  // namespace

void find_hot_surroundings(const RunContext& of, Findings& found) {
    const Temperature rating = of.way().insulation, hottest = hottest_place(of.way());
    if (hottest < rating) return;
    found.push_back({.level = Level::stop,
                     .code = FindingCode::too_hot,
                     .about = subject_of(of),
                     .found = hottest,
                     .allowed = rating,
                     .source = ampacity_source(of)});
}

void find_trade_size(const RunContext& of, Findings& found) {
    const auto& given = of.way().given;
    if (!given || given->system != GaugeSystem::trade) return;
    const auto conductor = conductor_of(of.tables, *given);
    found.push_back({.level = Level::warn,
                     .code = FindingCode::trade_size,
                     .about = subject_of(of),
                     .found = conductor->area,
                     .arguments = {{"size", *given}},
                     .source = conductor->source});
}

void find_way_drop(const RunContext& of, Findings& found) {
    const auto& way = of.run.way;
    if (!way) return;
    if (of.run.task.role != RunRole::trunk) {
        // Where no size passes that is said of the run itself.
        if (!of.run.to_lay() || way->lost <= way->allowed + volts(1e-9)) return;
        return found.push_back({.level = Level::stop,
                                .code = FindingCode::way_drop,
                                .about = subject_of(of),
                                .found = way->lost,
                                .allowed = way->allowed,
                                .source = sources::drop_rules});
    }
    if (!way->collapses) return;
    Finding one{.level = Level::stop,
                .code = FindingCode::delivery,
                .about = subject_of(of),
                .remedy = {{{RemedyCode::shorten_way_or_thicker_trunk, {}}}, {}},
                .source = sources::power_delivery,
                .concern = concern_of_power(of)};
    if (const Candidate* taken = of.run.taken()) one.arguments.push_back({"cable", named_cable(of, taken->size)});
    found.push_back(std::move(one));
}

void find_failings(const RunContext& of, const Candidate& taken, Findings& found) {
    for (const Criterion criterion : taken.fails) find_failing(of, taken, criterion, found);
}

void find_why_nothing_fits(const RunContext& of, Findings& found) {
    if (!of.run.taken()) return;
    const Candidate& nearest = *of.run.taken();
    const Criterion why = nearest.fails.front();
    switch (why) {
        case Criterion::fuse:
            if (!nearest.fuses.empty()) return find_unfit_fuse(of, nearest.fuses.front(), found);
            if (!nearest.windows.empty()) return find_no_fuse(of, nearest.windows.front(), found);
            break;
        case Criterion::lug:
        case Criterion::clearing:
        case Criterion::withstand:
        case Criterion::terminal:
        case Criterion::charger_input:
        case Criterion::delivery: return find_failing(of, nearest, why, found);
        case Criterion::part:
            if (std::any_of(found.begin(), found.end(),
                            [](const Finding& one) { return one.code == FindingCode::part_rating; }))
                return;  // said of the part itself
            break;
        case Criterion::ampacity:
            if (nearest.ampacity) return found.push_back(no_size_carries(of, nearest));
            break;
        case Criterion::mechanical:
        case Criterion::drop:
        case Criterion::price: break;
    }
    found.push_back(no_size_fits(of, nearest));
}

}  // namespace voltwright
