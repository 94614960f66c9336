#include "voltwright/report/soc_chart.hpp"

#include "voltwright/report/night_hours.hpp"
#include "voltwright/units/show.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

namespace voltwright {

namespace {

constexpr std::size_t rows_of_field = 10;        // of the field
constexpr std::size_t margin = 7;                // left of it, for labels
constexpr std::size_t tall = rows_of_field * 2;  // dots above each other
constexpr int narrowest = 34, widest = 120;

/// State of charge at a time, in a straight line between two points.
double soc_at(const std::vector<TimelinePoint>& points, Duration time) {
    const auto after = std::lower_bound(points.begin(), points.end(), time,
                                        [](const TimelinePoint& point, Duration t) { return point.at < t; });
    if (after == points.begin()) return in_ratio(points.front().soc);
    if (after == points.end()) return in_ratio(points.back().soc);
    const auto before = after - 1;
    const double share = (time - before->at) / (after->at - before->at);
    return in_ratio(before->soc) + share * in_ratio(after->soc - before->soc);
}

bool drives_between(const std::vector<TimelinePoint>& points, Duration from, Duration to) {
    // A point closes its interval.
    for (std::size_t i = 1; i < points.size(); ++i)
        if (points[i].driving && points[i].at > from && points[i - 1].at < to) return true;
    return false;
}

/// Ends a line without the blanks behind it.
void end_line(std::string& text) {
    while (!text.empty() && text.back() == ' ') text.pop_back();
    text += "\n";
}

/// A field of dots, two above each other in a character: half blocks, which every terminal's font has, or ASCII.
class Dots {
public:
    Dots(std::size_t columns, std::size_t rows) : columns_(columns), cells_(columns * rows) {}

    void set(std::size_t x, std::size_t y) {
        Cell& cell = cells_.at((y / 2) * columns_ + x);
        (y % 2 == 0 ? cell.upper : cell.lower) = true;
    }

    [[nodiscard]] std::string_view cell(std::size_t column, std::size_t row, bool unicode) const {
        const Cell& cell = cells_.at(row * columns_ + column);
        if (cell.upper && cell.lower) return unicode ? "\u2588" : "|";
        if (cell.upper) return unicode ? "\u2580" : "'";
        if (cell.lower) return unicode ? "\u2584" : ".";
        return " ";
    }

private:
    struct Cell {
        bool upper = false, lower = false;
    };
    std::size_t columns_;
    std::vector<Cell> cells_;
};

/// What is drawn, and between which moments.
struct Field {
    const std::vector<TimelinePoint>& points;
    Duration from, to;
    std::size_t columns;
    bool unicode;

    /// When a place across the field is; 0 is its left edge and the number of columns its right.
    [[nodiscard]] Duration time_at(double column) const {
        return from + column / static_cast<double>(columns) * (to - from);
    }
};

/// The dot from the top at which a state of charge is drawn.
std::size_t height_of(double soc) {
    return static_cast<std::size_t>(std::lround((1.0 - std::clamp(soc, 0.0, 1.0)) * static_cast<double>(tall - 1)));
}

/// The line, without gaps however steep it is.
Dots line_of(const Field& field) {
    Dots dots(field.columns, rows_of_field);
    std::size_t before = height_of(in_ratio(field.points.front().soc));
    for (std::size_t x = 0; x < field.columns; ++x) {
        const std::size_t y = height_of(soc_at(field.points, field.time_at(static_cast<double>(x) + 0.5)));
        for (std::size_t i = std::min(y, before); i <= std::max(y, before); ++i) dots.set(x, i);
        before = y;
    }
    return dots;
}

std::string label_of(std::size_t row, std::size_t limit_row, Ratio depth_limit) {
    if (row == 0) return "100 %";
    if (row == limit_row) return show(Ratio{1.0 - depth_limit});
    return row == rows_of_field - 1 ? "0 %" : "";
}

std::string lines_of(const Field& field, Ratio depth_limit) {
    const Dots dots = line_of(field);
    const std::size_t limit_row = height_of(1.0 - in_ratio(depth_limit)) / 2;
    std::string text;
    for (std::size_t row = 0; row < rows_of_field; ++row) {
        text += padded_left(label_of(row, limit_row, depth_limit), margin - 1) + (field.unicode ? "\u2502" : "|");
        for (std::size_t column = 0; column < field.columns; ++column) {
            std::string_view cell = dots.cell(column, row, field.unicode);
            if (cell == " " && row == limit_row) cell = field.unicode ? "\u2508" : "-";
            text += cell;
        }
        end_line(text);
    }
    return text;
}

/// A row below the field: a sign in each column for which something holds.
template <class Holds>
std::string marks_of(const Field& field, std::string_view label, std::string_view sign, Holds holds) {
    std::string text = padded_left(label, margin - 1) + " ";
    for (std::size_t column = 0; column < field.columns; ++column)
        text += holds(field.time_at(static_cast<double>(column)), field.time_at(static_cast<double>(column + 1))) ? sign
                                                                                                                  : " ";
    end_line(text);
    return text;
}

/// Day numbers, each where its day begins, as far as there is room for them.
std::string days_of(const Field& field) {
    std::string days(field.columns, ' ');
    std::size_t free = 0;
    for (int day = 1; hours(24) * static_cast<double>(day - 1) < field.to; ++day) {
        const Duration begins = hours(24) * static_cast<double>(day - 1);
        const double share = std::max<double>((begins - field.from) / (field.to - field.from), 0.0);
        const auto column = static_cast<std::size_t>(share * static_cast<double>(field.columns));
        const std::string number = std::to_string(day);
        if (column < free || column + number.size() > field.columns) continue;
        days.replace(column, number.size(), number);
        free = column + number.size() + 1;
    }
    std::string text = padded_left("day", margin - 1) + " " + days;
    end_line(text);
    return text;
}

}  // namespace

std::string soc_chart(const std::vector<TimelinePoint>& points, Ratio depth_limit, const Style& style,
                      const std::optional<DaySun>& first_day) {
    if (points.size() < 2) return {};
    const auto columns = static_cast<std::size_t>(std::clamp(style.width - 2, narrowest, widest)) - margin;
    const Field field{points, points.front().at, points.back().at, columns, style.unicode};
    return lines_of(field, depth_limit) +
           marks_of(field, "night", style.unicode ? "\u2592" : "#",
                    [&](Duration a, Duration b) { return dark((a + b) / 2.0, first_day); }) +
           marks_of(field, "drive", style.unicode ? "\u25b2" : "^",
                    [&](Duration a, Duration b) { return drives_between(points, a, b); }) +
           days_of(field);
}

}  // namespace voltwright
