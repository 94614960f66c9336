#include "voltwright/report/wire_text.hpp"

#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

using LadderRow = std::vector<std::string>;

std::string fuses_of(const Candidate& candidate) {
    std::string words;
    for (const FuseFit& fit : candidate.fuses)
        words += (words.empty() ? "" : " + ") + show(fit.rating) + " " + fit.family;
    if (!words.empty()) return words;
    return candidate.windows.empty() ? "-" : "none fits";
}

std::string size_verdict(const RunPlan& run, std::size_t index) {
    const Candidate& candidate = run.choice.ladder[index];
    const bool taken = run.choice.taken == index;
    if (candidate.fits()) return taken ? "taken" : "passes";
    const std::string fails = "fails " + failings(candidate);
    if (!taken) return fails;
    return (run.choice.nothing_fits() ? "nearest, " : "taken, ") + fails;
}

/// Volts lost and heat. What was taken has the figures of the whole network, any other size those of this run by itself;
/// without an ampacity nothing is known of how warm it gets.
std::pair<std::string, std::string> lost_and_heat(const RunPlan& run, std::size_t index) {
    const Candidate& candidate = run.choice.ladder[index];
    if (candidate.ampacity && run.choice.taken == index && run.figures)
        return {show(run.figures->drop), show(run.figures->heat)};
    if (candidate.ampacity && candidate.drop) return {show(candidate.drop->drop), show(candidate.drop->heat)};
    return {"-", "-"};
}

/// With what it costs where there are prices.
LadderRow ladder_row(const RunPlan& run, std::size_t index, int decimals) {
    const Candidate& candidate = run.choice.ladder[index];
    const auto [lost, heat] = lost_and_heat(run, index);
    LadderRow row = {show(candidate.size), lost, heat, candidate.ampacity ? show(candidate.ampacity->current) : "-",
                     fuses_of(candidate)};
    if (!run.costs.empty()) row.push_back(run.costs[index] ? show(*run.costs[index], decimals) : "-");
    row.push_back(size_verdict(run, index));
    return row;
}

std::string ladder(const RunPlan& run, const Plan& plan, const Style& style) {
    const std::string insulation = show(static_cast<Temperature>(run.task.run.insulation));
    std::vector<LadderRow> rows = {{"size, " + insulation, "lost", "heat", "may carry", "fuse"}};
    if (!run.costs.empty()) rows.front().push_back(printable(plan.currency, style));
    rows.front().emplace_back();
    for (std::size_t i = 0; i < run.choice.ladder.size(); ++i) rows.push_back(ladder_row(run, i, plan.decimals));
    std::vector<std::size_t> widths(rows.front().size());
    for (const LadderRow& row : rows)
        for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns_of(row[i]));
    std::string text;
    for (const LadderRow& row : rows) {
        std::string line = "  ";
        for (std::size_t i = 0; i + 1 < row.size(); ++i)
            line += (i == 0 || i == 4 ? padded(row[i], widths[i]) : padded_left(row[i], widths[i])) + "  ";
        const std::string tail = row.back();
        text += wrap(tail, style, &row == &rows.front() ? dim(line, style) : line, columns_of(line));
    }
    return text;
}

/// How the price list decided.
std::string money_words(const RunPlan& run, const Style& style) {
    if (run.costs.empty() || !run.to_lay()) return {};
    std::string words;
    if (!run.for_money)
        words = "The list does not price what would do here size by size: taken for the least copper.";
    else if (run.choice.decided_by == Criterion::price)
        words = "Money decided: no thinner size that passes costs less than " +
                show_cable(run.taken()->size, run.task.run.insulation) + ".";
    return words.empty() ? words : wrap(words, style, "  ", 2);
}

/// What a chart on a shop's wall may have assumed otherwise.
std::string assumptions(const RunPlan& run, const Style& style) {
    const Candidate* shown = run.taken();
    if (!shown || !run.figures || !shown->ampacity) return {};
    const NetworkFigures& drop = *run.figures;
    const Ratio limit = *run.task.supply.drop_limit;
    const bool body = run.task.run.body.has_value();
    const Length length = run.task.run.length;
    std::string text = "Why charts differ: here the way is counted ";
    text += body ? show(length) + " out and the body back"
                 : show(length) + " out and as much back, " + show(2.0 * length) + " of cable";
    text += "; " + show(limit) + " of 12 V may be lost, " + show(limit * nominal_voltage) + ", at " +
            show(drop.current) + "; the copper is at " + show(drop.resistance.out.temperature) +
            ", not 20 degC; joints and fuse lose " + show(drop.joint_drop) + " of it; the insulation is rated for " +
            show(static_cast<Temperature>(run.task.run.insulation)) + " and the cable passes " +
            show(shown->ampacity->around) +
            ". A chart that counts one way only, allows another drop, or knows another insulation says another size.";
    return wrap(text, style, "  ", 2);
}

/// Of what runs for a short time both currents.
std::string design_words(const DesignCurrent& design) {
    const std::string lasting = show(design.current);
    if (!design.short_time) return lasting;
    return lasting + " for long, " + show(design.short_time->current) + " for " + show(design.short_time->on) +
           " every " + show(design.short_time->cycle);
}

}  // namespace

std::string wire_page(const Plan& plan, std::string_view name, const Style& style) {
    std::string page;
    for (const RunPlan& run : plan.runs) {
        if (!name.empty() && *run.task.run.name != name) continue;
        if (!page.empty()) page += "\n";
        page += bold(printable(heading_of(run), style), style) + (run.task.assumed ? " (assumed)" : "") + "\n";
        const std::string allowed = show(*run.task.supply.drop_limit * nominal_voltage);
        page += wrap("design current " + design_words(run.choice.design) +
                         (run.way ? "; the whole way from the source may lose " + allowed +
                                        ", so the sizes on it were chosen together, for the least " +
                                        (run.for_money ? "money" : "copper")
                                  : ", allowed to lose " + allowed),
                     style, "  ", 2);
        page += ladder(run, plan, style) + money_words(run, style) + assumptions(run, style);
    }
    if (!plan.currency.empty())
        page +=
            "\n" + wrap(
                       "Costs are those of the cable as laid, out and back, and of its ring lugs where the list "
                       "prices them; the allowance, the rest of a roll, tube, heat-shrink and fuses are left aside.",
                       style, "", 0);
    return page;
}

}  // namespace voltwright
