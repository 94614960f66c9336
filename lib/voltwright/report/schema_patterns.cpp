#include "voltwright/report/schema_patterns.hpp"

#include "voltwright/units/parse.hpp"

namespace voltwright::pattern {

namespace {

const std::string clock_before_midnight = R"(([01]?[0-9]|2[0-3]):[0-5][0-9])";

const std::string number = R"([+\-−]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+\-]?[0-9]+)?)";

}  // namespace

std::string unit(std::string_view printed) {
    std::string pattern;
    for (const char c : printed) {
        const bool lower = c >= 'a' && c <= 'z', upper = c >= 'A' && c <= 'Z';
        if (lower || upper) {
            const char other = static_cast<char>(lower ? c - 'a' + 'A' : c - 'A' + 'a');
            pattern += {'[', c, other, ']'};
        } else if (std::string_view(".*+?()[]{}|^$\\/").find(c) != std::string_view::npos) {
            pattern += {'\\', c};
        } else if (c == ' ') {
            pattern += R"(\s*)";
        } else {
            pattern += c;
        }
    }
    return pattern;
}

namespace {

std::string units_pattern(Dimension dimension) {
    std::string_view rest = units_of(dimension);
    std::string pattern;
    while (!rest.empty()) {
        const std::size_t comma = rest.find(", ");
        pattern += (pattern.empty() ? "(" : "|") + unit(rest.substr(0, comma));
        rest = comma == std::string_view::npos ? std::string_view{} : rest.substr(comma + 2);
    }
    return pattern + ")";
}

}  // namespace

std::string quantity(Dimension dimension) {
    const std::string units = units_pattern(dimension), spread = R"(\s*(±|\+-|\+/-)\s*)" + number + R"(\s*)";
    return number + R"(\s*()" + units + "(" + spread + "(" + units + "|%)?)?|" + spread + units + ")";
}

std::string whole(const std::string& pattern) { return R"(^\s*()" + pattern + R"()\s*$)"; }

std::string accuracy(Dimension fixed) {
    const std::string part = "(" + quantity(Dimension::ratio) + "|" + quantity(fixed) + ")";
    return R"((±|\+-|\+/-)?\s*)" + part + R"((\s*\+\s*)" + part + ")?";
}

std::string gauge() {
    const std::string awg = R"(([0-9]+(/0)?|0+)\s*([aA][wW][gG]|[bB]\s*&\s*[sS]))";
    const std::string area = R"([0-9.]+\s*([mM][mM](2|²|\^2)|([sS][qQ]\.?|[sS][qQ][uU][aA][rR][eE])\s*[mM][mM]))";
    const std::string outside = R"([0-9.]+\s*[mM][mM]\s+[aA][uU][tT][oO])";
    return awg + "|" + area + "|" + outside;
}

std::string stud() { return R"([Mm][0-9]+(\.[0-9]+)?|[0-9]+/[0-9]+\s*(in|inch)|[0-9]+(\.[0-9]+)?\s*(mm|in|cm))"; }

std::string time_of_day() { return clock_before_midnight + "|24:00"; }

std::string window() { return clock_before_midnight + R"(\s*(-|–|—|to)\s*()" + clock_before_midnight + "|24:00)"; }

std::string days() { return R"([0-9]+(\s*[-–]\s*[0-9]+)?)"; }

}  // namespace voltwright::pattern
