#include "cli/terminal.hpp"

#include <algorithm>
#include <clocale>
#include <cstdlib>
#include <cstring>

#include <langinfo.h>
#include <sys/ioctl.h>
#include <unistd.h>

namespace voltwright::cli {

namespace {

constexpr int narrowest = 40, usual = 80, widest = 400;

int width_of(int file) {
    winsize size = {};
    if (::ioctl(file, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
    const char* columns = std::getenv("COLUMNS");
    const long said = columns ? std::strtol(columns, nullptr, 10) : 0;
    return said > 0 && said <= widest ? static_cast<int>(said) : usual;
}

bool is_set(const char* variable) {
    const char* value = std::getenv(variable);
    return value && *value != '\0';
}

/// A locale that is not installed counts as one without Unicode.
bool locale_is_utf8() {
    if (!is_set("LC_ALL") && !is_set("LC_CTYPE") && !is_set("LANG")) return false;
    // Not newlocale(): in a static program its C.UTF-8 says ASCII.
    if (std::setlocale(LC_CTYPE, "") == nullptr) return false;
    const bool utf8 = std::strcmp(::nl_langinfo(CODESET), "UTF-8") == 0;
    std::setlocale(LC_CTYPE, "C");
    return utf8;
}

bool terminal_has_colour() {
    const char* terminal = std::getenv("TERM");
    return !is_set("NO_COLOR") && (!terminal || std::strcmp(terminal, "dumb") != 0);
}

}  // namespace

Style style_of(int file, int width, bool ascii, std::string_view color) {
    const bool terminal = ::isatty(file) == 1;
    Style style;
    style.colour = color == "always" || (color != "never" && terminal && terminal_has_colour());
    static const bool utf8 = locale_is_utf8();
    style.unicode = !ascii && utf8;
    if (width == 0) width = terminal ? width_of(file) : usual;
    style.width = std::clamp(width, narrowest, widest);
    return style;
}

}  // namespace voltwright::cli
