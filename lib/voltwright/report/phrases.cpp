#include "voltwright/report/phrases.hpp"

namespace voltwright {

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) text.append(i == 0 ? "" : between).append(words[i]);
    return text;
}

std::string capitalised(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

}  // namespace voltwright
