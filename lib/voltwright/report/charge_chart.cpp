#include "voltwright/report/chart.hpp"
#include "voltwright/report/chart_frame.hpp"
#include "voltwright/report/markup.hpp"
#include "voltwright/report/night_hours.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace voltwright {

namespace {

constexpr int most_days_with_nights = 40;  // more would be hatching
constexpr double named_days = 60.0;        // a day as wide has "day" before its number
constexpr double least_between = 34.0;     // from one number to the next

/// The charge over the trip, in units of the drawing.
struct ChargeField {
    ChartFrame frame;
    Duration from, to;

    [[nodiscard]] double x_at(Duration time) const {
        const double share = (time - from) / (to - from);
        return frame.left + frame.wide() * std::clamp(share, 0.0, 1.0);
    }
    [[nodiscard]] double y_at(double soc) const { return frame.bottom - frame.tall() * std::clamp(soc, 0.0, 1.0); }
    [[nodiscard]] int days() const { return static_cast<int>(std::ceil(to / whole_day - 1e-9)); }
    [[nodiscard]] bool shows_nights() const { return days() <= most_days_with_nights; }
};

/// What happens at one place across of a chart: the timeline has many more points than the paper.
std::vector<Point> thinned(const std::vector<Point>& points) {
    std::vector<Point> result;
    for (std::size_t i = 0; i < points.size();) {
        const double column = std::floor(points[i].x);
        std::size_t end = i, low = i, high = i;
        for (; end < points.size() && std::floor(points[end].x) == column; ++end) {
            if (points[end].y < points[low].y) low = end;
            if (points[end].y > points[high].y) high = end;
        }
        std::vector<std::size_t> kept = {i, low, high, end - 1};
        std::sort(kept.begin(), kept.end());
        kept.erase(std::unique(kept.begin(), kept.end()), kept.end());
        for (const std::size_t one : kept) result.push_back(points[one]);
        i = end;
    }
    return result;
}

void draw_nights(Drawing& drawing, const ChargeField& field, const std::optional<DaySun>& first_day) {
    if (!field.shows_nights()) return;
    for (int day = 1; day <= field.days() + 1; ++day) {
        const auto [dusk, dawn] = night_before(day, first_day);
        if (dawn <= field.from || dusk >= field.to || !(dawn > dusk)) continue;
        drawing.band({field.x_at(dusk), field.frame.top}, field.x_at(dawn) - field.x_at(dusk), field.frame.tall());
    }
}

void draw_levels(Drawing& drawing, const ChargeField& field) {
    for (const double level : {0.0, 0.25, 0.5, 0.75, 1.0}) field.frame.grid(drawing, field.y_at(level));
    for (const double level : {0.0, 0.5, 1.0})
        drawing.text({field.frame.left - ChartFrame::beside, field.y_at(level) + ChartFrame::half_a_letter},
                     fmt::format("{:.0f} %", level * 100.0), Anchor::end);
}

/// Blocks below the field.
void draw_drives(Drawing& drawing, const ChargeField& field, const TripResult& trip) {
    constexpr double below = 8.0, tall = 9.0, least_wide = 1.5;
    const double y = field.frame.bottom + below;
    // A point closes its interval.
    for (std::size_t i = 1; i < trip.points.size(); ++i) {
        if (!trip.points[i].driving) continue;
        const std::size_t begin = i - 1;
        while (i + 1 < trip.points.size() && trip.points[i + 1].driving) ++i;
        const double x = field.x_at(trip.points[begin].at);
        drawing.block({x, y}, std::max(field.x_at(trip.points[i].at) - x, least_wide), tall);
    }
    if (trip.driven > Duration{}) field.frame.row_name(drawing, y + 11.0, "drive");
}

/// Where each day begins, and as many of their numbers as there is room for.
void draw_days(Drawing& drawing, const ChargeField& field) {
    const double bottom = field.frame.bottom, numbers = bottom + 38.0;
    const double a_day = field.frame.wide() * (whole_day / (field.to - field.from));
    const int step = std::max(1, static_cast<int>(std::ceil(least_between / std::max(a_day, 1e-6))));
    for (int day = 1; day <= field.days(); ++day) {
        const double begin = field.x_at(whole_day * static_cast<double>(day - 1));
        if (field.shows_nights()) drawing.line({begin, bottom}, {begin, bottom + 22.0}, Stroke::thin);
        if ((day - 1) % step != 0) continue;
        const std::string label = a_day >= named_days ? "day " + std::to_string(day) : std::to_string(day);
        const double end = field.x_at(whole_day * static_cast<double>(day));
        const double half = ems_of(label) * Drawing::size / 2.0;
        const double centre = step == 1 ? (begin + end) / 2.0 : begin + half;
        if (centre + half <= field.frame.across) drawing.text({centre, numbers}, label, Anchor::middle);
    }
    if (a_day < named_days) field.frame.row_name(drawing, numbers, "day");
}

void draw_charge(Drawing& drawing, const ChargeField& field, const TripResult& trip, double limit) {
    drawing.line({field.frame.left, field.y_at(limit)}, {field.frame.right(), field.y_at(limit)}, Stroke::dashed);
    std::vector<Point> line;
    for (const TimelinePoint& point : trip.points)
        line.push_back({field.x_at(point.at), field.y_at(in_ratio(point.soc))});
    drawing.path(thinned(line), Stroke::heavy);
}

/// The lowest point and the limit, in words that cover nothing.
void draw_labels(Drawing& drawing, const ChargeField& field, const TripResult& trip, double limit) {
    const ChartFrame& frame = field.frame;
    const Duration lowest_at = whole_day * static_cast<double>(trip.lowest_at.day - 1) + trip.lowest_at.clock;
    const Point lowest{field.x_at(lowest_at), field.y_at(in_ratio(trip.lowest))};
    drawing.dot(lowest);
    const std::string says = "lowest " + show(trip.lowest);
    const double half = ems_of(says) * Drawing::size / 2.0;
    const double y = lowest.y + 20.0 < frame.bottom - 4.0 ? lowest.y + 20.0 : lowest.y - 12.0;
    drawing.free_text({std::clamp(lowest.x, frame.left + half + 4.0, frame.right() - half - 4.0), y}, says,
                      Anchor::middle, frame.top, frame.bottom - 2.0);
    drawing.free_text({frame.left + 6.0, field.y_at(limit) + 15.0}, "limit " + show(Ratio{ratio(limit)}), Anchor::start,
                      frame.top, frame.bottom - 2.0);
}

std::string charge_words(const TripResult& trip, double limit, std::string_view nights) {
    return std::string(nights) + (trip.driven > Duration{} ? "Blocks below: driving. " : "") +
           "Dashed: the limit. State of charge over " + counted(trip.days.size(), "day", "days") + ": begins at " +
           show(trip.start) + ", lowest " + show(trip.lowest) + " " + when(trip.lowest_at) + ", ends at " +
           show(trip.end) + ". The limit is " + show(Ratio{ratio(limit)}) +
           (in_ratio(trip.deepest_allowed) > limit + 0.005 ? ", and in the cold higher: " + show(trip.deepest_allowed) +
                                                                 " at " + show(trip.limit_at) + ", when it counted."
                                                           : ".");
}

}  // namespace

std::optional<Chart> soc_line(const Plan& plan, Room room, const std::string& name) {
    const TripResult& trip = plan.energy.trip;
    if (trip.points.size() < 2) return {};
    const ChargeField field{
        {.across = units_across(room), .top = 18.0, .bottom = 190.0}, trip.points.front().at, trip.points.back().at};
    if (!(field.to > field.from)) return {};
    const double limit = 1.0 - in_ratio(plan.energy.depth_limit);
    Drawing drawing(name, field.frame.across);
    draw_nights(drawing, field, plan.energy.first_day);
    draw_levels(drawing, field);
    draw_drives(drawing, field, trip);
    draw_days(drawing, field);
    draw_charge(drawing, field, trip, limit);
    draw_labels(drawing, field, trip, limit);
    const std::string_view nights = !field.shows_nights()   ? ""
                                    : plan.energy.first_day ? "Shaded: night, from sunset to sunrise. "
                                                            : "Shaded: night, 18:00 to 06:00. ";
    return Chart{std::move(drawing), charge_words(trip, limit, nights)};
}

}  // namespace voltwright
