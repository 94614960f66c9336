#include "voltwright/report/parts_text.hpp"

#include "voltwright/messages/parts.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/shopping/articles.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace voltwright {

namespace {

/// To the tenth of a metre, always in metres.
std::string metres_of(Length length) { return fmt::format("{:.1f}", in_metres(length)); }

std::string note_of(const Part& part) {
    std::string note;
    if (part.spare > 0) note = part.spare == 1 ? "1 of them spare; " : fmt::format("{} of them spare; ", part.spare);
    if (part.kind == PartKind::plug) note += "two halves mate; ";
    note += joined(part.runs);
    if (part.mass) note += "; about " + show(*part.mass);
    if (const std::string sold = sold_in_words(part); !sold.empty()) note += "; " + sold;
    return note;
}

std::string section(std::string_view title, const std::vector<std::string>& lines, const Style& style) {
    if (lines.empty()) return {};
    std::string text = heading(title, style);
    for (const std::string& line : lines) text += wrap(printable(spelled(line, style), style), style, "  - ", 4);
    return text;
}

/// How wide the columns of a list are.
struct PartColumns {
    std::size_t amount = 0, price = 0, cost = 0;

    explicit PartColumns(const std::vector<PartWords>& words) {
        for (const PartWords& line : words) {
            amount = std::max(amount, line.amount.size());
            price = std::max(price, line.price.size());
            cost = std::max(cost, line.cost.size());
        }
    }
    /// All that stands at the right; nothing without prices.
    [[nodiscard]] std::size_t right() const { return cost == 0 ? 0 : price + cost + 4; }
};

std::string line_of(const PartWords& part, const PartColumns& columns, const Style& style) {
    Style narrow = style;
    narrow.width = std::max(style.width - static_cast<int>(columns.right()), 40);
    const std::string first = "  " + padded_left(part.amount, columns.amount) + "  ";
    const std::string text =
        wrap(printable(spelled(part.what + " (" + part.note + ")", style), style), narrow, first, columns_of(first));
    if (columns.right() == 0) return text;
    const std::size_t end = text.find('\n');
    return padded(text.substr(0, end), static_cast<std::size_t>(narrow.width)) + "  " +
           padded_left(part.price, columns.price) + "  " + padded_left(part.cost, columns.cost) + text.substr(end);
}

/// The lines under the headings of their kinds.
std::string lines_of(const PartsList& list, const Style& style) {
    const std::vector<PartWords> words = parts_in_words(list);
    const PartColumns columns(words);
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const PartKind kind = list.parts[i].kind;
        if (i == 0 || kind != list.parts[i - 1].kind) text += heading(heading_of(kind), style);
        text += line_of(words[i], columns, style);
    }
    return text;
}

std::vector<std::string> assumed_words(const PartsList& list) {
    if (list.assumed.empty()) return {};
    return {"The profile does not describe these runs, and their lengths are assumed: " + joined(list.assumed) +
            ". Measure before you buy."};
}

}  // namespace

std::string money_in_words(Money amount, const PartsList& list) {
    return show(amount, list.decimals) + " " + list.currency;
}

std::vector<PartWords> parts_in_words(const PartsList& list) {
    std::vector<PartWords> words;
    words.reserve(list.parts.size());
    const bool priced = !list.currency.empty();
    for (const Part& part : list.parts) {
        PartWords line{part.length ? metres_of(*part.length) + " m" : std::to_string(part.count),
                       in_words(part),
                       note_of(part),
                       {},
                       {}};
        if (part.price) line.price = show(*part.price, list.decimals);
        if (priced) line.cost = part.cost ? show(*part.cost, list.decimals) : part.price ? "too much" : "no price";
        words.push_back(std::move(line));
    }
    return words;
}

std::string undecided_cost(const PartsList& list) {
    const bool cable = std::any_of(list.parts.begin(), list.parts.end(),
                                   [](const Part& part) { return part.kind == PartKind::cable && !part.price; });
    return money_in_words(*list.total, list) + " so far; " +
           counted(list.unpriced.size(), "thing without a price", "things without a price") +
           (cable ? ", among them the cable" : "") + ": the budget of " + money_in_words(*list.budget, list) +
           " cannot be judged";
}

std::string parts_line(const PartsList& list) {
    const std::string lines = counted(list.parts.size(), "THING TO BUY", "THINGS TO BUY");
    if (list.currency.empty()) return lines + ".  Without a price list nothing is said of what they cost.";
    if (!list.total) return lines + ".  What they cost is more than can be counted.";
    const std::optional<bool> within = list.within_budget();
    if (list.budget && !within) return lines + ".  " + undecided_cost(list) + ".";
    std::string text = lines + " FOR " + money_in_words(*list.total, list);
    if (within) {
        const std::int64_t left = list.budget->ten_thousandths - list.total->ten_thousandths;
        text += *within                 ? ", WITHIN THE BUDGET OF "
                : list.unpriced.empty() ? ", ABOVE THE BUDGET OF "
                                        : ", ABOVE THE BUDGET ALREADY, WHICH IS ";
        text += money_in_words(*list.budget, list) + ": ";
        text += *within ? money_in_words({left}, list) + " are left." : money_in_words({-left}, list) + " too much.";
    } else {
        text += ".";
    }
    if (!list.unpriced.empty())
        text += "  " + counted(list.unpriced.size(), "thing has no price and comes", "things have no price and come") +
                " on top.";
    return text;
}

std::vector<std::string> shop_words(const PartsList& list, const Tables& tables) {
    std::vector<std::string> lines;
    std::set<double> classes;
    bool sun_cable = false;
    for (const Part& part : list.parts) {
        if (!part.insulation) continue;
        if (part.what == article::sun_cable)
            sun_cable = true;
        else
            classes.insert(in_celsius(*part.insulation));
    }
    for (const double each : classes) {
        const std::vector<std::string> marks = marks_in_words(celsius(each), tables);
        lines.insert(lines.end(), marks.begin(), marks.end());
    }
    if (sun_cable) lines.emplace_back(sun_cable_marks);
    for (const FuseFamilyRow& family : tables.fuse_families)
        if (!family.in_shops.empty() && std::any_of(list.parts.begin(), list.parts.end(),
                                                    [&](const Part& part) { return part.family == family.family; }))
            lines.push_back(std::string(family.family) + " fuses: " + std::string(family.in_shops));
    return lines;
}

std::string parts_page(const PartsList& list, const Style& style) {
    const bool priced = !list.currency.empty();
    const bool over = list.within_budget() == false || (priced && !list.total);
    const std::string verdict = headline(printable(spelled(parts_line(list), style), style), style);
    std::string page = over ? red(verdict, style) : bold(verdict, style);
    if (!list.title.empty()) page += headline(printable(list.title, style), style);
    page += "\n" + wrap("Lengths are as laid and " + show(list.allowance) +
                            " more, up to the next tenth of a metre. Fuses are with spares.",
                        style);
    page += lines_of(list, style);
    if (list.total && priced) {
        const std::string total =
            "Together " + money_in_words(*list.total, list) + (list.unpriced.empty() ? "" : ", and what has no price");
        page += "\n" + bold(wrap(printable(total, style), style), style);
    }
    page += section("Assumed", assumed_words(list), style);
    page += section("What to ask for in a shop", shop_words(list), style);
    page += section("Look first", in_words(list.to_look), style);
    page += section("There already, not to buy", in_words(list.owned), style);
    return page + section("Not on this list", in_words(list.not_listed), style);
}

}  // namespace voltwright
