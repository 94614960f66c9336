#include "voltwright/files/preflight.hpp"

#include "voltwright/units/characters.hpp"
#include "voltwright/units/scan.hpp"

#include <algorithm>

namespace voltwright {

namespace {

constexpr int deepest = 32;

constexpr bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
constexpr bool is_beyond_ascii(char c) { return static_cast<unsigned char>(c) >= 0x80; }
constexpr bool is_bare(char c) { return is_digit(c) || is_letter(c) || c == '_' || c == '-'; }

bool is_all_of(std::string_view text, std::string_view allowed) {
    return text.find_first_not_of(allowed) == std::string_view::npos;
}

bool has_form(std::string_view text, std::string_view form) {
    if (text.size() < form.size()) return false;
    for (std::size_t i = 0; i < form.size(); ++i)
        if (form[i] == 'd' ? !is_digit(text[i]) : text[i] != form[i]) return false;
    return true;
}

/// What the TOML reader takes for a number, a date, a time or a truth, or refuses with good words of its own.
bool is_left_to_the_reader(std::string_view value) {
    if (value == "true" || value == "false") return true;
    if (has_form(value, "dddd-")) return is_all_of(value, "0123456789-:. TtZz+");
    if (has_form(value, "dd:dd:dd")) return is_all_of(value, "0123456789:.");
    if (value.front() == '+' || value.front() == '-') value.remove_prefix(1);
    if (value == "inf" || value == "nan") return true;
    if (value.size() > 1 && value[0] == '0' && (value[1] == 'x' || value[1] == 'o' || value[1] == 'b'))
        return is_all_of(value.substr(2), "0123456789abcdefABCDEF_");
    const std::size_t exponent = value.find_first_of("eE");
    if (exponent != std::string_view::npos) {
        std::string_view digits = value.substr(exponent + 1);
        if (!digits.empty() && (digits.front() == '+' || digits.front() == '-')) digits.remove_prefix(1);
        if (digits.empty() || !is_all_of(digits, "0123456789_")) return false;
        value = value.substr(0, exponent);
    }
    return !value.empty() && is_all_of(value, "0123456789_.");
}

std::string as_text(std::string_view value) {
    std::string result = "\"";
    for (const char c : value)
        if (c != '"' && c != '\\') result += c;
    return result + '"';
}

/// "08:30-10:00, 17:00-18:00" becomes a list of two; what has no comma with a blank behind it becomes one text.
std::string as_it_should_be(std::string_view value) {
    if (value.find(", ") == std::string_view::npos) return as_text(value);
    std::string result = "[";
    for (;;) {
        const std::size_t comma = value.find(", ");
        result += as_text(value.substr(0, comma));
        if (comma == std::string_view::npos) return result + "]";
        result += ", ";
        value.remove_prefix(comma + 2);
    }
}

/// A place in the text: what stands there, what may be passed over, and what is reported of it.
class Cursor {
protected:
    explicit Cursor(std::string_view text) : text_(text) {}

    [[nodiscard]] char peek(std::size_t ahead = 0) const {
        return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
    }
    [[nodiscard]] bool at_end() const { return at_ >= text_.size(); }
    [[nodiscard]] bool at_end_of_line() const {
        return at_end() || peek() == '\n' || (peek() == '\r' && peek(1) == '\n');
    }
    void skip_blanks() {
        while (peek() == ' ' || peek() == '\t') ++at_;
    }
    void skip_comment() {
        const std::size_t begin = at_;
        at_ = std::min(text_.find('\n', at_), text_.size());
        comments_.emplace_back(begin, at_);
    }
    void next_line() {
        at_ = std::min(text_.find('\n', at_), text_.size());
        if (at_ == text_.size()) return;
        ++at_;
        ++line_;
        line_begin_ = at_;
    }
    void skip_blanks_lines_and_comments() {
        for (;;) {
            skip_blanks();
            if (peek() == '#') skip_comment();
            if (at_end() || !at_end_of_line()) return;
            next_line();
        }
    }

    void report(std::size_t begin, std::size_t end, std::string what, std::string hint) {
        slips_.push_back({{line_, static_cast<int>(characters_in(text_.substr(line_begin_, begin - line_begin_))) + 1,
                           static_cast<int>(characters_in(text_.substr(begin, end - begin)))},
                          std::move(what),
                          std::move(hint)});
    }
    /// From here on it is no TOML, and the reader will say so.
    void stop() {
        stopped_ = true;
        const std::size_t at = at_;
        if (at == text_.size() || !is_beyond_ascii(text_[at])) return;
        const std::size_t bytes = std::max<std::size_t>(character_at(text_, at).bytes, 1);
        report(at, at + bytes,
               "\"" + std::string(text_.substr(at, bytes)) + "\" may stand only in quotes or in a comment", {});
    }
    void too_deep(std::size_t begin) {
        stopped_ = true;
        report(begin, begin + 1, "this is nested more than " + std::to_string(deepest) + " deep; no profile needs that",
               {});
    }

    std::string_view text_;
    std::size_t at_ = 0, line_begin_ = 0;
    int line_ = 1;
    bool stopped_ = false;
    std::vector<Slip> slips_;
    std::vector<std::pair<std::size_t, std::size_t>> comments_;
};

/// The grammar of TOML by recursive descent, as far as it takes to know where a value begins and ends.
class Grammar : Cursor {
public:
    explicit Grammar(std::string_view text) : Cursor(text) {}

    Preflight through() {
        while (at_ < text_.size() && !stopped_) {
            skip_blanks();
            if (at_end_of_line()) {
                next_line();
                continue;
            }
            if (peek() == '#')
                skip_comment();
            else if (peek() == '[')
                header();
            else
                statement();
            if (!stopped_) end_of_statement();
        }
        return {std::move(slips_), std::min(at_, text_.size()), std::move(comments_)};
    }

private:
    void text_in_quotes() {
        const char quote = peek();
        const bool escapes = quote == '"';
        if (peek(1) == quote && peek(2) == quote) {
            at_ += 3;
            while (!at_end()) {
                if (peek() == quote && peek(1) == quote && peek(2) == quote) {
                    at_ += 3;
                    for (int more = 0; more < 2 && peek() == quote; ++more) ++at_;
                    return;
                }
                if (peek() == '\n') {
                    next_line();
                    continue;
                }
                if (!pass(escapes, true)) return;
            }
            stopped_ = true;
            return;
        }
        ++at_;
        while (!at_end_of_line()) {
            if (peek() == quote) {
                ++at_;
                return;
            }
            if (!pass(escapes, false)) return;
        }
        stopped_ = true;
    }

    /// One byte of a text, or an escape. No escape begins with a character beyond ASCII, and after a backslash that ends
    /// its line the reader does not survive one either, though TOML allows it there.
    bool pass(bool escapes, bool several_lines) {
        if (!escapes || peek() != '\\') {
            ++at_;
            return true;
        }
        ++at_;
        const std::size_t behind = at_;
        skip_blanks();
        while (several_lines && !at_end() && at_end_of_line()) {
            next_line();
            skip_blanks();
        }
        if (is_beyond_ascii(peek())) {
            report(at_, at_ + std::max<std::size_t>(character_at(text_, at_).bytes, 1),
                   "this character may not follow a backslash", {});
            stopped_ = true;
        } else if (at_ == behind && !at_end_of_line()) {
            ++at_;
        }
        return !stopped_;
    }

    void key() {
        const std::size_t begin = at_;
        for (int parts = 1;; ++parts) {
            if (parts > deepest) return too_deep(begin);
            skip_blanks();
            if (peek() == '"' || peek() == '\'') {
                if (peek() == peek(1) && peek() == peek(2)) return stop();
                text_in_quotes();
            } else if (is_bare(peek())) {
                while (is_bare(peek())) ++at_;
            } else {
                return stop();
            }
            if (stopped_) return;
            skip_blanks();
            if (peek() != '.') return;
            ++at_;
        }
    }

    void header() {
        const int brackets = peek(1) == '[' ? 2 : 1;
        at_ += static_cast<std::size_t>(brackets);
        key();
        for (int i = 0; i < brackets && !stopped_; ++i) {
            if (peek() != ']') return stop();
            ++at_;
        }
    }

    void statement(int depth = 0) {
        const std::size_t begin = at_;
        key();
        if (stopped_) return;
        if (peek() != '=') return stop();
        std::string_view name = text_.substr(begin, at_ - begin);
        name = name.substr(0, name.find_last_not_of(" \t") + 1);
        ++at_;
        skip_blanks();
        value(name, depth);
    }

    void value(std::string_view name, int depth) {
        value_begin_ = at_;
        value_name_ = name;
        const char c = peek();
        if (c == '"' || c == '\'') {
            text_in_quotes();
            one_line_text_ = !stopped_;
            return;
        }
        one_line_text_ = false;
        if (c == '[') {
            list(name, depth + 1);
        } else if (c == '{') {
            inline_section(depth + 1);
        } else {
            without_quotes(name, depth > 0);
        }
        one_line_text_ = false;
    }

    void list(std::string_view name, int depth) {
        if (depth > deepest) return too_deep(at_);
        ++at_;
        for (;;) {
            skip_blanks_lines_and_comments();
            if (peek() == ']') {
                ++at_;
                return;
            }
            value({}, depth);
            if (stopped_) return;
            skip_blanks_lines_and_comments();
            if (peek() == ',') {
                ++at_;
            } else if (peek() != ']') {
                return unit_behind(name);
            }
        }
    }

    void inline_section(int depth) {
        if (depth > deepest) return too_deep(at_);
        ++at_;
        skip_blanks();
        if (peek() == '}') {
            ++at_;
            return;
        }
        for (;;) {
            skip_blanks();
            statement(depth);
            if (stopped_) return;
            skip_blanks();
            if (peek() == '}') {
                ++at_;
                return;
            }
            if (peek() != ',') return unit_behind({});
            ++at_;
        }
    }

    void without_quotes(std::string_view name, bool within) {
        const std::size_t begin = at_;
        const std::size_t end = std::min(text_.find_first_of(within ? ",]}#\n" : "#\n", at_), text_.size());
        std::string_view value = text_.substr(begin, end - begin);
        value = value.substr(0, value.find_last_not_of(" \t\r") + 1);
        if (value.empty()) return stop();
        if (is_left_to_the_reader(value)) {
            at_ += value.size();
            return;
        }
        const auto begins_a_number = [&](std::string_view text) {
            return !text.empty() && (is_digit(text[0]) || (text[0] == '.' && text.size() > 1 && is_digit(text[1])));
        };
        const bool sign = value[0] == '+' || value[0] == '-';
        const std::string before = name.empty() ? std::string() : std::string(name) + " = ";
        const std::string word = in_lower_case(value);
        if (has_form(value, "d:dd") || has_form(value, "dd:dd")) {
            report(begin, begin + value.size(), "a time of day is written in quotes", before + as_it_should_be(value));
        } else if (begins_a_number(value.substr(sign ? 1 : 0))) {
            report(begin, begin + value.size(), "a quantity is written in quotes", before + as_it_should_be(value));
        } else if (word == "true" || word == "yes") {
            report(begin, begin + value.size(), "yes is written as true, in small letters", before + "true");
        } else if (word == "false" || word == "no") {
            report(begin, begin + value.size(), "no is written as false, in small letters", before + "false");
        } else if (is_letter(value[0]) || is_beyond_ascii(value[0])) {
            report(begin, begin + value.size(), "text is written in quotes", before + as_it_should_be(value));
        } else {
            return stop();
        }
        at_ += value.size();
    }

    /// `low = "14" degC`
    void unit_behind(std::string_view name) {
        const char c = peek();
        const bool same_line = text_.substr(value_begin_, at_ - value_begin_).find('\n') == std::string_view::npos;
        if (!one_line_text_ || !same_line ||
            !(is_letter(c) || is_digit(c) || is_beyond_ascii(c) || c == '%' || c == '+'))
            return stop();
        const std::size_t end = std::min(text_.find_first_of(",]}#\n", at_), text_.size());
        std::string_view behind = text_.substr(at_, end - at_);
        behind = behind.substr(0, behind.find_last_not_of(" \t\r") + 1);
        const std::string_view quoted = text_.substr(value_begin_ + 1, at_ - value_begin_ - 1);
        const std::string whole = std::string(quoted.substr(0, quoted.find_last_of("\"'"))) + " " + std::string(behind);
        const std::string_view known = value_name_.empty() ? name : value_name_;
        const std::string before = known.empty() ? std::string() : std::string(known) + " = ";
        report(at_, at_ + behind.size(), "this stands behind the closing quote", before + as_text(whole));
        stopped_ = true;
    }

    void end_of_statement() {
        skip_blanks();
        if (peek() == '#') skip_comment();
        if (!at_end_of_line()) unit_behind({});
    }

    // The value last passed.
    std::size_t value_begin_ = 0;
    std::string_view value_name_;
    bool one_line_text_ = false;
};

}  // namespace

Preflight preflight(std::string_view text) { return Grammar(text).through(); }

}  // namespace voltwright
