#include "voltwright/report/sheet_parts.hpp"

#include "voltwright/messages/parts.hpp"
#include "voltwright/report/markup.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/report/sheet_markup.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// The sum, and how it stands to the budget; nothing without prices.
std::string total_words(const PartsList& list) {
    if (!list.total || list.currency.empty()) return {};
    const std::optional<bool> within = list.within_budget();
    if (list.budget && !within) return undecided_cost(list) + ".";
    const std::string total = money_in_words(*list.total, list);
    if (!within) return total;
    const std::string_view stands = *within                 ? ", within the budget of "
                                    : list.unpriced.empty() ? ", over the budget of "
                                                            : ", over the budget already, which is ";
    return total + std::string(stands) + money_in_words(*list.budget, list);
}

std::string row_of(const PartWords& part, bool priced) {
    using sheet::words;
    std::string html =
        "<tr><td><input type=\"checkbox\" aria-label=\"have it: " + words(part.amount + " " + cut(part.what, 80)) +
        "\"></td><td><b>" + words(part.amount) + "</b></td><th scope=\"row\">" + words(part.what);
    if (!part.note.empty()) html += " <span class=\"for\">(" + words(part.note) + ")</span>";
    html += "</th>";
    if (priced) html += "<td class=\"money\">" + words(part.cost) + "</td>";
    return html + "</tr>\n";
}

}  // namespace

SheetParts sheet_parts(const PartsList& list) {
    SheetParts parts{.lines = parts_in_words(list), .allowance = show(list.allowance), .total = total_words(list)};
    const auto add = [&](std::string_view what, const std::vector<std::string>& lines) {
        if (!lines.empty()) parts.more.push_back(std::string(what) + ": " + joined(lines, "; ") + ".");
    };
    add("Assumed, to be measured before buying", list.assumed);
    add("What to ask for in a shop", shop_words(list));
    add("Look first", in_words(list.to_look));
    add("There already, not to buy", in_words(list.owned));
    add("No price", unpriced_in_words(list));
    add("Not on this list", in_words(list.not_listed));
    return parts;
}

namespace sheet {

std::string parts_table(const SheetParts& parts) {
    if (parts.lines.empty()) return {};
    const bool priced =
        std::any_of(parts.lines.begin(), parts.lines.end(), [](const PartWords& part) { return !part.cost.empty(); });
    std::string html = "<table>\n<caption>Tick what you have.";
    if (!parts.allowance.empty()) html += " Every length has " + words(parts.allowance) + " to spare in it.";
    html +=
        "</caption>\n<thead><tr><th scope=\"col\" class=\"w1\">Have</th><th scope=\"col\" class=\"wf\">How "
        "much</th><th scope=\"col\">What, and what for</th>";
    if (priced) html += "<th scope=\"col\" class=\"wf money\">Cost</th>";
    html += "</tr></thead>\n<tbody>\n";
    for (const PartWords& part : parts.lines) html += row_of(part, priced);
    html += "</tbody>\n</table>\n";
    if (!parts.total.empty()) html += "<p><b>In all:</b> " + words(parts.total) + "</p>\n";
    for (const std::string& line : parts.more) html += paragraph(line);
    return html;
}

}  // namespace sheet

}  // namespace voltwright
