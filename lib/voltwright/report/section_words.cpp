#include "voltwright/report/section_words.hpp"

namespace voltwright {

std::string default_words(const Key& key) {
    const auto* rule = std::get_if<ByRule>(&key.fallback);
    if (!rule || rule->words.empty()) return "default";
    return (rule->words.substr(0, 3) == "by " ? "default, " : "default: ") + std::string(rule->words);
}

std::string comment(const std::string& words) {
    Style narrower = profile_page;
    narrower.width -= 2;
    const std::string lines = wrap(words, narrower);
    std::string result;
    for (std::size_t at = 0; at < lines.size();) {
        const std::size_t end = lines.find('\n', at);
        result += "# " + lines.substr(at, end - at) + "\n";
        at = end + 1;
    }
    return result;
}

}  // namespace voltwright
