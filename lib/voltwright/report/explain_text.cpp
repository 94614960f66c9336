#include "voltwright/report/explain_text.hpp"

#include "voltwright/units/show.hpp"

#include <algorithm>

namespace voltwright {

namespace {

std::string shown(const Explanation& node) {
    struct {
        std::string operator()(std::monostate) const { return {}; }
        std::string operator()(const Measure& measure) const { return show(measure); }
        std::string operator()(const std::string& text) const { return text; }
        std::string operator()(int number) const { return std::to_string(number); }
        std::string operator()(bool truth) const { return truth ? "yes" : "no"; }
    } as_text;
    return std::visit(as_text, node.value);
}

bool is_nothing(const Explanation& node) {
    const auto* text = std::get_if<std::string>(&node.value);
    const bool empty = std::holds_alternative<std::monostate>(node.value) || (text && text->empty());
    return empty && node.parts.empty();
}

/// "data/conductors/awg.toml:23, NEC chapter 9 table 8; read in a reprint"
std::string cited(const Source& source) {
    std::string text;
    if (!source.table.empty())
        text = "data/" + std::string(source.table) + ".toml" + (source.line ? ":" + std::to_string(source.line) : "") +
               ", ";
    text += source.cite;
    if (source.id != "profile") text += "; " + std::string(show(source.standing));
    if (!source.note.empty()) text += "; " + std::string(source.note);
    return text;
}

/// One value and, indented below it, all that it was made from.
void write(const Explanation& node, const Style& style, std::size_t indent, std::string& page) {
    if (is_nothing(node)) return;
    const std::string margin(indent, ' ');
    const std::string value = shown(node);
    std::string head(node.words);
    if (!node.symbol.empty()) head += (head.empty() ? "" : ", ") + std::string(node.symbol);
    if (!value.empty()) head += (head.empty() ? "" : ": ") + value;
    page += wrap(printable(spelled(head, style), style), style, margin, indent + 2);
    if (!node.equation.form.empty())
        page += dim(wrap(spelled(node.equation.form, style), style, margin + "  ", indent + 4), style);
    if (!node.equation.source.empty())
        page += dim(wrap(spelled(node.equation.source, style), style, margin + "  by ", indent + 4), style);
    if (node.source)
        page += dim(wrap(printable(spelled(cited(*node.source), style), style), style, margin + "  from ", indent + 4),
                    style);
    for (const Explanation& part : node.parts) {
        // The result stands at the head already.
        const bool is_result = !node.parts.empty() && part.value == node.value && part.parts.empty() && !part.source &&
                               !std::holds_alternative<std::monostate>(node.value) && &part == &node.parts.back();
        if (!is_result) write(part, style, indent + 4, page);
    }
}

}  // namespace

std::string explanation_page(const Explanation& explanation, const Style& style) {
    std::string page;
    write(explanation, style, 0, page);
    return page;
}

std::string topics_page(const Plan& plan, const Style& style) {
    const std::vector<Topic> list = topics(plan);
    std::size_t widest = 0;
    for (const Topic& topic : list) widest = std::max(widest, columns_of(topic.name));
    std::string page = bold("What can be explained", style) + "\n";
    for (const Topic& topic : list)
        page += wrap(topic.words, style, "  " + padded(printable(topic.name, style), widest) + "   ", widest + 5);
    return page;
}

}  // namespace voltwright
