#include "voltwright/report/parts_text.hpp"

#include "voltwright/report/part_words.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

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

std::string section(std::string_view heading, const std::vector<std::string>& lines, const Style& style) {
    if (lines.empty()) return {};
    std::string text = "\n" + bold(heading, style) + "\n";
    for (const std::string& line : lines) text += wrap(printable(spelled(line, style), style), style, "  - ", 4);
    return text;
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
    for (const FuseFamilyRow& family : tables.fuse_families)
        if (!family.in_shops.empty() && std::any_of(list.parts.begin(), list.parts.end(),
                                                    [&](const Part& part) { return part.family == family.family; }))
            lines.push_back(std::string(family.family) + " fuses: " + std::string(family.in_shops));
    return lines;
}

std::string parts_page(const PartsList& list, const Style& style) {
    const bool over = list.within_budget() == false || (!list.currency.empty() && !list.total);
    const std::string verdict = headline(printable(spelled(parts_line(list), style), style), style);
    std::string page = over ? red(verdict, style) : bold(verdict, style);
    if (!list.title.empty()) page += headline(printable(list.title, style), style);
    page += "\n" + wrap("Lengths are as laid and " + show(list.allowance) +
                            " more, up to the next tenth of a metre. Fuses are with spares.",
                        style);

    const std::vector<PartWords> words = parts_in_words(list);
    std::size_t amounts = 0, prices = 0, costs = 0;
    for (const PartWords& line : words) {
        amounts = std::max(amounts, line.amount.size());
        prices = std::max(prices, line.price.size());
        costs = std::max(costs, line.cost.size());
    }
    const std::size_t right = costs == 0 ? 0 : prices + costs + 4;
    Style narrow = style;
    narrow.width = std::max(style.width - static_cast<int>(right), 40);
    std::optional<PartKind> kind;
    for (std::size_t i = 0; i < words.size(); ++i) {
        const PartWords& line = words[i];
        if (kind != list.parts[i].kind) {
            kind = list.parts[i].kind;
            page += "\n" + bold(heading_of(*kind), style) + "\n";
        }
        const std::string first = "  " + padded_left(line.amount, amounts) + "  ";
        std::string text = wrap(printable(spelled(line.what + " (" + line.note + ")", style), style), narrow, first,
                                columns_of(first));
        if (right > 0) {
            const std::size_t end = text.find('\n');
            text = padded(text.substr(0, end), static_cast<std::size_t>(narrow.width)) + "  " +
                   padded_left(line.price, prices) + "  " + padded_left(line.cost, costs) + text.substr(end);
        }
        page += text;
    }
    if (list.total && !list.currency.empty())
        page += "\n" + bold(wrap(printable("Together " + money_in_words(*list.total, list) +
                                               (list.unpriced.empty() ? "" : ", and what has no price"),
                                           style),
                                 style),
                            style);

    std::vector<std::string> assumed;
    if (!list.assumed.empty())
        assumed.push_back("The profile does not describe these runs, and their lengths are assumed: " +
                          joined(list.assumed) + ". Measure before you buy.");
    page += section("Assumed", assumed, style);
    page += section("What to ask for in a shop", shop_words(list), style);
    page += section("Look first", in_words(list.to_look), style);
    page += section("There already, not to buy", in_words(list.owned), style);
    return page + section("Not on this list", in_words(list.not_listed), style);
}

}  // namespace voltwright
