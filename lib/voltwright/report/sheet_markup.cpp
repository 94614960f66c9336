#include "voltwright/report/sheet_markup.hpp"

#include "voltwright/report/markup.hpp"

#include <fmt/format.h>

namespace voltwright::sheet {

std::string words(std::string_view text) { return escaped(in_signs(text)); }

std::string paragraph(std::string_view text) { return "<p>" + words(text) + "</p>\n"; }

std::string section(std::string_view id, std::string_view heading, const std::string& body, bool whole) {
    if (body.empty()) return {};
    return fmt::format("<section{3} aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n{2}</section>\n", id,
                       words(heading), body, whole ? " class=\"whole\"" : "");
}

std::string side_by_side(const std::string& one, const std::string& other) {
    return one.empty() || other.empty() ? one + other : "<div class=\"pair\">\n" + one + other + "</div>\n";
}

std::string check(const std::string& safe_words) {
    return "<li><label><input type=\"checkbox\">" + safe_words + "</label></li>\n";
}

std::string list_of(const std::vector<std::string>& lines, std::string_view kind) {
    std::string html;
    for (const std::string& line : lines) html += "<li>" + words(line) + "</li>\n";
    if (html.empty()) return html;
    return (kind.empty() ? "<ul>\n" : "<ul class=\"" + std::string(kind) + "\">\n") + html + "</ul>\n";
}

}  // namespace voltwright::sheet
