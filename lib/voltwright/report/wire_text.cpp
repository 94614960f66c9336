#include "voltwright/report/wire_text.hpp"

#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace voltwright {

namespace {

using Row = std::array<std::string, 6>;

Row row_of(const Candidate& candidate, bool taken) {
    std::string fails;
    for (const Criterion criterion : candidate.fails)
        fails += (fails.empty() ? "" : ", ") + std::string(show(criterion));
    std::string fuse;
    for (const FuseFit& fit : candidate.fuses)
        fuse += (fuse.empty() ? "" : " + ") + show(fit.rating) + " " + fit.family;
    const std::string verdict =
        candidate.fits() ? (taken ? "taken" : "passes") : (taken ? "taken, fails " : "fails ") + fails;
    return {show(candidate.size),
            candidate.drop ? show(candidate.drop->drop) : "-",
            candidate.drop ? show(candidate.drop->heat) : "-",
            candidate.ampacity ? show(candidate.ampacity->current) : "-",
            fuse.empty() ? "-" : fuse,
            verdict};
}

std::string ladder(const RunPlan& run, const Style& style) {
    std::vector<Row> rows = {{"size", "lost", "heat", "may carry", "fuse", ""}};
    for (const Candidate& candidate : run.choice.ladder) rows.push_back(row_of(candidate, &candidate == run.taken()));
    std::array<std::size_t, 6> widths{};
    for (const Row& row : rows)
        for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], row[i].size());
    std::string text;
    for (const Row& row : rows) {
        std::string line = "  ";
        for (std::size_t i = 0; i + 1 < row.size(); ++i)
            line += (i == 0 || i == 4 ? padded(row[i], widths[i]) : padded_left(row[i], widths[i])) + "  ";
        const std::string tail = row.back();
        text += wrap(tail, style, &row == &rows.front() ? dim(line, style) : line, columns_of(line));
    }
    return text;
}

/// What a chart on a shop's wall may have assumed otherwise.
std::string assumptions(const RunPlan& run, const Style& style) {
    const Candidate* shown = run.taken()                 ? run.taken()
                             : run.choice.ladder.empty() ? nullptr
                                                         : &run.choice.ladder.back();
    if (!shown || !shown->drop || !shown->ampacity) return {};
    const DropCheck& drop = *shown->drop;
    const bool body = run.task.run.body.has_value();
    const Length length = run.task.run.length;
    std::string text = "Why charts differ: here the way is counted ";
    text += body ? show(length) + " out and the body back"
                 : show(length) + " out and as much back, " + show(2.0 * length) + " of cable";
    text += "; " + show(drop.limit) + " of 12 V may be lost, " + show(drop.allowed) + ", at " + show(drop.current) +
            "; the copper is at " + show(drop.resistance.out.temperature) + ", not 20 degC; joints and fuse lose " +
            show(drop.joint_drop) + " of it; the insulation is rated for " +
            show(static_cast<Temperature>(run.task.run.insulation)) + " and the cable passes " +
            show(shown->ampacity->around) +
            ". A chart that counts one way only, allows another drop, or knows another insulation says another size.";
    return wrap(text, style, "  ", 2);
}

}  // namespace

std::string wire_page(const Plan& plan, std::string_view name, const Style& style) {
    std::string page;
    for (const RunPlan& run : plan.runs) {
        if (!name.empty() && *run.task.run.name != name) continue;
        if (!page.empty()) page += "\n";
        page += bold(printable(heading_of(run), style), style) + (run.task.assumed ? " (assumed)" : "") + "\n";
        if (!run.sized()) {
            page += "  not sized yet\n";
            continue;
        }
        const std::string allowed = show(*run.task.supply.drop_limit * nominal_voltage);
        page += wrap("design current " + show(run.choice.design.current) +
                         (run.way ? "; the whole way from the source may lose " + allowed +
                                        ", so the sizes on it were chosen together, for the least copper"
                                  : ", allowed to lose " + allowed),
                     style, "  ", 2);
        page += ladder(run, style) + assumptions(run, style);
    }
    return page;
}

}  // namespace voltwright
