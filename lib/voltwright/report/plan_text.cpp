#include "voltwright/report/plan_text.hpp"

#include "voltwright/messages/plan.hpp"
#include "voltwright/report/energy_text.hpp"
#include "voltwright/report/findings_text.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

namespace {

std::string paragraph(std::string_view text, const Style& style, std::size_t indent) {
    return wrap(text, style, std::string(indent, ' '), indent);
}

std::string why_not_its_fuse(const Candidate& thinner) {
    if (thinner.fuses.empty()) return "would leave no fuse that both holds and protects";
    const FuseFit& fuse = thinner.fuses.front();
    const std::string name = show(fuse.rating) + " " + fuse.family;
    return fuse.in_window ? "would want a fuse of " + name + ", which does not break a dead short"
                          : "would melt before the " + name + " fuse blows";
}

/// What the next thinner size fails, as the end of a sentence: "8 AWG would lose 1.04 V and starve the charger below 12.9 V".
std::string why_not(const Candidate& thinner, Temperature insulation) {
    std::string words;
    const auto add = [&](const std::string& what) { words += (words.empty() ? "" : " and ") + what; };
    for (const Criterion criterion : thinner.fails) {
        switch (criterion) {
            case Criterion::mechanical: add("would be too thin for a vehicle's shaking"); break;
            case Criterion::terminal: add("would not go into the terminal"); break;
            case Criterion::lug: add("would take no lug with a hole for the stud"); break;
            case Criterion::ampacity:
                add(thinner.ampacity ? "may carry only " + show(thinner.ampacity->current)
                                     : "is not in the ampacity table");
                break;
            case Criterion::part: add("would let a part in the run melt"); break;
            case Criterion::fuse: add(why_not_its_fuse(thinner)); break;
            case Criterion::clearing: add("would let a short at its far end burn on"); break;
            case Criterion::withstand: add("would not stand a short until the fuse has cleared it"); break;
            case Criterion::delivery: add("could not bring the power at all"); break;
            case Criterion::drop: add("would lose " + show(thinner.drop->drop)); break;
            case Criterion::charger_input:
                add(thinner.lowest
                        ? "would leave the charger " + show(thinner.lowest->required - thinner.lowest->far_end) +
                              " short of the " + show(thinner.lowest->required) + " it needs"
                        : "would starve the charger");
                break;
            case Criterion::price: break;  // no failing
        }
    }
    return show_cable(thinner.size, insulation) + " " + words;
}

/// "voltage drop: 0.67 V of 0.72 V allowed (cable 0.55 V, joints 0.12 V)"
std::string decided_words(const RunPlan& run, const Candidate& taken) {
    if (run.choice.nothing_fits()) return show_cable(taken.size, run.task.run.insulation) + " fails " + failings(taken);
    if (run.choice.given)
        return (run.task.run.have_cable ? "cable " : "size ") + origin_of_cable(run) + ": judged, not chosen";
    if (!run.choice.decided_by) return "the thinnest of the shop passes";
    switch (*run.choice.decided_by) {
        case Criterion::mechanical: return "decided by mechanical strength";
        case Criterion::lug: return "decided by the lug that fits the stud";
        case Criterion::ampacity: return "decided by ampacity";
        case Criterion::part: return "decided by what sits in the run";
        case Criterion::fuse: return "decided by the fuse that fits";
        case Criterion::clearing: return "decided by how soon the fuse clears a short at the far end";
        case Criterion::withstand: return "decided by what the cable stands in a short";
        case Criterion::terminal: return "decided by the terminal";
        case Criterion::delivery: return "decided by what can be brought at all";
        case Criterion::drop: return run.way ? "decided by voltage drop over its whole way" : "decided by voltage drop";
        case Criterion::price: return "decided by price: the thinner ones that pass cost as much or have no price";
        case Criterion::charger_input:
            return "decided by the charger's input: " + show(taken.lowest->far_end) + " is left of the " +
                   show(taken.lowest->required) + " it needs";
    }
    return {};
}

std::string parts_of(const NetworkFigures& figures) {
    return " (cable " + show(figures.cable_drop) + ", joints and fuse " + show(figures.joint_drop) + ")";
}

/// Of a run that shares its way the limit is that of the whole way.
std::string drop_words(const RunPlan& run, const NetworkFigures& figures) {
    // A relay's link is judged at what the battery would take; what really flows stands beside it.
    if (const auto& judged = run.taken()->drop; run.link && judged)
        return "loses " + show(judged->drop) + " of " + show(judged->allowed) + " allowed at " + show(judged->current) +
               " (cable " + show(judged->cable_drop) + ", joints and fuse " + show(judged->joint_drop) + ")";
    const std::string words = "loses " + show(figures.drop);
    if (!run.way)
        return words + " of " + show(*run.task.supply.drop_limit * nominal_voltage) + " allowed" + parts_of(figures);
    if (run.task.role == RunRole::trunk) return words + parts_of(figures) + ", chosen together with what it feeds";
    return words + parts_of(figures) + ", and with the runs before it " + show(figures.way_drop) + " of " +
           show(run.way->allowed) + " allowed";
}

std::string current_words(const RunPlan& run, const Candidate& taken, const NetworkFigures& figures) {
    std::string words = show(figures.current);
    if (const auto& flows = run.choice.design.short_time)
        words += " for " + show(flows->on) + " every " + show(flows->cycle);
    if (run.link) words += " when charging begins";
    words += ", and " + show(figures.far_end) + " of " + show(figures.source) + " arrive";
    if (figures.apart) words += ", at " + *figures.at;
    const Current worst = run.choice.design.current;
    if (run.link) words += "; less as the battery fills";
    if (worst > 1.02 * figures.current) words += "; " + show(worst) + " at worst";
    if (taken.lowest && figures.far_end < taken.lowest->input_off)
        words += ", if the charger did not switch off below " + show(taken.lowest->input_off);
    const std::string for_long = run.choice.design.short_time ? " for long" : "";
    words += taken.ampacity ? "; the cable may carry " + show(taken.ampacity->current) + for_long + " where it runs (" +
                                  show(taken.ampacity->around) + ")"
                            : "; its ampacity is not known";
    return words;
}

/// "6 AWG, 105 degC, 50 A SF30 at the starter battery": what a run gets.
std::string bought_words(const RunPlan& run) {
    if (!run.to_lay()) return size_words(run);
    const Candidate& taken = *run.taken();
    const CableRun& cable = run.task.run;
    std::string words = show_cable(taken.size, cable.insulation);
    if (cable.body)
        words += ", body return";
    else if (cable.return_size)
        words += ", and " + show_cable(*cable.return_size, cable.insulation) + " back";
    for (const FuseFit& fuse : taken.fuses) words += ", " + show(fuse);
    return taken.fuses.empty() ? words + ", " + no_fuse_words(run, taken) : words;
}

/// Why it gets that.
std::string reasons_of(const RunPlan& run, const Candidate& taken) {
    std::string words = decided_words(run, taken);
    for (const FuseFit& fuse : taken.fuses)
        if (fuse.given || run.choice.given) words += "; fuse " + (fuse.given ? origin_of(fuse) : "chosen");
    if (run.figures) words += "; " + drop_words(run, *run.figures);
    const Candidate* thinner = run.choice.thinner();
    if (thinner && !run.choice.given && run.choice.decided_by && !thinner->fits())
        words += ". " + why_not(*thinner, run.task.run.insulation);
    return words;
}

/// What there is to tell of a run through which nothing flows: what it asks, and what it would have to go through.
std::string asked_words(const RunPlan& run, const Candidate& taken) {
    const Current asked = peak_current(run.choice.design);
    const std::string loop = show(taken.resistance().loop);
    std::string words = asked > Current{} ? show(asked) + " at worst, which cannot come through its " + loop
                                          : "nothing draws through it; its loop has " + loop;
    if (taken.ampacity)
        words += "; the cable may carry " + show(taken.ampacity->current) + " where it runs (" +
                 show(taken.ampacity->around) + ")";
    return words;
}

/// A run and what it gets, side by side where there is room.
std::string run_head(const RunPlan& run, const Style& style, std::size_t column) {
    const std::string label = printable("  " + heading_of(run) + (run.task.assumed ? " (assumed)" : ""), style);
    const std::string bought = bought_words(run);
    const std::string line = padded(label, column) + bold(bought, style);
    if (columns_of(line) <= static_cast<std::size_t>(style.width)) return line + "\n";
    return headline(label, style) + bold(wrap(bought, style, "      ", 6), style);
}

/// What a run of the plan's own is for.
std::string main_fuse_words(const Plan& plan, const RunPlan& run) {
    std::string words = "one main fuse for " + joined(served_by(plan, run)) + "; keep its lead as short as this";
    if (run.to_lay() && !run.taken()->fuses.empty()) {
        const FaultAtFuse& fault = run.taken()->fuses.front().fault;
        words += ". It breaks " + show(fault.breaking_capacity.value) + "; a dead short behind it draws " +
                 show(fault.expected.current);
    }
    return words;
}

std::string run_entry(const Plan& plan, const RunPlan& run, const Style& style, std::size_t column) {
    std::string text = run_head(run, style, column);
    const Candidate* taken = run.taken();
    if (!taken) return text;
    if (run.task.main_fuse) text += paragraph(printable(spelled(main_fuse_words(plan, run), style), style), style, 4);
    text += paragraph(spelled(reasons_of(run, *taken), style), style, 4);
    const std::string words = run.figures ? current_words(run, *taken, *run.figures) : asked_words(run, *taken);
    return text + paragraph(spelled(words, style), style, 4);
}

std::string bank_entry(const BankLinks& bank, const Style& style) {
    return headline("  " + heading_of(bank), style) + bold(wrap(bought_words(bank), style, "      ", 6), style) +
           paragraph(spelled(bank_words(bank), style), style, 4);
}

std::string cables(const Plan& plan, const Style& style) {
    std::size_t column = 0;
    for (const RunPlan& run : plan.runs)
        column = std::max(column, columns_of(printable(heading_of(run), style)) + (run.task.assumed ? 10 : 0) + 5);
    column = std::min(column, static_cast<std::size_t>(style.width) / 2);
    std::string text = heading("Cables and fuses", style);
    for (const RunPlan& run : plan.runs) text += run_entry(plan, run, style, column);
    if (plan.bank) text += bank_entry(*plan.bank, style);
    if (const std::string other = other_class_words(plan); !other.empty())
        text += paragraph(printable(spelled(other, style), style), style, 2);
    return text;
}

}  // namespace

std::string clip_spacing(const Tables& tables) {
    const auto words = [](const SupportSpacingRow& row) {
        std::string text = "every " + fmt::format("{:g}", in_millimetres(row.apart)) + " mm";
        if (row.first_within) text += ", the first within " + show(*row.first_within) + " of the terminal";
        return text;
    };
    return words(*find_support_spacing(tables, "cable")) + ", on battery cables " +
           words(*find_support_spacing(tables, "battery cable"));
}

std::vector<std::string> caution_words() {
    return {
        "Pull every fuse first and put it in last. Take the battery's negative off first and put it on last.",
        "Check the polarity with the meter before the first connection.",
        "A grommet in every hole, nothing that chafes, nothing near hot or moving parts or airbags; clips " +
            clip_spacing() + ".",
        "Lead batteries give off gas when charging: vent them outside. Keep lithium out of the living space, and never "
        "charge it frozen.",
        "No mains work by these pages. Local codes and a licensed person decide.",
    };
}

std::string cautions(const Style& style) {
    std::string text = heading("Before you begin", style);
    for (const std::string& line : caution_words()) text += paragraph(line, style, 2);
    return text;
}

std::string plan_page(const Plan& plan, const Style& style) {
    const std::string verdict = headline(verdict_line(plan), style);
    std::string page = plan.holds() ? bold(verdict, style) : red(verdict, style);
    if (!plan.title.empty()) page += headline(printable(plan.title, style), style);
    const auto stop = std::find_if(plan.findings.begin(), plan.findings.end(),
                                   [](const Finding& f) { return f.level == Level::stop; });
    if (stop != plan.findings.end()) {
        page += "\n" + wrap(printable(spelled(show(*stop), style), style), style, "  ", 2);
        page += wrap(printable(spelled(remedy_in_words(*stop), style), style), style, "  ", 2);
    }
    page += cables(plan, style);
    page += energy_sections(plan, style);
    page += findings_section(plan.findings, Level::stop, "What stops it", style);
    page += findings_section(plan.findings, Level::warn, "Warnings", style);
    page += findings_section(plan.findings, Level::note, "To note", style);
    page += assumed_section(plan.assumptions, style);
    page += heading("Not judged yet", style);
    for (const std::string& what : each_shown(plan.not_judged)) page += wrap(what, style, "  - ", 4);
    return page + cautions(style);
}

}  // namespace voltwright
