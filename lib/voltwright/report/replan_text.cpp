#include "voltwright/report/replan_text.hpp"

#include "voltwright/messages/plan.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <array>

namespace voltwright {

namespace {

std::string words_of(const Changed::Value& value) {
    struct {
        std::string operator()(std::monostate) const { return "-"; }
        std::string operator()(const std::string& word) const { return word.empty() ? "-" : word; }
        std::string operator()(const Measure& measure) const { return show(measure); }
    } of;
    return std::visit(of, value);
}

std::string list(std::string_view heading, const Findings& findings, const Style& style) {
    if (findings.empty()) return {};
    std::string text = "\n" + bold(heading, style) + "\n";
    for (const Finding& finding : findings)
        text += wrap(printable(spelled(show(finding), style), style), style,
                     "  " + padded(std::string(show(finding.level)), 6), 8);
    return text;
}

}  // namespace

std::string replan_line(const Replan& replan) {
    const bool before = replan.before.holds(), after = replan.after.holds();
    if (before == after) return after ? "THE PLAN HOLDS, as before." : "THE PLAN DOES NOT HOLD, as before.";
    return after ? "THE PLAN NOW HOLDS." : "THE PLAN NO LONGER HOLDS.";
}

std::string replan_page(const Replan& replan, const Style& style) {
    const std::string verdict = replan_line(replan);
    std::string page = (replan.after.holds() ? bold(verdict, style) : red(verdict, style)) + "\n";
    if (replan.turned) {
        const bool holds = replan.after.holds();
        page += "\n" +
                wrap(printable(spelled((holds ? "Gone: " : "") + show(*replan.turned), style), style), style, "  ", 2);
        if (!holds) page += wrap(printable(spelled(remedy_in_words(*replan.turned), style), style), style, "  ", 2);
    }
    if (replan.changed.empty()) {
        page += "\nNothing changes that a plan shows.\n";
    } else {
        std::vector<std::array<std::string, 3>> rows;
        std::size_t widths[2] = {0, 6};
        for (const Changed& difference : replan.changed) {
            rows.push_back({printable(difference.about + ": " + std::string(show(difference.what)), style),
                            printable(spelled(words_of(difference.before), style), style),
                            printable(spelled(words_of(difference.after), style), style)});
            for (std::size_t i = 0; i < 2; ++i) widths[i] = std::max(widths[i], columns_of(rows.back()[i]));
        }
        page += "\n" + bold("What changes", style) + "\n";
        page += "  " + padded("", widths[0]) + "   " + padded("before", widths[1]) + "   after\n";
        for (const auto& row : rows)
            page += "  " + padded(row[0], widths[0]) + "   " + padded(row[1], widths[1]) + "   " + row[2] + "\n";
    }
    page += list("New", replan.come, style);
    page += list("No longer", replan.gone, style);
    return page;
}

}  // namespace voltwright
