#include "voltwright/profile/formats/calendar.hpp"

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/units/scan.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <optional>
#include <utility>

namespace voltwright {

using namespace formats;

bool Format<CalendarDate>::read(const Entry& entry, const std::string& path, CalendarDate& value, Faults& faults) {
    constexpr std::string_view example = "2026-09-14";
    CalendarDate date{};
    if (const auto* given = std::get_if<CalendarDate>(&entry.content)) {
        date = *given;
    } else if (const std::string* text = entry.text()) {
        const std::string_view t = without_spaces_around(*text);
        bool good = t.size() == example.size();
        for (std::size_t i = 0; good && i < t.size(); ++i)
            good = is_digit(example[i]) ? is_digit(t[i]) : t[i] == example[i];
        if (!good)
            return fail(faults, path, toml_quoted(*text) + " is no date",
                        "year, month and day: " + std::string(example));
        const auto number = [&](std::size_t from, std::size_t count) {
            int n = 0;
            for (std::size_t i = from; i < from + count; ++i) n = n * 10 + (t[i] - '0');
            return n;
        };
        date = {number(0, 4), number(5, 2), number(8, 2)};
    } else {
        wrong_kind(entry, path, "a date", faults);
        faults.back().hint = "year, month and day: " + std::string(example);
        return false;
    }
    constexpr std::array<int, 12> days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = (date.year % 4 == 0 && date.year % 100 != 0) || date.year % 400 == 0;
    const bool month = date.month >= 1 && date.month <= 12;
    const int last = !month ? 0 : date.month == 2 && leap ? 29 : days[static_cast<std::size_t>(date.month - 1)];
    if (!month || date.day < 1 || date.day > last)
        return fail(faults, path, "there is no such day", "year, month and day: " + std::string(example));
    if (date.year < 1900 || date.year > 2200) return fail(faults, path, "this year is outside 1900 to 2200");
    value = date;
    return true;
}
std::string Format<CalendarDate>::write(const CalendarDate& value) {
    char text[40];
    std::snprintf(text, sizeof text, "%04d-%02d-%02d", value.year, value.month, value.day);
    return text;
}
Checked Format<CalendarDate>::measures(const CalendarDate&) { return {}; }
Shape Format<CalendarDate>::shape() { return {Shape::Kind::date, "a date"}; }

namespace {

constexpr int most_days = 366;

/// "2-4" or "3": the first and the last.
std::optional<std::pair<int, int>> days_between(std::string_view text) {
    text = without_spaces_around(text);
    const auto number = [](std::string_view t) -> std::optional<int> {
        t = without_spaces_around(t);
        if (t.empty() || t.size() > 6 || !std::all_of(t.begin(), t.end(), is_digit)) return {};
        int n = 0;
        for (const char c : t) n = n * 10 + (c - '0');
        return n;
    };
    for (const std::string_view dash : {"\u2013", "-"})
        if (const std::size_t found = text.find(dash); found != std::string_view::npos) {
            const auto first = number(text.substr(0, found)), last = number(text.substr(found + dash.size()));
            if (!first || !last) return {};
            return std::pair(*first, *last);
        }
    const auto only = number(text);
    if (!only) return {};
    return std::pair(*only, *only);
}

}  // namespace

bool Format<TripDays>::read(const Entry& entry, const std::string& path, TripDays& value, Faults& faults) {
    const bool good = each_element(entry, path, faults, [&](const Entry& element, const std::string& place) {
        std::pair<int, int> days;
        if (const auto* number = std::get_if<std::int64_t>(&element.content)) {
            const int day = static_cast<int>(std::clamp<std::int64_t>(*number, -1, most_days + 1));
            days = {day, day};
        } else if (const std::string* text = element.text()) {
            const auto read = days_between(*text);
            if (!read)
                return fail(faults, place, toml_quoted(*text) + " names no days of the trip",
                            "as in \"2-4\", 3 or [1, 6]");
            days = *read;
        } else {
            wrong_kind(element, place, "a day of the trip", faults);
            faults.back().hint = "as in \"2-4\", 3 or [1, 6]";
            return false;
        }
        if (days.first < 1 || days.second < 1 || days.first > most_days || days.second > most_days)
            return fail(faults, place, "the days of a trip are 1 to " + std::to_string(most_days));
        if (days.second < days.first) return fail(faults, place, "these days end before they begin");
        if (!value.days.empty() && days.first <= value.days.back())
            return fail(faults, place, "the days of a list rise, and each stands once");
        for (int day = days.first; day <= days.second; ++day) value.days.push_back(day);
        return true;
    });
    if (good && value.days.empty()) return fail(faults, path, "this list of days is empty", "as in [1, 6]");
    return good;
}
std::string Format<TripDays>::write(const TripDays& value) {
    std::vector<std::string> written;
    for (std::size_t i = 0; i < value.days.size();) {
        std::size_t last = i;
        while (last + 1 < value.days.size() && value.days[last + 1] == value.days[last] + 1) ++last;
        written.push_back(last == i
                              ? std::to_string(value.days[i])
                              : toml_quoted(std::to_string(value.days[i]) + "-" + std::to_string(value.days[last])));
        i = last + 1;
    }
    return written.size() == 1 ? written[0] : list_of(written);
}
Checked Format<TripDays>::measures(const TripDays&) { return {}; }
Shape Format<TripDays>::shape() { return {Shape::Kind::days, "days of the trip"}; }

}  // namespace voltwright
