#include "testing.hpp"

#include "voltwright/report/soc_chart.hpp"

#include <algorithm>
#include <string>
#include <vector>

/// The state of charge as a line of characters.

namespace voltwright {

namespace {

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = text.find('\n', at);
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

TimelinePoint point(Duration at, double soc, bool driving = false) {
    TimelinePoint one{};
    one.at = at;
    one.soc = Ratio{soc};
    one.driving = driving;
    return one;
}

constexpr Style ascii{.colour = false, .unicode = false, .width = 80};

}  // namespace

TEST_CASE("of fewer than two points there is no chart") {
    CHECK(soc_chart({}, percent(50), ascii).empty());
    CHECK(soc_chart({point(hours(0), 1.0)}, percent(50), ascii).empty());
}

TEST_CASE("a battery that empties in two days runs from the first row to the last, through the limit") {
    const auto lines = lines_of(soc_chart({point(hours(0), 1.0), point(hours(48), 0.0)}, percent(50), ascii));
    REQUIRE(lines.size() == 13);  // ten of the field, nights, drives, days
    CHECK(lines[0].find("100 %|'") != std::string::npos);
    CHECK(lines[9].find("0 %|") != std::string::npos);
    CHECK(lines[9].back() == '.');
    // No column is empty: each holds a mark in one row at least.
    std::size_t widest = 0;
    for (std::size_t row = 0; row < 10; ++row) widest = std::max(widest, lines[row].size());
    for (std::size_t column = 7; column < widest; ++column) {
        bool marked = false;
        for (std::size_t row = 0; row < 10; ++row)
            marked = marked || (column < lines[row].size() && std::string("'.|").find(lines[row][column]) < 3);
        CHECK(marked);
    }
    // Two nights of twelve hours and a quarter of a day of each at the ends: half of the columns.
    const auto dark = std::count(lines[10].begin(), lines[10].end(), '#');
    CHECK(dark == static_cast<std::ptrdiff_t>((widest - 7) / 2));
    CHECK(lines[12].find("day 1") != std::string::npos);
    CHECK(lines[12].find(" 2") != std::string::npos);
    CHECK(lines[12].find(" 3") == std::string::npos);
}

TEST_CASE("a drive is marked where it is, and a chart fits the page") {
    const std::vector<TimelinePoint> points = {point(hours(0), 0.8), point(hours(12), 0.7), point(hours(13), 0.9, true),
                                               point(hours(24), 0.8)};
    for (const int width : {40, 80, 200}) {
        const auto lines =
            lines_of(soc_chart(points, percent(50), {.colour = false, .unicode = false, .width = width}));
        for (const std::string& line : lines) CHECK(line.size() <= static_cast<std::size_t>(width));
        const std::size_t first = lines[11].find('^'), last = lines[11].rfind('^');
        REQUIRE(first != std::string::npos);
        // Half past twelve lies in the middle; an hour is a twenty-fourth.
        const double columns = static_cast<double>(std::min(width - 2, 120) - 7);
        CHECK(static_cast<double>(first) - 7.0 >= columns / 2.0 - 1.0);
        CHECK(static_cast<double>(last) - 7.0 <= columns * 13.0 / 24.0);
    }
}

// Sunset and sunrise by the sun at 60° north: FAO-56, table 2.7, has 5.6 h of day in December and 18.4 h in June.
TEST_CASE("nights are those of the place and the date, where these are known") {
    const std::vector<TimelinePoint> points = {point(hours(0), 1.0), point(hours(48), 0.9)};
    const auto dark_share = [&](int day_of_year) {
        const auto lines = lines_of(soc_chart(points, percent(50), {.colour = false, .unicode = false, .width = 129},
                                              day_sun(degrees(60), day_of_year)));
        return static_cast<double>(std::count(lines[10].begin(), lines[10].end(), '#')) / 113.0;  // columns
    };
    CHECK(dark_share(349) == near(1.0 - 5.6 / 24.0, 0.02));
    CHECK(dark_share(166) == near(1.0 - 18.4 / 24.0, 0.02));
}

}  // namespace voltwright
