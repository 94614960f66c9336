#include "voltwright/report/chart.hpp"
#include "voltwright/report/chart_frame.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace voltwright {

namespace {

/// The voltages from the starter battery to the house battery.
struct FeedVoltages {
    const NetworkFigures* usual;   ///< of the feed, engine running as usual
    const LowestInput* low;        ///< at its lowest; nullptr where it is not known
    const ConverterLoad* charger;  ///< nullptr where something else is fed
    const NetworkFigures* output;  ///< from the charger on; nullptr where it is not known
    std::string_view between;      ///< "charger", or "relay"
};

/// Empty where no run with figures leads from the starter battery.
std::optional<FeedVoltages> voltages_of(const Plan& plan) {
    const auto of_role = [&](RunRole role) {
        const auto found =
            std::find_if(plan.runs.begin(), plan.runs.end(), [&](const RunPlan& run) { return run.task.role == role; });
        return found == plan.runs.end() ? nullptr : &*found;
    };
    const RunPlan *feed = of_role(RunRole::feed), *output = of_role(RunRole::output);
    if (!feed || feed->task.from.kind != PlaceKind::starter_battery || !feed->figures) return {};
    const auto& low = feed->taken()->lowest;
    return FeedVoltages{&*feed->figures, low ? &*low : nullptr, std::get_if<ConverterLoad>(&feed->task.load),
                        output && output->figures ? &*output->figures : nullptr, show(feed->task.to)};
}

/// Where they are drawn: the charger is a band between two cables.
struct FeedField {
    ChartFrame frame;
    double low_end, high_end;  ///< volts

    [[nodiscard]] double y_at(Voltage voltage) const {
        return frame.bottom - frame.tall() * (in_volts(voltage) - low_end) / (high_end - low_end);
    }
    [[nodiscard]] double charger_in() const { return frame.left + 0.56 * frame.wide(); }
    [[nodiscard]] double charger_out() const { return frame.left + 0.66 * frame.wide(); }
};

FeedField field_for(const FeedVoltages& feed, double across) {
    std::vector<Voltage> all = {feed.usual->source, feed.usual->far_end};
    if (feed.low) all.insert(all.end(), {feed.low->input.source, feed.low->far_end});
    if (feed.charger) all.push_back(feed.charger->input_off);
    if (feed.output) all.insert(all.end(), {feed.output->source, feed.output->far_end});
    const auto [least, most] = std::minmax_element(all.begin(), all.end());
    return {{.across = across, .top = 14.0, .bottom = 200.0},
            std::floor((in_volts(*least) - 0.3) * 2.0) / 2.0,
            std::ceil((in_volts(*most) + 0.2) * 2.0) / 2.0};
}

void draw_field(Drawing& drawing, const FeedField& field) {
    const ChartFrame& frame = field.frame;
    drawing.band({field.charger_in(), frame.top}, field.charger_out() - field.charger_in(), frame.tall());
    const double tick = field.high_end - field.low_end > 4.0 ? 1.0 : 0.5;
    for (double level = std::ceil(field.low_end / tick) * tick; level <= field.high_end + 1e-9; level += tick)
        frame.level(drawing, field.y_at(volts(level)), fmt::format("{:.1f} V", level));
}

void draw_voltages(Drawing& drawing, const FeedField& field, const FeedVoltages& feed) {
    const double left = field.frame.left, in = field.charger_in();
    if (feed.charger) {
        const double y = field.y_at(feed.charger->input_off);
        drawing.line({left, y}, {in, y}, Stroke::dotted);
    }
    drawing.path({{left, field.y_at(feed.usual->source)}, {in, field.y_at(feed.usual->far_end)}}, Stroke::heavy);
    if (feed.low)
        drawing.path({{left, field.y_at(feed.low->input.source)}, {in, field.y_at(feed.low->far_end)}}, Stroke::dashed);
    if (feed.output)
        drawing.path({{field.charger_out(), field.y_at(feed.output->source)},
                      {field.frame.right(), field.y_at(feed.output->far_end)}},
                     Stroke::heavy);
}

void draw_labels(Drawing& drawing, const FeedField& field, const FeedVoltages& feed) {
    const double left = field.frame.left + 6.0, in = field.charger_in() - 5.0;
    const auto label = [&](double x, Voltage voltage, double off, Anchor anchor, const std::string& before = {}) {
        drawing.free_text({x, field.y_at(voltage) + off}, before + show(voltage), anchor, 0.0,
                          field.frame.bottom - 1.0);
    };
    label(left, feed.usual->source, -7.0, Anchor::start);
    label(in, feed.usual->far_end, -9.0, Anchor::end);
    if (feed.low) {
        label(left, feed.low->input.source, 18.0, Anchor::start);
        label(in, feed.low->far_end, 16.0, Anchor::end);
    }
    if (feed.output) {
        label(field.charger_out() + 5.0, feed.output->source, -7.0, Anchor::start);
        label(field.frame.right() - 4.0, feed.output->far_end, 18.0, Anchor::end);
    }
    if (feed.charger) label(left, feed.charger->input_off, 15.0, Anchor::start, "gives up below ");
}

/// What stands at the two ends and in between.
void draw_places(Drawing& drawing, const FeedField& field, const FeedVoltages& feed) {
    const ChartFrame& frame = field.frame;
    const double first = frame.bottom + 16.0, second = frame.bottom + 32.0;
    drawing.text({frame.left, first}, "starter");
    drawing.text({frame.left, second}, "battery");
    drawing.text({(field.charger_in() + field.charger_out()) / 2.0, first}, std::string(feed.between), Anchor::middle);
    drawing.text({frame.right(), first}, "house", Anchor::end);
    drawing.text({frame.right(), second}, "battery", Anchor::end);
}

std::string feed_words(const FeedVoltages& feed) {
    std::string words = "Solid: engine running as usual. ";
    if (feed.low) words += "Dashed: at its lowest. ";
    if (feed.charger) words += "Dotted: where the charger gives up. ";
    words += "With the engine running as usual " + show(feed.usual->source) + " at the starter battery become " +
             show(feed.usual->far_end) + " at the " + std::string(feed.between);
    if (feed.low)
        words +=
            "; at the lowest running voltage " + show(feed.low->input.source) + " become " + show(feed.low->far_end);
    if (feed.charger) words += ". The charger gives up below " + show(feed.charger->input_off);
    if (feed.output && !feed.charger)
        words += "; " + show(feed.output->far_end) + " reach the house battery";
    else if (feed.output)
        words += ". It gives " + show(feed.output->source) + ", of which " + show(feed.output->far_end) +
                 " reach the house battery";
    return words + ".";
}

}  // namespace

std::optional<Chart> feed_line(const Plan& plan, Room room, const std::string& name) {
    const auto feed = voltages_of(plan);
    if (!feed) return {};
    const FeedField field = field_for(*feed, units_across(room));
    Drawing drawing(name, field.frame.across);
    draw_field(drawing, field);
    draw_voltages(drawing, field, *feed);
    draw_labels(drawing, field, *feed);
    draw_places(drawing, field, *feed);
    return Chart{std::move(drawing), feed_words(*feed)};
}

}  // namespace voltwright
