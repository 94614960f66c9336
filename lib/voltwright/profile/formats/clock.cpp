#include "voltwright/profile/formats/clock.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/scan.hpp"

#include <cstdio>
#include <optional>
#include <utility>

namespace voltwright {

using namespace formats;

namespace {

/// Minutes since midnight of "8:30", "08:30", "24:00"; nothing when it is no time.
std::optional<int> minutes_of(std::string_view text) {
    text = without_spaces_around(text);
    const std::size_t colon = text.find(':');
    if (colon < 1 || colon > 2 || text.size() != colon + 3) return {};
    int hour = 0, minute = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (i == colon) continue;
        if (!is_digit(text[i])) return {};
        int& part = i < colon ? hour : minute;
        part = part * 10 + (text[i] - '0');
    }
    if (minute > 59 || hour > 24 || (hour == 24 && minute > 0)) return {};
    return hour * 60 + minute;
}

std::string clock(ClockTime time) {
    char text[24];
    std::snprintf(text, sizeof text, "%02d:%02d", time.minutes / 60, time.minutes % 60);
    return text;
}

bool read_window(const Entry& entry, const std::string& path, ClockWindow& window, Faults& faults) {
    constexpr std::string_view example = "08:30-10:00";
    const std::string* text = text_or_fault(entry, path, "a time from and to", example, faults);
    if (!text) return false;
    for (const std::string_view dash : {"\u2013", "\u2014", "-", " to "}) {
        const std::size_t found = text->find(dash);
        if (found == std::string::npos) continue;
        const std::string_view all = *text;
        const auto from = minutes_of(all.substr(0, found)), to = minutes_of(all.substr(found + dash.size()));
        if (!from || !to) break;
        if (*from == 1440) return fail(faults, path, "nothing begins at 24:00", "write 00:00");
        if (*from == *to)
            return fail(faults, path, "this begins and ends at the same time", "the whole day is \"00:00-24:00\"");
        window = {{*from}, {*to}};
        return true;
    }
    const bool several = text->find_first_of(",;") != std::string::npos;
    return fail(faults, path, toml_quoted(*text) + " is no time from and to",
                several ? "write a list: [\"08:30-10:00\", \"16:00-17:30\"]"
                        : "hours and minutes of 24 hours, as in " + toml_quoted(example));
}

std::string window_text(const ClockWindow& window) { return toml_quoted(clock(window.from) + "-" + clock(window.to)); }

}  // namespace

bool Format<ClockTime>::read(const Entry& entry, const std::string& path, ClockTime& value, Faults& faults) {
    const std::string* text = text_or_fault(entry, path, "a time of day", "18:30", faults);
    if (!text) return false;
    const auto minutes = minutes_of(*text);
    if (!minutes)
        return fail(faults, path, toml_quoted(*text) + " is no time of day",
                    "hours and minutes of 24 hours, as in \"18:30\"");
    value = {*minutes};
    return true;
}
std::string Format<ClockTime>::write(const ClockTime& value) { return toml_quoted(clock(value)); }
Checked Format<ClockTime>::measures(const ClockTime&) { return {}; }
Shape Format<ClockTime>::shape() { return {Shape::Kind::clock, "a time of day"}; }

bool Format<std::vector<ClockWindow>>::read(const Entry& entry, const std::string& path,
                                            std::vector<ClockWindow>& value, Faults& faults) {
    if (entry.text() && in_lower_case(without_spaces_around(*entry.text())) == "none") return true;
    return each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        ClockWindow window{};
        if (!read_window(element, place, window, faults)) return false;
        value.push_back(window);
        return true;
    });
}
std::string Format<std::vector<ClockWindow>>::write(const std::vector<ClockWindow>& value) {
    if (value.size() == 1) return window_text(value[0]);
    std::vector<std::string> written;
    for (const ClockWindow& window : value) written.push_back(window_text(window));
    return value.empty() ? "\"none\"" : list_of(written);
}
Checked Format<std::vector<ClockWindow>>::measures(const std::vector<ClockWindow>&) { return {}; }
Shape Format<std::vector<ClockWindow>>::shape() {
    return with_parts(Shape::Kind::any_of, "a time from and to, or a list of them, or \"none\"",
                      {with_parts(Shape::Kind::one_or_list, "a time from and to, or a list of them",
                                  {Shape{Shape::Kind::window, "a time from and to"}}),
                       with_words("never", {"none"})});
}

}  // namespace voltwright
