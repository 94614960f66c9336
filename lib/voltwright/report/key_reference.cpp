#include "voltwright/report/key_reference.hpp"

#include "voltwright/profile/section.hpp"
#include "voltwright/report/section_words.hpp"
#include "voltwright/report/terminal.hpp"

namespace voltwright {

namespace {

struct Line {
    std::string name, fallback, ranges, sentence;
};

std::string fallback_of(const Key& key) {
    struct Words {
        const Key& key;
        std::string operator()(const Required&) const { return "needed"; }
        std::string operator()(const Absent& absent) const { return "none: " + std::string(absent.words); }
        std::string operator()(const Usual&) const { return usual_value(key); }
        std::string operator()(const ByRule& rule) const { return std::string(rule.words); }
    };
    return std::visit(Words{key}, key.fallback);
}

/// The rows of a section that is a value of its own, wherever in the shape it stands.
std::span<const Key> keys_within(const Shape& shape) {
    if (shape.kind == Shape::Kind::section) return shape.keys;
    for (const Shape& part : shape.parts)
        if (const auto keys = keys_within(part); !keys.empty()) return keys;
    return {};
}

void add_lines(std::vector<Line>& lines, std::span<const Key> keys, const std::string& before) {
    for (const Key& key : keys) {
        const std::string name = before + std::string(key.name);
        lines.push_back({name, fallback_of(key), show_ranges(key), std::string(key.sentence)});
        add_lines(lines, keys_within(key.shape()), name + ".");
    }
}

/// A bar would end the cell.
std::string cell(std::string_view text) {
    std::string result;
    for (const char c : text) result += c == '|' ? std::string("\\|") : std::string(1, c);
    return result;
}

std::string as_markdown(const SectionRow& section, const std::vector<Line>& lines) {
    const std::string header = section.name.empty() ? "Top of the file" : "`" + header_of(section) + "`";
    std::string text = "### " + header + "\n\n" + cell(section.sentence) +
                       "\n\n| key | default | range | means |\n| --- | --- | --- | --- |\n";
    for (const Line& line : lines)
        text += "| `" + line.name + "` | " + cell(line.fallback) + " | " + cell(line.ranges) + " | " +
                cell(line.sentence) + " |\n";
    return text;
}

std::string as_text(const SectionRow& section, const std::vector<Line>& lines) {
    std::size_t longest = 0;
    for (const Line& line : lines) longest = std::max(longest, line.name.size());
    std::string text =
        wrap((section.name.empty() ? "top" : header_of(section)) + "  " + std::string(section.sentence), profile_page);
    for (const Line& line : lines) {
        const std::string first = "  " + padded(line.name, longest) + "  ";
        text += wrap(line.sentence, profile_page, first, first.size());
        const std::string more = line.fallback + (line.ranges.empty() ? "" : "; " + line.ranges);
        text += wrap("[" + more + "]", profile_page, std::string(first.size(), ' '), first.size());
    }
    return text;
}

}  // namespace

std::string key_reference(bool markdown) {
    std::string text;
    for (const SectionRow& section : sections()) {
        std::vector<Line> lines;
        add_lines(lines, section.keys, {});
        text += (text.empty() ? "" : "\n") + (markdown ? as_markdown(section, lines) : as_text(section, lines));
    }
    return text;
}

}  // namespace voltwright
