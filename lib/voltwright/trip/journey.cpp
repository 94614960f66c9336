#include "voltwright/trip/journey.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/energy/charger.hpp"
#include "voltwright/energy/sun.hpp"
#include "voltwright/energy/weather.hpp"

#include <algorithm>
#include <chrono>
#include <stdexcept>

namespace voltwright {

namespace {

constexpr Duration whole_day = hours(24);
constexpr int minutes_a_day = 24 * 60;

Duration clock(ClockTime time) { return minutes(time.minutes); }

/// A temperature of its own, or a place that the weather reaches.
struct Standing {
    std::optional<Temperature> fixed;
    const SurroundingsRow* place = nullptr;

    [[nodiscard]] Temperature around(Temperature air, bool driving, Ratio sun) const {
        return fixed ? *fixed : around_at(*place, air, driving, sun);
    }
};

Standing standing(const Somewhere& where, const Tables& tables) {
    if (const auto* own = std::get_if<Spread<Temperature>>(&where)) return {own->value, nullptr};
    return {{}, find_surroundings(tables, std::get<std::string>(where))};
}

bool on_at(const std::vector<ClockWindow>& windows, Duration time) {
    return std::any_of(windows.begin(), windows.end(),
                       [minute = in_minutes(time)](const ClockWindow& window) { return window.holds(minute); });
}

int day_of_year(CalendarDate date) {
    using namespace std::chrono;
    const year_month_day then{year{date.year}, month{static_cast<unsigned>(date.month)},
                              day{static_cast<unsigned>(date.day)}};
    return static_cast<int>((sys_days{then} - sys_days{then.year() / January / 1}).count()) + 1;
}

/// Of a year that is no leap year.
int month_of(int day_of_year) {
    using namespace std::chrono;
    return static_cast<int>(
        static_cast<unsigned>(year_month_day{sys_days{year{2001} / January / 1} + days{day_of_year - 1}}.month()));
}

/// What a consumer needs beside what the march sees: when it runs.
struct Schedule {
    std::vector<ClockWindow> hours;
    Ratio duty = 1.0;
    const FridgeKeys* fridge = nullptr;
    Fridge appetite = {};
    Standing where = {};
    Energy put_in = {};  ///< with warm things, to be taken out from this interval on
};

/// Builds a journey from a system.
class Maker {
public:
    Maker(const System& system, const std::vector<LaidRun>& runs, const Tables& tables, FedBy fed_by = FedBy::house)
        : profile_(system.complete),
          system_(system),
          runs_(runs),
          tables_(tables),
          fed_by_(fed_by),
          fridge_row_(tables.fridges.front()) {
        for (const SystemRun& run : system.runs)
            if (run.role != RunRole::solar && !laid_to(run.to.name))
                throw std::invalid_argument("no cable is laid to " + run.to.name);
        journey_.battery =
            house_battery(*system.house.chemistry, profile_.battery.capacity->value, *profile_.battery.count,
                          profile_.battery.health->value, system.house.internal, tables);
        journey_.depth_limit = profile_.battery.depth_limit->value;
        journey_.start_soc = profile_.battery.start_soc->value;
        journey_.charger = charger_point();
        journey_.output_path = path_to("battery").loop;
        gather_consumers();
        battery_where_ = standing(*profile_.battery.where, tables);
        charger_where_ = standing(*profile_.charger.where, tables);
        lag_ = find_lag(tables, "battery")->time_constant;
        days_ = *profile_.trip.days;
    }

    Journey trip() && {
        expect_days(days_);
        for (int day = 1; day <= days_; ++day)
            pass_day(day, day_at(day - 1), day_at(day), day_at(day + 1), Duration{}, whole_day, true);
        return finish();
    }

    Journey stand(Duration from, int days) && {
        const TripDay hottest = hottest_day();
        expect_days(days);
        restocking_ = false;
        for (int day = 1; day <= days; ++day)
            pass_day(day, hottest, hottest, hottest, day == 1 ? from : Duration{}, whole_day, false);
        return finish();
    }

    std::optional<Journey> one_drive(Duration length) && {
        const TripDay usual = day_at(0);
        if (usual.drives.empty()) return {};
        TripDay lone = usual;
        const Duration from = clock(usual.drives.front().from);
        const ClockTime begin = usual.drives.front().from;
        const int end = begin.minutes + static_cast<int>(in_minutes(length));
        if (end > minutes_a_day) return {};
        lone.drives = {{begin, ClockTime{end}}};
        restocking_ = false;
        pass_day(1, lone, lone, lone, from, from + length, true);
        return finish();
    }

private:
    // ---- what there is -----------------------------------------------------------------------------------------------

    /// The run that ends at a place; nullptr when none leads there. Throws when one does and was not laid: nothing is
    /// charged or fed through an ideal cable.
    [[nodiscard]] const LaidRun* laid_to(std::string_view place) const {
        const auto leads = [place](const SystemRun& run) { return run.to.name == place && run.role != RunRole::solar; };
        for (const LaidRun& run : runs_)
            if (leads(*run.run)) return &run;
        if (std::any_of(system_.runs.begin(), system_.runs.end(), leads))
            throw std::invalid_argument("the run to " + std::string(place) + " is not among those laid");
        return nullptr;
    }

    /// All runs between a source and a place.
    struct Path {
        std::optional<PlaceKind> source;  ///< empty when no run leads there
        Resistance loop{};
        bool brings = true;
    };

    [[nodiscard]] Path path_to(std::string_view place) const {
        Path path;
        for (const LaidRun* run = laid_to(place); run; run = laid_to(run->run->from.name)) {
            path.loop += run->loop;
            path.brings = path.brings && run->brings;
            path.source = run->run->from.kind;
            if (is_source(run->run->from)) break;
        }
        return path;
    }

    /// Everything between the battery whose loads are looked at and a place, or nothing where no run leads there; empty
    /// when something else feeds it.
    [[nodiscard]] std::optional<Path> path_from_battery(std::string_view place) const {
        const Path path = path_to(place);
        if (path.source == PlaceKind::charger ||
            (path.source == PlaceKind::starter_battery) != (fed_by_ == FedBy::starter))
            return {};
        return path;
    }

    [[nodiscard]] ChargerPoint charger_point() const {
        const ChargerKeys& keys = profile_.charger;
        const Voltage running = profile_.starter.running->value;
        ChargerPoint point{.efficiency = keys.efficiency->value,
                           .absorption = keys.absorption->value,
                           .source = running,
                           .unloaded = running,
                           .loaded = Voltage{},
                           .input = Current{},
                           .input_on = keys.input_on->value,
                           .input_off = keys.input_off->value,
                           .output = Current{}};
        const ConverterPower power =
            converter_power(keys.output->value, keys.absorption->value, keys.efficiency->value);
        std::optional<Current> limit;
        if (keys.input_limit) limit = keys.input_limit->value;
        const Path feed = path_to("charger");
        const auto input = feed.brings ? converter_input(running, feed.loop, power.power, limit) : std::nullopt;
        if (!input) return point;
        point.loaded = input->voltage;
        point.input = input->current;
        if (!point.starts() || point.cycles()) return point;
        point.output = input->limited
                           ? std::min<Current>(keys.output->value, keys.efficiency->value * input->voltage *
                                                                       input->current / keys.absorption->value)
                           : keys.output->value;
        return point;
    }

    [[nodiscard]] Guard guard_of(const FridgeKeys& fridge, std::string_view setting) const {
        // The high one is made for a battery that has to start the engine.
        const FridgeGuardRow& usual = *find_fridge_guard(tables_, fed_by_ == FedBy::starter ? "high" : setting);
        if (!fridge.cut_out && !fridge.cut_in) return {usual.cut_out, usual.cut_in};
        const Voltage gap = usual.cut_in - usual.cut_out;
        const Voltage out = fridge.cut_out ? fridge.cut_out->value : fridge.cut_in->value - gap;
        return {out, fridge.cut_in ? fridge.cut_in->value : out + gap};
    }

    [[nodiscard]] Fridge appetite_of(const FridgeKeys& fridge) const {
        std::vector<RatedPoint> points;
        if (fridge.rated)
            for (const RatedKeys& rated : *fridge.rated) {
                const Power mean = std::visit([](const auto& a_day) { return mean_power(a_day.value); }, *rated.a_day);
                points.push_back({rated.around->value, rated.inside ? rated.inside->value : fridge_row_.inside, mean});
            }
        if (points.empty())
            return fridge_by_volume(fridge.litres ? fridge.litres->value : fridge_row_.volume, fridge_row_);
        if (points.size() == 1) return fit_fridge(points.front(), fridge_row_.fixed_share, fridge_row_);
        std::sort(points.begin(), points.end(),
                  [](const RatedPoint& a, const RatedPoint& b) { return a.around < b.around; });
        return fit_fridge(points.front(), points.back(), fridge_row_);
    }

    void gather_consumers() {
        for (const FridgeKeys& keys : profile_.fridges) {
            const auto path = path_from_battery(*keys.name);
            if (!path) continue;
            journey_.consumers.push_back({*keys.name,
                                          keys.draw->value,
                                          path->loop,
                                          *keys.essential,
                                          true,
                                          {{guard_of(keys, "standard"), guard_of(keys, "high")}}});
            schedules_.push_back({{}, 1.0, &keys, appetite_of(keys), standing(*keys.where, tables_)});
        }
        std::vector<ClockWindow> inverted;
        bool any_inverted = false;
        for (const LoadKeys& keys : profile_.loads) {
            const bool through = keys.through.has_value();
            const auto path = path_from_battery(through ? "inverter" : *keys.name);
            if (!path) continue;
            Consumer consumer{*keys.name, Power{}, path->loop, *keys.essential, false, {}};
            std::visit([&](const auto& draw) { consumer.draw = draw.value; }, *keys.draw);
            if (through) {
                consumer.draw = std::get<Power>(consumer.draw) / profile_.inverter->efficiency->value;
                any_inverted = true;
                inverted.insert(inverted.end(), keys.hours->begin(), keys.hours->end());
            }
            if (keys.cut_out) {
                Guard guard{keys.cut_out->value, {}};
                if (keys.cut_in) guard.cut_in = keys.cut_in->value;
                consumer.guards = {guard, guard};
            } else if (!path->brings) {
                // What cannot be brought is not had: it is off.
                consumer.guards = {Guard{end_of_rating, {}}, Guard{end_of_rating, {}}};
            }
            journey_.consumers.push_back(std::move(consumer));
            schedules_.push_back({*keys.hours, keys.duty->value});
        }
        if (any_inverted && profile_.inverter->standby)
            if (const auto path = path_from_battery("inverter")) {
                journey_.consumers.push_back(
                    {"inverter standby", profile_.inverter->standby->value, path->loop, false, false, {}});
                schedules_.push_back({inverted, 1.0});
            }
        for (std::size_t i = 0; i < schedules_.size(); ++i)
            if (schedules_[i].fridge)
                journey_.fridges.push_back({journey_.consumers[i].name,
                                            schedules_[i].appetite,
                                            schedules_[i].fridge->draw->value,
                                            celsius(1000),
                                            celsius(-200),
                                            1e9,
                                            0.0,
                                            {},
                                            {},
                                            {},
                                            {},
                                            {},
                                            fed_by_});
        fridges_today_.resize(journey_.fridges.size());
    }

    /// Room for as many intervals as a day usually has.
    void expect_days(int days) {
        const auto intervals = static_cast<std::size_t>(days) * 32;
        journey_.intervals.reserve(intervals);
        journey_.needs.reserve(intervals * journey_.consumers.size());
    }

    // ---- days --------------------------------------------------------------------------------------------------------

    [[nodiscard]] int day_of_year_of(int day) const { return (day_of_year(*profile_.trip.start) + day - 2) % 365 + 1; }

    /// As the profile gives it, or the usual one of the month.
    [[nodiscard]] Ratio sky_of(int day) const {
        const TripKeys& usual = profile_.trip;
        if (system_.given.trip.clearness || !usual.start || !usual.latitude)
            return usual.clearness ? usual.clearness->value : Ratio{1.0};
        return of_clear_sky(find_clearness_index(tables_, usual.latitude->value, month_of(day_of_year_of(day)))->usual);
    }

    /// Weather and drives of a day; 0 and beyond the last: the usual day.
    [[nodiscard]] TripDay day_at(int day) const {
        const TripKeys& usual = profile_.trip;
        TripDay found{usual.low->value, usual.high->value, sky_of(day),
                      usual.drives.value_or(std::vector<ClockWindow>{})};
        for (const DayKeys& other : profile_.days) {
            if (std::find(other.on->days.begin(), other.on->days.end(), day) == other.on->days.end()) continue;
            if (other.low) found.low = other.low->value;
            if (other.high) found.high = other.high->value;
            if (other.clearness) found.clearness = other.clearness->value;
            if (other.drives) found.drives = *other.drives;
        }
        return found;
    }

    [[nodiscard]] TripDay hottest_day() const {
        TripDay hottest = day_at(1);
        for (int day = 2; day <= days_; ++day)
            if (const TripDay other = day_at(day); other.high > hottest.high) hottest = other;
        return hottest;
    }

    [[nodiscard]] std::optional<DaySun> sun_of(int day) const {
        if (!profile_.trip.latitude || !profile_.trip.start) return {};
        return day_sun(profile_.trip.latitude->value, day_of_year_of(day));
    }

    static DayAir air_of(const TripDay& day, const std::optional<DaySun>& sun) {
        return sun ? day_air(day.low, day.high, sunrise(*sun), sunset_at(*sun)) : day_air(day.low, day.high);
    }

    /// The minutes of a day at which something changes.
    [[nodiscard]] std::vector<Duration> marks(int day_number, const TripDay& day, const std::optional<DaySun>& sun,
                                              Duration from, Duration to, bool driven) const {
        std::vector<Duration> marks;
        marks.reserve(96);
        for (int hour = 0; hour <= 24; ++hour) marks.push_back(hours(hour));
        const auto add = [&](const std::vector<ClockWindow>& windows) {
            for (const ClockWindow& window : windows) {
                marks.push_back(clock(window.from));
                marks.push_back(clock(window.to));
            }
        };
        for (const Schedule& schedule : schedules_) {
            add(schedule.hours);
            if (restocking_ && schedule.fridge && schedule.fridge->restock)
                for (const RestockKeys& restock : *schedule.fridge->restock)
                    if (std::find(restock.on->days.begin(), restock.on->days.end(), day_number) !=
                        restock.on->days.end())
                        marks.push_back(clock(*restock.at));
        }
        if (driven) {
            add(day.drives);
            if (profile_.solar && sun) {
                marks.push_back(sunrise(*sun));
                marks.push_back(sunset_at(*sun));
            }
        }
        marks.push_back(from);
        marks.push_back(to);
        std::erase_if(marks, [&](Duration mark) { return mark < from || mark > to; });
        std::sort(marks.begin(), marks.end());
        marks.erase(std::unique(marks.begin(), marks.end(), [](Duration a, Duration b) { return b - a < seconds(1); }),
                    marks.end());
        return marks;
    }

    void pass_day(int number, const TripDay& yesterday, const TripDay& today, const TripDay& tomorrow, Duration from,
                  Duration to, bool driven) {
        const auto sun = sun_of(number);
        if (!journey_.first_day) journey_.first_day = sun;
        const DayAir before = air_of(yesterday, sun), now = air_of(today, sun), after = air_of(tomorrow, sun);
        const std::vector<Duration> at = marks(number, today, sun, from, to, driven);
        for (std::size_t i = 0; i + 1 < at.size(); ++i) {
            const Duration begin = at[i], end = at[i + 1], middle = (begin + end) / 2.0;
            const Ratio shine = sun ? sun_share(*sun, begin, end) : usual_sun_share(begin, end);
            const bool driving = driven && on_at(today.drives, middle);
            Interval interval{};
            interval.from = whole_day * static_cast<double>(number - 1) + begin;
            interval.length = end - begin;
            interval.day = number;
            interval.driving = driving;
            interval.air = air_temperature(before, now, after, middle);
            weather(interval, driving, shine);
            if (driven && profile_.solar && sun)
                shine_on_panel(interval, panel_power(panel(), *sun, begin, end, interval.air, today.clearness));
            put_in(interval, begin, shine);
            run_consumers(interval, middle, driving, shine);
            journey_.intervals.push_back(interval);
        }
        end_day(number);
    }

    void shine_on_panel(Interval& interval, const PanelPower& power) {
        interval.sun = power.power;
        if (!journey_.best_sun || power.power > journey_.best_sun->power) journey_.best_sun = power;
    }

    /// The battery's temperature, and what follows from it; what the charger can give.
    void weather(Interval& interval, bool driving, Ratio shine) {
        const Temperature around = battery_where_.around(interval.air, driving, shine);
        battery_ = battery_ ? lagged(*battery_, around, interval.length, lag_) : around;
        interval.battery = *battery_;
        // Warm batteries have all their capacity: no row beyond needs to be looked for.
        if (*battery_ < all_capacity_from_)
            interval.lost = 1.0 - capacity_factor(tables_, *system_.house.chemistry, *battery_);
        if (interval.lost == Ratio{}) all_capacity_from_ = std::min(all_capacity_from_, *battery_);
        const Compensation& compensation = system_.charger.compensation;
        interval.absorption = compensated_voltage(profile_.charger.absorption->value, compensation, *battery_).voltage;
        interval.float_ = compensated_voltage(profile_.charger.float_->value, compensation, *battery_).voltage;
        interval.cold_acceptance = cold_acceptance(journey_.battery, *battery_);
        interval.takes_charge = !journey_.battery.charge_above || *battery_ >= *journey_.battery.charge_above;
        if (!driving) return;
        const ChargerKeys& keys = profile_.charger;
        const Temperature by_charger = charger_where_.around(interval.air, driving, shine);
        interval.charger =
            journey_.charger.output * output_share(by_charger, keys.full_output_to->value,
                                                   keys.derate->value / kelvins(1), keys.off_above->value);
    }

    [[nodiscard]] const Panel& panel() {
        if (!panel_) panel_ = panel_of(profile_);
        return *panel_;
    }

    [[nodiscard]] Panel panel_of(const Profile& profile) const {
        const SolarKeys& keys = *profile.solar;
        return panel_from(keys.panel->value, keys.tilt->value, keys.azimuth->value, keys.shade->value,
                          tables_.panels.front(),
                          *find_regulator(tables_, *keys.regulator == Regulator::pwm ? "pwm" : "mppt"));
    }

    /// Warm things go into the fridges.
    void put_in(const Interval& interval, Duration begin, Ratio shine) {
        if (!restocking_) return;
        std::size_t fridge = 0;
        for (Schedule& schedule : schedules_) {
            if (!schedule.fridge) continue;
            FridgeNeed& need = journey_.fridges[fridge++];
            if (!schedule.fridge->restock) continue;
            for (const RestockKeys& restock : *schedule.fridge->restock) {
                // At 24:00 of a day begins the next one.
                const bool midnight = restock.at->minutes == minutes_a_day;
                const Duration at = midnight ? Duration{} : clock(*restock.at);
                const int day = midnight ? interval.day - 1 : interval.day;
                const std::vector<int>& on = restock.on->days;
                if (abs(at - begin) > seconds(1) || std::find(on.begin(), on.end(), day) == on.end()) continue;
                const Temperature around = schedule.where.around(interval.air, interval.driving, shine);
                const Restocking put = restocking(restock.mass->value, restock.from->value,
                                                  schedule.fridge->inside->value, around, fridge_row_);
                schedule.put_in += put.electric;
                if (!need.most_put_in || put.electric > need.most_put_in->electric) need.most_put_in = put;
            }
        }
    }

    void run_consumers(const Interval& interval, Duration middle, bool driving, Ratio shine) {
        std::size_t fridge = 0;
        for (std::size_t i = 0; i < schedules_.size(); ++i) {
            Schedule& schedule = schedules_[i];
            if (!schedule.fridge) {
                journey_.needs.push_back(on_at(schedule.hours, middle) ? schedule.duty : Ratio{});
                continue;
            }
            const Temperature around = schedule.where.around(interval.air, driving, shine);
            const Power draw = schedule.fridge->draw->value;
            const Ratio steady =
                fridge_power(schedule.appetite, around, schedule.fridge->inside->value, fridge_row_) / draw;
            note_fridge(fridge++, around, steady, draw, interval.length);
            journey_.needs.push_back(steady + schedule.put_in / (draw * interval.length));
            schedule.put_in = {};
        }
    }

    void note_fridge(std::size_t number, Temperature around, Ratio steady, Power draw, Duration length) {
        FridgeNeed& need = journey_.fridges[number];
        need.coolest = std::min(need.coolest, around);
        need.hottest = std::max(need.hottest, around);
        need.least_duty = std::min(need.least_duty, steady);
        need.greatest_duty = std::max(need.greatest_duty, steady);
        if (steady > Ratio{1.0}) need.overwhelmed += length;
        fridges_today_[number] += steady * draw * length / nominal_voltage;
    }

    Journey finish() {
        for (std::size_t i = 0, fridge = 0; i < schedules_.size(); ++i) {
            if (!schedules_[i].fridge) continue;
            FridgeNeed& need = journey_.fridges[fridge++];
            need.hottest_hour =
                fridge_duty(need.fridge, need.draw, need.hottest, schedules_[i].fridge->inside->value, fridge_row_);
        }
        return std::move(journey_);
    }

    void end_day(int number) {
        for (std::size_t i = 0; i < fridges_today_.size(); ++i) {
            FridgeNeed& need = journey_.fridges[i];
            // More than it can do in a day it does not take.
            Charge& today = fridges_today_[i];
            today = std::min<Charge>(today, need.draw * whole_day / nominal_voltage);
            need.a_day_cool = number == 1 ? today : std::min(need.a_day_cool, today);
            need.a_day_hot = number == 1 ? today : std::max(need.a_day_hot, today);
            today = Charge{};
        }
    }

    const Profile& profile_;
    const System& system_;
    const std::vector<LaidRun>& runs_;
    const Tables& tables_;
    FedBy fed_by_;
    const FridgeRow& fridge_row_;
    Journey journey_{};
    std::vector<Schedule> schedules_;
    std::vector<Charge> fridges_today_;
    Standing battery_where_, charger_where_;
    Duration lag_{};
    int days_ = 1;
    std::optional<Temperature> battery_;
    Temperature all_capacity_from_ = celsius(1000);  ///< the coolest at which nothing was found to be lost
    std::optional<Panel> panel_;
    bool restocking_ = true;
};

}  // namespace

Journey make_journey(const System& system, const std::vector<LaidRun>& runs, const Tables& tables, FedBy fed_by) {
    return Maker(system, runs, tables, fed_by).trip();
}

Journey make_standing(const System& system, const std::vector<LaidRun>& runs, Duration clock, int days,
                      const Tables& tables, FedBy fed_by) {
    return Maker(system, runs, tables, fed_by).stand(clock, days);
}

std::optional<Journey> make_one_drive(const System& system, const std::vector<LaidRun>& runs, Duration length,
                                      const Tables& tables) {
    return Maker(system, runs, tables).one_drive(length);
}

Duration evening_of(const System& system) {
    Duration latest{};
    if (system.complete.trip.drives)
        for (const ClockWindow& drive : *system.complete.trip.drives) latest = std::max(latest, clock(drive.to));
    return latest > Duration{} ? latest : hours(18);
}

}  // namespace voltwright
