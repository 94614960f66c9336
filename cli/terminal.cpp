#include "cli/terminal.hpp"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <string>

#include <strings.h>
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

/// As POSIX has it: the first that is set of these says, in "language_COUNTRY.charset". Not setlocale(), which would
/// open three files to say the same.
bool locale_is_utf8() {
    for (const char* variable : {"LC_ALL", "LC_CTYPE", "LANG"}) {
        if (!is_set(variable)) continue;
        std::string_view locale = std::getenv(variable);
        locale = locale.substr(0, locale.find('@'));
        const std::size_t dot = locale.find('.');
        const std::string_view charset = dot == std::string_view::npos ? "" : locale.substr(dot + 1);
        return ::strcasecmp(std::string(charset).c_str(), "utf-8") == 0 ||
               ::strcasecmp(std::string(charset).c_str(), "utf8") == 0;
    }
    return false;
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
