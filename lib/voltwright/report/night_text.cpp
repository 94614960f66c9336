#include "voltwright/report/night_text.hpp"

#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

constexpr Duration whole_day = hours(24);

std::string title(std::string_view words, const Style& style) { return "\n" + bold(words, style) + "\n"; }

/// "  from a full battery          about 42 h, then half is used"
std::string row(std::string_view left, std::string_view right, std::size_t column, const Style& style) {
    const std::string label = padded("  " + std::string(left), column) + "  ";
    return wrap(printable(spelled(right, style), style), style, printable(label, style), column + 2);
}

/// "2 h 30 min": by ten minutes, below an hour by one. What lasts is rounded down and what has to be done is rounded up,
/// but never for a tenth of a step.
enum class Towards { less, more };
std::string hours_words(Duration duration, Towards towards) {
    const double step = duration < hours(1) - minutes(1) ? 1.0 : 10.0;
    const double steps = in_minutes(duration) / step;
    const int count =
        static_cast<int>(step * (towards == Towards::less ? std::floor(steps + 0.1) : std::ceil(steps - 0.1)));
    if (count < 1) return "less than a minute";
    std::string words = count < 60 ? "" : std::to_string(count / 60) + " h";
    if (count % 60 > 0) words += (words.empty() ? "" : " ") + std::to_string(count % 60) + " min";
    return words;
}

std::string about_so_long(Duration duration) {
    const std::string words = hours_words(duration, Towards::less);
    return (words.starts_with("less") ? "" : "about ") + words;
}

/// It began at its limit, or below it.
bool at_limit_already(const Autonomy& autonomy) {
    return autonomy.ended_by == EndedBy::depth_limit && !(autonomy.lasts > Duration{});
}

/// "50 %", or "55.2 % (50 %, more in the cold)"
std::string limit_words(const Autonomy& autonomy, Ratio depth_limit) {
    const std::string now = show(autonomy.limit), warm = show(Ratio{1.0 - depth_limit});
    return now == warm ? now : now + " (" + warm + ", more in the cold)";
}

std::string amount(Charge charge) {
    const double count = in_ampere_hours(charge);
    if (std::abs(count) < 0.05) return "0.0 Ah";
    return std::abs(count) < 9.95 ? fmt::format("{:.1f} Ah", count) : fmt::format("{:.0f} Ah", count);
}

std::string drives_words(const Plan& plan) {
    const Trip& trip = plan.night.trip;
    const std::size_t days = trip.days.size();
    if (!(trip.driven > Duration{})) return counted(days, "day, no driving", "days, no driving");
    // To the minute: of a sum of many steps the last digits are chance.
    const Duration a_day = minutes(std::round(in_minutes(trip.driven / static_cast<double>(days))));
    return counted(days, "day, ", "days, ") + show(a_day) + " driving a day";
}

std::string trip_words(const Night& night) {
    const Trip& trip = night.trip;
    // The battery that it rests on is not the one whose lowest is known.
    if (night.house_idle()) return night.holds() ? "holds" : "does not hold";
    const std::string lowest = "lowest " + show(trip.lowest) + ", " + show(trip.lowest_at);
    if (night.holds()) return "holds; " + lowest;
    std::string words = "does not hold; " + lowest;
    if (trip.essential_off() > Duration{}) words += "; essential loads off for " + show(trip.essential_off());
    return words;
}

}  // namespace

std::string ended_words(const Autonomy& autonomy, Ratio depth_limit) {
    switch (autonomy.ended_by) {
        case EndedBy::trip: return "and more: nothing ended it";
        case EndedBy::depth_limit:
            if (show(autonomy.limit) == show(Ratio{1.0 - depth_limit}))
                return "then " + show(depth_limit) + " of the capacity is used";
            return "then it is down to its limit of " + limit_words(autonomy, depth_limit);
        case EndedBy::cut_out:
            return "then the " + autonomy.ended_name + " switches itself off, at " + show(autonomy.end);
        case EndedBy::flat: return "then the battery gives no more";
    }
    return {};
}

namespace {

std::string autonomy_words(const Autonomy& autonomy, Ratio depth_limit) {
    if (at_limit_already(autonomy)) {
        const bool below = show(autonomy.from) != show(autonomy.limit);
        return "it is " + std::string(below ? "below" : "at") + " its limit of " + limit_words(autonomy, depth_limit) +
               " already";
    }
    return about_so_long(autonomy.lasts) + ", " + ended_words(autonomy, depth_limit);
}

std::string setting_of_guard(GuardSetting setting) {
    return setting == GuardSetting::high ? "high setting" : "standard setting";
}

std::string driving_words(const DrivingWorth& driving) {
    if (driving.an_hour < Charge{}) return "an hour of driving costs " + amount(-driving.an_hour);
    return "an hour of driving puts back " + amount(driving.an_hour) + " on this trip, " + amount(driving.first_hour) +
           " when the battery is down to its limit";
}

std::string night_words(const Night& night) {
    const std::string use = night.between_drives()
                                ? "between two drives (" + clock_of(night.night_from) + " to " +
                                      clock_of(night.night_to) + ") the loads take " + amount(night.a_night)
                                : "a day and a night take " + amount(night.a_night);
    return night.driving ? use + "; " + driving_words(*night.driving) : use;
}

/// "about 24 h, then it is down to 50 %; 19 Ah in 21 h without the engine (fridge)"
std::string starter_words(const StarterLoads& starter) {
    const std::string lasts = starter.lasts ? about_so_long(*starter.lasts) : "weeks";
    return lasts + ", then it is down to " + show(starter.least) + "; " + amount(starter.taken) + " in " +
           hours_words(starter.stand, Towards::more) + " without the engine (" + starter.names() + ")";
}

std::string fridge_words(const FridgeNeed& fridge) {
    const std::string cool = amount(fridge.a_day_cool), hot = amount(fridge.a_day_hot);
    return "takes " + (cool == hot ? hot : cool + " to " + hot) + " a day; runs " + show(fridge.least_duty) + " to " +
           show(fridge.greatest_duty) + " of the time";
}

}  // namespace

std::vector<SettingWords> settings_in_words(const Night& night) {
    const Settings& settings = night.settings;
    std::vector<SettingWords> words;
    if (settings.guard) {
        const std::string high = show(settings.guard->high);
        words.push_back({"fridge guard", "off at " + show(settings.guard->standard) + ", not at " + high,
                         night.other_autonomy
                             ? "from full it runs " + autonomy_words(*night.other_autonomy, night.depth_limit) +
                                   "; at " + high + " " + autonomy_words(night.autonomy, night.depth_limit)
                             : "the cables are chosen for it"});
    }
    for (const Settings::StarterGuard& guard : settings.starter_guards)
        words.push_back({guard.name + " guard",
                         "off at " + show(guard.set.cut_out) + ", on again at " +
                             show(guard.set.cut_in.value_or(guard.set.cut_out)),
                         "made for a battery that also starts the engine"});
    words.push_back({"charger profile",
                     show(settings.absorption) + " absorption, " + show(settings.float_) + " float" +
                         (settings.compensated ? ", with temperature compensation" : ", no temperature compensation"),
                     "what a house battery of this kind wants"});
    if (settings.wake_wire)
        words.push_back({"charger's wake wire", "to a circuit that the ignition switches, with its own small fuse",
                         "so that it sleeps when the engine does"});
    return words;
}

std::vector<NightWords> night_in_words(const Plan& plan) {
    const Night& night = plan.night;
    std::vector<NightWords> lines;
    if (night.starter) lines.push_back({"from the starter battery", starter_words(*night.starter)});
    if (night.house_idle())
        lines.push_back({"from the house battery", "no load"});
    else
        lines.push_back({night.starter ? "from the house battery, full" : "from full, on the hottest day",
                         autonomy_words(night.autonomy, night.depth_limit)});
    if (night.other_autonomy)
        lines.push_back(
            {"guard at its standard setting", autonomy_words(*night.other_autonomy, night.depth_limit), true});
    lines.push_back({drives_words(plan), trip_words(night)});
    if (!night.house_idle()) lines.push_back({{}, night_words(night)});
    for (const FridgeNeed& fridge : night.fridges)
        lines.push_back({{}, "the " + fridge.name + " " + fridge_words(fridge)});
    return lines;
}

std::string night_sections(const Plan& plan, const Style& style) {
    const Night& night = plan.night;
    std::string text = title("Set these", style);
    for (const SettingWords& setting : settings_in_words(night))
        text += wrap(printable(spelled(setting.what + ": " + setting.value + "; " + setting.why, style), style), style,
                     "  ", 4);
    text += title(night.fridges.empty() ? "With the engine off" : "Fridge and loads with the engine off", style);
    constexpr std::size_t column = 33;
    for (const NightWords& line : night_in_words(plan))
        text += line.what.empty() ? wrap(printable(spelled(line.words, style), style), style, "  ", 4)
                                  : row((line.beneath ? "  " : "") + line.what, line.words, column, style);
    return text;
}

// ---- autonomy -------------------------------------------------------------------------------------------------------

std::string autonomy_line(const AutonomyAnswer& answer) {
    const std::string stops =
        answer.holds() ? "" : "  " + counted(answer.stops.size(), "thing stops it.", "things stop it.");
    if (answer.house_idle)
        return "FROM THE STARTER BATTERY: " + starter_words(*answer.starter) + ". The house battery feeds no load." +
               stops;
    const Autonomy& worst = answer.high && answer.high->lasts < answer.standard.lasts ? *answer.high : answer.standard;
    std::string words = autonomy_words(worst, answer.depth_limit);
    if (words.starts_with("about")) words.replace(0, 5, "ABOUT");
    return "FROM " + show(worst.from) + ": " + words + "." + stops;
}

std::string autonomy_page(const AutonomyAnswer& answer, const Style& style) {
    std::string page = bold(headline(printable(spelled(autonomy_line(answer), style), style), style), style);
    if (answer.house_idle) return page + findings_section(answer.stops, Level::stop, "What stops it", style);
    page += "\n";
    constexpr std::size_t column = 33;
    const Autonomy& standard = answer.standard;
    if (answer.starter) page += row("from the starter battery", starter_words(*answer.starter), column, style);
    page += row("from",
                show(standard.from) + " at " + clock_of(standard.starts_at) + ", on the trip's hottest day, " +
                    "engine and sun off",
                column, style);
    if (answer.high) {
        page += row("guard at its standard setting", autonomy_words(standard, answer.depth_limit), column, style);
        page += row("guard at its high setting", autonomy_words(*answer.high, answer.depth_limit), column, style);
    }
    if (standard.lasts > Duration{}) {
        page += row("taken from the battery", amount(standard.used), column, style);
        if (standard.ended_by != EndedBy::trip)
            page += row("it ends", when(moment(standard.starts_at + standard.lasts)), column, style);
    }
    if (answer.driving) {
        page += row("to put it back", driving_words(*answer.driving), column, style);
        if (answer.to_put_back && *answer.to_put_back > Duration{})
            page += row("",
                        "at the latter rate " + hours_words(*answer.to_put_back, Towards::more) +
                            " of driving, and longer near full",
                        column, style);
    }
    return page + findings_section(answer.stops, Level::stop, "What stops it", style);
}

// ---- trip -----------------------------------------------------------------------------------------------------------

namespace {

/// State of charge at a time, in a straight line between two points.
double soc_at(const std::vector<TripPoint>& points, Duration time) {
    const auto after = std::lower_bound(points.begin(), points.end(), time,
                                        [](const TripPoint& point, Duration t) { return point.at < t; });
    if (after == points.begin()) return in_ratio(points.front().soc);
    if (after == points.end()) return in_ratio(points.back().soc);
    const auto before = after - 1;
    const double share = (time - before->at) / (after->at - before->at);
    return in_ratio(before->soc) + share * in_ratio(after->soc - before->soc);
}

bool drives_between(const std::vector<TripPoint>& points, Duration from, Duration to) {
    // A point closes its interval.
    for (std::size_t i = 1; i < points.size(); ++i)
        if (points[i].driving && points[i].at > from && points[i - 1].at < to) return true;
    return false;
}

bool dark(Duration time) {
    const double hour = in_hours(moment(time).clock);
    return hour < 6.0 || hour >= 18.0;
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

}  // namespace

std::string soc_chart(const std::vector<TripPoint>& points, Ratio depth_limit, const Style& style) {
    if (points.size() < 2) return {};
    constexpr std::size_t rows = 10, margin = 7;
    const auto columns = static_cast<std::size_t>(std::clamp(style.width - 2, 34, 120)) - margin;
    const Duration from = points.front().at, to = points.back().at;
    const auto time_at = [&](double share) { return from + share * (to - from); };

    Dots dots(columns, rows);
    const std::size_t tall = rows * 2;
    const auto height = [&](double soc) {
        return static_cast<std::size_t>(std::lround((1.0 - std::clamp(soc, 0.0, 1.0)) * static_cast<double>(tall - 1)));
    };
    std::size_t before = height(in_ratio(points.front().soc));
    for (std::size_t x = 0; x < columns; ++x) {
        const std::size_t y =
            height(soc_at(points, time_at((static_cast<double>(x) + 0.5) / static_cast<double>(columns))));
        for (std::size_t i = std::min(y, before); i <= std::max(y, before); ++i) dots.set(x, i);
        before = y;
    }

    const std::size_t limit_row = height(1.0 - in_ratio(depth_limit)) / 2;
    std::string text;
    for (std::size_t row = 0; row < rows; ++row) {
        const std::string label = row == 0           ? "100 %"
                                  : row == limit_row ? show(Ratio{1.0 - depth_limit})
                                  : row == rows - 1  ? "0 %"
                                                     : "";
        text += padded_left(label, margin - 1) + (style.unicode ? "\u2502" : "|");
        for (std::size_t column = 0; column < columns; ++column) {
            std::string_view cell = dots.cell(column, row, style.unicode);
            if (cell == " " && row == limit_row) cell = style.unicode ? "\u2508" : "-";
            text += cell;
        }
        end_line(text);
    }
    const auto marks = [&](std::string_view label, auto&& mark) {
        text += padded_left(label, margin - 1) + " ";
        for (std::size_t column = 0; column < columns; ++column)
            text += mark(time_at(static_cast<double>(column) / static_cast<double>(columns)),
                         time_at(static_cast<double>(column + 1) / static_cast<double>(columns)));
        end_line(text);
    };
    marks("night", [&](Duration a, Duration b) {
        return std::string(dark((a + b) / 2.0) ? (style.unicode ? "\u2592" : "#") : " ");
    });
    marks("drive", [&](Duration a, Duration b) {
        return std::string(drives_between(points, a, b) ? (style.unicode ? "\u25b2" : "^") : " ");
    });
    // Day numbers, each where its day begins.
    std::string days(columns, ' ');
    std::size_t free = 0;
    for (int day = 1; whole_day * static_cast<double>(day - 1) < to; ++day) {
        const double share = std::max<double>((whole_day * static_cast<double>(day - 1) - from) / (to - from), 0.0);
        const auto column = static_cast<std::size_t>(share * static_cast<double>(columns));
        const std::string number = std::to_string(day);
        if (column < free || column + number.size() > columns) continue;
        days.replace(column, number.size(), number);
        free = column + number.size() + 1;
    }
    while (!days.empty() && days.back() == ' ') days.pop_back();
    return text + padded_left("day", margin - 1) + " " + days + "\n";
}

namespace {

std::string day_table(const Trip& trip) {
    std::string text = "  day   used Ah   charged Ah   lowest   at midnight\n";
    for (const DayTotals& day : trip.days)
        text += fmt::format("  {:>3}{:>10.1f}{:>13.1f}{:>8.0f} %{:>12.0f} %\n", day.day, in_ampere_hours(day.used),
                            in_ampere_hours(day.charged), in_percent(day.lowest), in_percent(day.end));
    return text;
}

std::string where_it_went(const Trip& trip, const Style& style) {
    const Ledger& ledger = trip.ledger;
    std::size_t widest = 24;
    for (const Served& served : trip.served) widest = std::max(widest, columns_of(printable(served.name, style)) + 2);
    const auto line = [&](std::string_view what, Charge charge, const std::string& more = {}) {
        return "  " + padded(printable(what, style), widest) + padded_left(amount(charge), 9) +
               (more.empty() ? "" : "   " + more) + "\n";
    };
    std::string text;
    text += line("from the charger", ledger.from_charger);
    if (ledger.from_sun > Charge{}) text += line("from the sun", ledger.from_sun);
    for (const Served& served : trip.served)
        text += line(
            served.name, -served.used,
            served.off > Duration{} ? "off for " + show(served.off) + ", " + show(served.unserved) + " missed" : "");
    text += line("lost in charging", -ledger.gassed);
    text += line("self-discharge", -ledger.leaked);
    text +=
        line(ledger.now < ledger.at_start ? "out of the battery" : "into the battery", ledger.at_start - ledger.now);
    return text;
}

}  // namespace

std::string findings_section(const Findings& findings, Level level, std::string_view heading, const Style& style) {
    const auto colored = [&](std::string_view text) {
        return level == Level::stop ? red(text, style) : level == Level::warn ? yellow(text, style) : std::string(text);
    };
    std::string text;
    std::size_t number = 0;
    for (const Finding& finding : findings) {
        if (finding.level != level) continue;
        const std::string words = printable(spelled(show(finding) + " " + finding.remedy, style), style);
        const std::string label = "  " + padded(std::to_string(++number), 3);
        text += wrap(words, style, colored(label), columns_of(label));
    }
    return text.empty() ? text : title(heading, style) + text;
}

std::string trip_line(const Plan& plan) {
    const Trip& trip = plan.night.trip;
    const std::string verdict = plan.night.holds() ? "THE TRIP HOLDS." : "THE TRIP DOES NOT HOLD.";
    if (plan.night.house_idle()) return verdict + "  The house battery feeds no load.";
    return verdict + "  Lowest " + show(trip.lowest) + ", " + show(trip.lowest_at) + ".";
}

std::string trip_page(const Plan& plan, const Style& style) {
    const Night& night = plan.night;
    const std::string verdict = headline(printable(spelled(trip_line(plan), style), style), style);
    std::string page = night.holds() ? bold(verdict, style) : red(verdict, style);
    if (!plan.title.empty()) page += printable(plan.title, style) + "\n";
    if (!night.guard_known && night.other)
        page += "\n" + wrap("The fridge's guard is taken at its " + setting_of_guard(night.guard) +
                                ", the worse of the two usual ones" +
                                (night.other->holds() != night.trip.holds()
                                     ? "; at the other nothing that is essential goes off."
                                     : "."),
                            style);
    page += title("State of charge", style) + soc_chart(night.trip.points, night.depth_limit, style);
    page += title("Day by day", style) + day_table(night.trip);
    if (!night.house_idle()) page += wrap(printable(spelled(night_words(night), style), style), style, "  ", 4);
    if (night.starter)
        page +=
            wrap(printable(
                     spelled("not in these figures, from the starter battery: " + starter_words(*night.starter), style),
                     style),
                 style, "  ", 4);
    page += title("Where it went", style) + where_it_went(night.trip, style);
    page += findings_section(night.findings, Level::stop, "What stops it", style);
    page += findings_section(night.findings, Level::warn, "Warnings", style);
    return page + findings_section(night.findings, Level::note, "To note", style);
}

std::string trip_csv(const Plan& plan) {
    std::string text = "day,clock,hours,soc_percent,battery_V,battery_A,source_A,driving,outside_C,battery_C\n";
    for (const TripPoint& point : plan.night.trip.points) {
        const Moment then = moment(point.at);
        text += fmt::format("{},{},{:.4f},{:.2f},{:.3f},{:.3f},{:.3f},{},{:.1f},{:.1f}\n", then.day,
                            clock_of(then.clock), in_hours(point.at), in_percent(point.soc), in_volts(point.terminals),
                            in_amperes(point.battery) + 0.0, in_amperes(point.source) + 0.0, point.driving ? 1 : 0,
                            in_celsius(point.air), in_celsius(point.battery_temperature));
    }
    return text;
}

}  // namespace voltwright
