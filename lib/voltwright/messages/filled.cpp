#include "voltwright/messages/filled.hpp"

#include <stdexcept>

namespace voltwright {

namespace {

/// Whether a name in braces begins there: what a profile writes, `{ starter = "50 A" }`, has a space behind its brace.
bool begins_name(std::string_view text, std::size_t at) {
    return text[at] == '{' && at + 1 < text.size() && text[at + 1] >= 'a' && text[at + 1] <= 'z';
}

/// Whether the text ends in the article and a space.
bool ends_in_article(std::string_view text) { return text == "A " || text.ends_with(" a ") || text.ends_with(". A "); }

/// Without optional parts; empty where a name has no words.
std::optional<std::string> filled_through(std::string_view text, const WordsOf& words_of) {
    std::string full;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (!begins_name(text, at)) {
            full += text[at];
            continue;
        }
        const std::size_t end = text.find('}', at);
        const auto words = words_of(text.substr(at + 1, end - at - 1));
        if (!words) return {};
        if (ends_in_article(full) && wants_an(*words)) full.insert(full.size() - 1, "n");
        full += *words;
        at = end;
    }
    return full;
}

}  // namespace

bool wants_an(std::string_view words) {
    const std::string_view number = words.substr(0, words.find_first_not_of("0123456789"));
    return number.starts_with('8') || number == "11" || number == "18";
}

std::string filled(std::string_view sentence, const WordsOf& words_of) {
    std::string full;
    while (!sentence.empty()) {
        const std::size_t opens = sentence.find('<');
        const auto words = filled_through(sentence.substr(0, opens), words_of);
        if (!words) throw std::logic_error("a finding lacks what its sentence needs: " + std::string(sentence));
        full += *words;
        if (opens == std::string_view::npos) break;
        const std::size_t closes = sentence.find('>', opens);
        full += filled_through(sentence.substr(opens + 1, closes - opens - 1), words_of).value_or("");
        sentence.remove_prefix(closes + 1);
    }
    return full;
}

}  // namespace voltwright
