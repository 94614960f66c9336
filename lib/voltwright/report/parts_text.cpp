#include "voltwright/report/parts_text.hpp"

#include "voltwright/planning/prices.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

namespace {

/// To the tenth of a metre, always in metres.
std::string metres_of(Length length) { return fmt::format("{:.1f}", in_metres(length)); }

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

std::string note_of(const Part& part) {
    std::string note;
    if (part.spare > 0) note = part.spare == 1 ? "1 of them spare; " : fmt::format("{} of them spare; ", part.spare);
    if (part.kind == PartKind::plug) note += "two halves mate; ";
    note += joined(part.runs);
    if (part.mass) note += "; about " + show(*part.mass);
    if (!part.sold.empty()) note += "; " + part.sold;
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

std::string_view heading_of(PartKind kind) {
    switch (kind) {
        case PartKind::cable: return "Cable";
        case PartKind::lug: return "Lugs";
        case PartKind::battery_clamp: return "Battery clamps";
        case PartKind::plug: return "Plugs, by the half";
        case PartKind::part: return "Other parts";
        case PartKind::fuse: return "Fuses";
        case PartKind::fuse_holder: return "Fuse holders";
        case PartKind::fuse_block: return "Fuse blocks";
        case PartKind::conduit: return "Tube";
        case PartKind::grommet: return "Grommets";
        case PartKind::heat_shrink: return "Heat-shrink";
        case PartKind::clip: return "Clips";
        case PartKind::label: return "Labels";
    }
    return {};
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
    page += section("Look first", list.to_look, style);
    page += section("There already, not to buy", list.owned, style);
    return page + section("Not on this list", list.not_listed, style);
}

std::string csv_cell(std::string_view text) {
    std::string cell = printable(text, Style{});
    std::replace(cell.begin(), cell.end(), '\t', ' ');
    const std::size_t first = cell.find_first_not_of(' ');
    if (first != std::string::npos && std::string_view("=+-@").find(cell[first]) != std::string_view::npos)
        cell.insert(0, "'");
    // The wide twins of these signs are taken for them by some.
    for (const std::string_view wide : {"\uFF1D", "\uFF0B", "\uFF0D", "\uFF20"})
        if (first != std::string::npos && std::string_view(cell).substr(first).starts_with(wide)) cell.insert(0, "'");
    if (cell.find_first_of(",;\"\r\n'") == std::string::npos) return cell;
    std::string quoted = "\"";
    for (const char c : cell) quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

std::string parts_csv(const PartsList& list) {
    std::string text =
        "kind,what,size,insulation_C,colour,rating_A,at_least_A,stud,bore_mm,length_m,count,spare,mass_kg,price,sold,"
        "cost,"
        "currency,for\n";
    for (const Part& part : list.parts) {
        const auto number = [](auto quantity, auto reader, int digits) {
            return quantity ? fmt::format("{:.{}f}", reader(*quantity), digits) : std::string();
        };
        const auto money = [&](const std::optional<Money>& amount) {
            return amount ? show(*amount, list.decimals) : std::string();
        };
        text += csv_cell(show(part.kind)) + "," + csv_cell(part.what) + "," +
                csv_cell(part.size ? show(*part.size) : "") + "," + number(part.insulation, &in_celsius, 0) + "," +
                csv_cell(part.colour) + "," + (part.rating ? fmt::format("{:g}", in_amperes(*part.rating)) : "") + "," +
                (part.at_least ? fmt::format("{:g}", in_amperes(*part.at_least)) : "") + "," + csv_cell(part.stud) +
                "," + number(part.bore, &in_millimetres, 1) + "," + number(part.length, &in_metres, 1) + "," +
                (part.length ? "" : std::to_string(part.count)) + "," + std::to_string(part.spare) + "," +
                number(part.mass, &in_kilograms, 3) + "," + money(part.price) + "," + csv_cell(part.sold) + "," +
                money(part.cost) + "," + csv_cell(list.currency) + "," + csv_cell(joined(part.runs)) + "\n";
    }
    return text;
}

}  // namespace voltwright
