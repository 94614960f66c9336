#include "voltwright/report/chart.hpp"

#include "voltwright/report/markup.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace voltwright {

namespace {

constexpr Duration whole_day = hours(24);
constexpr double left_margin = 46.0, right_margin = 8.0;
constexpr int most_days_with_nights = 40;  ///< more would be hatching

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

}  // namespace

std::optional<Chart> soc_line(const Plan& plan, Room room, const std::string& name) {
    const Trip& trip = plan.night.trip;
    if (trip.points.size() < 2) return {};
    const double across = units_across(room);
    const double right = across - right_margin, wide = right - left_margin;
    constexpr double top = 18.0, bottom = 190.0;
    const Duration from = trip.points.front().at, to = trip.points.back().at;
    if (!(to > from)) return {};
    const auto x_at = [&](Duration time) {
        const double share = (time - from) / (to - from);
        return left_margin + wide * std::clamp(share, 0.0, 1.0);
    };
    const auto y_at = [&](double soc) { return bottom - (bottom - top) * std::clamp(soc, 0.0, 1.0); };
    const int days = static_cast<int>(std::ceil(to / whole_day - 1e-9));

    Drawing drawing(name, across);
    if (days <= most_days_with_nights)
        for (int day = 0; day <= days; ++day) {
            const Duration dusk = whole_day * static_cast<double>(day) - hours(6), dawn = dusk + hours(12);
            if (dawn <= from || dusk >= to) continue;
            drawing.band({x_at(dusk), top}, x_at(dawn) - x_at(dusk), bottom - top);
        }
    for (const double level : {0.0, 0.25, 0.5, 0.75, 1.0})
        drawing.line({left_margin, y_at(level)}, {right, y_at(level)}, Stroke::grid);
    for (const double level : {0.0, 0.5, 1.0})
        drawing.text({left_margin - 5.0, y_at(level) + 4.5}, fmt::format("{:.0f} %", level * 100.0), Anchor::end);

    // A point closes its interval.
    constexpr double drives = bottom + 8.0;
    for (std::size_t i = 1; i < trip.points.size(); ++i) {
        if (!trip.points[i].driving) continue;
        const std::size_t begin = i - 1;
        while (i + 1 < trip.points.size() && trip.points[i + 1].driving) ++i;
        const double x = x_at(trip.points[begin].at);
        drawing.block({x, drives}, std::max(x_at(trip.points[i].at) - x, 1.5), 9.0);
    }
    if (trip.driven > Duration{}) drawing.text({left_margin - 5.0, drives + 11.0}, "drive", Anchor::end);

    const double a_day = wide * (whole_day / (to - from));
    const int step = std::max(1, static_cast<int>(std::ceil(34.0 / std::max(a_day, 1e-6))));
    for (int day = 1; day <= days; ++day) {
        const double begin = x_at(whole_day * static_cast<double>(day - 1));
        if (days <= most_days_with_nights) drawing.line({begin, bottom}, {begin, bottom + 22.0}, Stroke::thin);
        if ((day - 1) % step != 0) continue;
        const std::string label = a_day >= 60.0 ? "day " + std::to_string(day) : std::to_string(day);
        const double end = x_at(whole_day * static_cast<double>(day));
        const double half = ems_of(label) * Drawing::size / 2.0;
        const double centre = step == 1 ? (begin + end) / 2.0 : begin + half;
        if (centre + half > across) continue;
        drawing.text({centre, bottom + 38.0}, label, Anchor::middle);
    }
    if (a_day < 60.0) drawing.text({left_margin - 5.0, bottom + 38.0}, "day", Anchor::end);

    const double limit = 1.0 - in_ratio(plan.night.depth_limit);
    drawing.line({left_margin, y_at(limit)}, {right, y_at(limit)}, Stroke::dashed);
    std::vector<Point> line;
    for (const TripPoint& point : trip.points) line.push_back({x_at(point.at), y_at(in_ratio(point.soc))});
    drawing.path(thinned(line), Stroke::heavy);

    const Duration lowest_at = whole_day * static_cast<double>(trip.lowest_at.day - 1) + trip.lowest_at.clock;
    const Point lowest{x_at(lowest_at), y_at(in_ratio(trip.lowest))};
    drawing.dot(lowest);
    const std::string says = "lowest " + show(trip.lowest);
    const double half = ems_of(says) * Drawing::size / 2.0;
    const double low_y = lowest.y + 20.0 < bottom - 4.0 ? lowest.y + 20.0 : lowest.y - 12.0;
    drawing.free_text({std::clamp(lowest.x, left_margin + half + 4.0, right - half - 4.0), low_y}, says, Anchor::middle,
                      top, bottom - 2.0);
    drawing.free_text({left_margin + 6.0, y_at(limit) + 15.0}, "limit " + show(Ratio{ratio(limit)}), Anchor::start, top,
                      bottom - 2.0);

    const std::string words =
        std::string(days <= most_days_with_nights ? "Shaded: night, 18:00 to 06:00. " : "") +
        (trip.driven > Duration{} ? "Blocks below: driving. " : "") + "Dashed: the limit. State of charge over " +
        counted(trip.days.size(), "day", "days") + ": begins at " + show(trip.start) + ", lowest " + show(trip.lowest) +
        " " + when(trip.lowest_at) + ", ends at " + show(trip.end) + ". The limit is " + show(Ratio{ratio(limit)}) +
        (in_ratio(trip.deepest_allowed) > limit + 0.005
             ? ", and higher in the cold: " + show(trip.deepest_allowed) + " when it counted."
             : ".");
    return Chart{std::move(drawing), words};
}

std::optional<Chart> feed_line(const Plan& plan, Room room, const std::string& name) {
    const auto of_role = [&](RunRole role) {
        const auto found =
            std::find_if(plan.runs.begin(), plan.runs.end(), [&](const RunPlan& run) { return run.task.role == role; });
        return found == plan.runs.end() ? nullptr : &*found;
    };
    const RunPlan* feed = of_role(RunRole::feed);
    const RunPlan* output = of_role(RunRole::output);
    if (!feed || feed->task.from.kind != PlaceKind::starter_battery || !feed->figures) return {};
    const NetworkFigures& usual = *feed->figures;
    const std::optional<LowestInput>& low = feed->taken()->lowest;
    const auto* charger = std::get_if<ConverterLoad>(&feed->task.load);
    const NetworkFigures* out = output && output->figures ? &*output->figures : nullptr;

    const double across = units_across(room);
    constexpr double top = 14.0, bottom = 200.0;
    const double right = across - right_margin, wide = right - left_margin;
    const double in_x = left_margin + 0.56 * wide, out_x = left_margin + 0.66 * wide;

    std::vector<Voltage> all = {usual.source, usual.far_end};
    if (low) all.insert(all.end(), {low->input.source, low->far_end});
    if (charger) all.push_back(charger->input_off);
    if (out) all.insert(all.end(), {out->source, out->far_end});
    const auto [least, most] = std::minmax_element(all.begin(), all.end());
    const double low_end = std::floor((in_volts(*least) - 0.3) * 2.0) / 2.0;
    const double high_end = std::ceil((in_volts(*most) + 0.2) * 2.0) / 2.0;
    const auto y_at = [&](Voltage voltage) {
        return bottom - (bottom - top) * (in_volts(voltage) - low_end) / (high_end - low_end);
    };

    Drawing drawing(name, across);
    drawing.band({in_x, top}, out_x - in_x, bottom - top);
    const double tick = high_end - low_end > 4.0 ? 1.0 : 0.5;
    for (double level = std::ceil(low_end / tick) * tick; level <= high_end + 1e-9; level += tick) {
        const double y = y_at(volts(level));
        drawing.line({left_margin, y}, {right, y}, Stroke::grid);
        drawing.text({left_margin - 5.0, y + 4.5}, fmt::format("{:.1f} V", level), Anchor::end);
    }
    const auto label = [&](double x, Voltage voltage, double off, Anchor anchor, const std::string& before = {}) {
        drawing.free_text({x, y_at(voltage) + off}, before + show(voltage), anchor, 0.0, bottom - 1.0);
    };
    if (charger)
        drawing.line({left_margin, y_at(charger->input_off)}, {in_x, y_at(charger->input_off)}, Stroke::dotted);
    drawing.path({{left_margin, y_at(usual.source)}, {in_x, y_at(usual.far_end)}}, Stroke::heavy);
    if (low) drawing.path({{left_margin, y_at(low->input.source)}, {in_x, y_at(low->far_end)}}, Stroke::dashed);
    if (out) drawing.path({{out_x, y_at(out->source)}, {right, y_at(out->far_end)}}, Stroke::heavy);
    label(left_margin + 6.0, usual.source, -7.0, Anchor::start);
    label(in_x - 5.0, usual.far_end, -9.0, Anchor::end);
    if (low) {
        label(left_margin + 6.0, low->input.source, 18.0, Anchor::start);
        label(in_x - 5.0, low->far_end, 16.0, Anchor::end);
    }
    if (out) {
        label(out_x + 5.0, out->source, -7.0, Anchor::start);
        label(right - 4.0, out->far_end, 18.0, Anchor::end);
    }
    if (charger) label(left_margin + 6.0, charger->input_off, 15.0, Anchor::start, "gives up below ");

    drawing.text({left_margin, bottom + 16.0}, "starter");
    drawing.text({left_margin, bottom + 32.0}, "battery");
    drawing.text({(in_x + out_x) / 2.0, bottom + 16.0}, "charger", Anchor::middle);
    drawing.text({right, bottom + 16.0}, "house", Anchor::end);
    drawing.text({right, bottom + 32.0}, "battery", Anchor::end);

    std::string words = "Solid: engine running as usual. ";
    if (low) words += "Dashed: at its lowest. ";
    if (charger) words += "Dotted: where the charger gives up. ";
    words += "With the engine running as usual " + show(usual.source) + " at the starter battery become " +
             show(usual.far_end) + " at the charger";
    if (low) words += "; at the lowest running voltage " + show(low->input.source) + " become " + show(low->far_end);
    if (charger) words += ". The charger gives up below " + show(charger->input_off);
    if (out)
        words += ". It gives " + show(out->source) + ", of which " + show(out->far_end) + " reach the house battery";
    return Chart{std::move(drawing), words + "."};
}

}  // namespace voltwright
