#include "voltwright/report/findings_text.hpp"

#include "voltwright/report/words.hpp"

namespace voltwright {

std::string findings_section(const Findings& findings, Level level, std::string_view title, const Style& style) {
    const auto colored = [&](std::string_view text) {
        return level == Level::stop ? red(text, style) : level == Level::warn ? yellow(text, style) : std::string(text);
    };
    std::string text;
    std::size_t number = 0;
    for (const Finding& finding : findings) {
        if (finding.level != level) continue;
        const std::string words = printable(spelled(show(finding) + " " + remedy_in_words(finding), style), style);
        const std::string label = "  " + padded(std::to_string(++number), 3);
        text += wrap(words, style, colored(label), columns_of(label));
    }
    return text.empty() ? text : heading(title, style) + text;
}

std::string assumed_section(const Assumptions& assumptions, const Style& style) {
    if (assumptions.empty()) return {};
    std::string text = heading("Assumed", style);
    for (const Assumption& one : assumptions)
        text += wrap(printable(spelled(show(one), style), style), style, "  - ", 4);
    return text;
}

}  // namespace voltwright
