#include "voltwright/trip/march.hpp"

#include "voltwright/energy/wells.hpp"
#include "voltwright/trip/operating_points.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <stdexcept>

namespace voltwright {

Moment moment(Duration since_first_midnight) {
    const double days = std::floor(since_first_midnight / hours(24));
    return {static_cast<int>(days) + 1, since_first_midnight - days * hours(24)};
}

std::string clock_of(Duration since_midnight) {
    const int minute = static_cast<int>(std::lround(in_minutes(since_midnight))) % (24 * 60);
    char text[16];
    std::snprintf(text, sizeof text, "%02d:%02d", minute / 60, minute % 60);
    return text;
}

std::string show(const Moment& moment) { return "day " + std::to_string(moment.day) + " at " + clock_of(moment.clock); }

Duration Trip::essential_off() const {
    Duration longest{};
    for (const Served& one : served)
        if (one.essential) longest = std::max(longest, one.off);
    return longest;
}

bool Trip::holds() const { return !below_limit && !(essential_off() > Duration{}); }

namespace {

/// A compressor that its guard has switched off waits before it starts again. Common practice, no source.
constexpr Duration restart_delay = minutes(3);
/// A charger that holds its absorption voltage goes to float below this share of the capacity in an hour. Common
/// practice, no source.
constexpr double tail = 1.0 / 50.0;
/// A battery that gave nothing more serves its loads again from this level on. Common practice, no source.
constexpr double revived = 0.05;
/// An appliance without a cut-in of its own tries again when it would see this much more than its cut-out. Common
/// practice, no source.
constexpr Voltage sure_to_run = millivolts(20);
/// Levels and voltages closer than this are the same.
constexpr double same_level = 1e-12;
constexpr Voltage same_voltage = volts(1e-7);

/// Marks, guards and modes are few: an interval with more steps than this has not got on.
constexpr int most_steps = 2000;

class March {
public:
    March(const Journey& journey, const MarchOptions& options)
        : journey_(journey),
          battery_(journey.battery),
          options_(options),
          wells_(battery_.at(options.start_soc.value_or(journey.start_soc))),
          off_(journey.consumers.size(), 0),
          waits_until_(journey.consumers.size(), Duration{}),
          draws_(journey.consumers.size(), Current{}) {
        trip_.start = trip_.lowest = trip_.end = battery_.soc(wells_);
        trip_.ledger.at_start = trip_.ledger.now = wells_.available + wells_.bound;
        for (const Consumer& consumer : journey.consumers)
            trip_.served.push_back({consumer.name, consumer.essential, {}, {}, {}, 0, {}});
        if (!journey.intervals.empty()) {
            trip_.lowest_at = moment(journey.intervals.front().from);
            trip_.days.reserve(static_cast<std::size_t>(journey.intervals.back().day));
        }
        if (options.points) trip_.points.reserve(journey.intervals.size() + 1);
    }

    Trip go() && {
        for (std::size_t i = 0; i < journey_.intervals.size() && !ended_; ++i) {
            if (options_.until && !(journey_.intervals[i].from < *options_.until)) break;
            pass(i);
        }
        trip_.end = battery_.soc(wells_);
        return std::move(trip_);
    }

private:
    /// A part of the levels in which everything is linear and nothing switches.
    struct Piece {
        Ratio low, high;
        OperatingPoint at_low, at_high;
        ChargeMode mode;
    };

    // ---- one interval ------------------------------------------------------------------------------------------------

    void pass(std::size_t index) {
        const Interval& interval = journey_.intervals[index];
        const bool was_fed = switched_.has_source();
        now_ = interval.from;
        interval_ = &interval;
        duties_ = journey_.duties_of(index);
        switched_ = {
            {}, interval.charger, interval.sun, interval.absorption, journey_.output_path, interval.takes_charge};
        if (!was_fed) floating_ = false;
        if (floating_) switched_.target = interval.float_;
        if (dead_ && (switched_.has_source() || effective_level() >= revived)) dead_ = false;
        forget_points();
        open_day(interval.day);
        guards_without_cut_in();
        settle();
        if (options_.points && trip_.points.empty()) keep_point();

        Duration left = interval.length;
        if (options_.until) left = std::min<Duration>(left, *options_.until - interval.from);
        for (int steps = 0; left > Duration{} && !ended_; ++steps) {
            if (steps == most_steps) throw std::logic_error("the march does not get on");
            left -= step(left);
        }
        if (options_.points) keep_point();
    }

    /// Moves on by as much of `left` as nothing switches in.
    Duration step(Duration left) {
        Duration most = left;
        for (std::size_t i = 0; i < off_.size(); ++i)
            if (off_[i] && waits_until_[i] > now_) most = std::min<Duration>(most, waits_until_[i] - now_);
        Piece piece = piece_;
        shorten_to_tail(piece, level_now());
        const NextGuard next = shorten_to_guards(piece, level_now());
        const Stretch stretch{piece.low, piece.high, piece.at_low.stored, piece.at_high.stored};
        Moved moved = move_wells(wells_, battery_.kinetics, battery_.whole, stretch, most);
        const Charge limit = total_at_limit();
        // The cold may lift the limit above what is there.
        const bool passes = total() < limit || moved.wells.available + moved.wells.bound < limit;
        if (passes && options_.stop_at_limit) {
            const Duration when = total() < limit
                                      ? Duration{}
                                      : time_to_total(wells_, battery_.kinetics, battery_.whole, stretch, limit, most);
            moved = move_wells(wells_, battery_.kinetics, battery_.whole, stretch, std::min(when, moved.took));
        }
        count(piece, moved);
        wells_ = moved.wells;
        now_ += moved.took;
        trip_.lasted += moved.took;
        look_back(passes);
        if (moved.took < left && !ended_) {
            if (next.trips && level_now() <= piece.low + same_level) trip_guard(*next.trips);
            if (next.returns && level_now() >= piece.high - same_level) off_[*next.returns] = 0;
            if (next.trips || next.returns) forget_points();
            settle();
        }
        return moved.took;
    }

    // ---- where the level is, and what flows there --------------------------------------------------------------------

    [[nodiscard]] Charge total() const { return wells_.available + wells_.bound; }
    [[nodiscard]] Charge total_at_limit() const {
        return battery_.whole - journey_.depth_limit * (1.0 - interval_->lost) * battery_.capacity;
    }
    [[nodiscard]] Ratio level_now() const { return level(wells_, battery_.kinetics, battery_.whole); }
    /// The level as the terminals feel it: what the cold keeps back counts for nothing.
    [[nodiscard]] Ratio effective_level() const { return (level_now() - interval_->lost) / (1.0 - interval_->lost); }
    [[nodiscard]] Ratio real_level(std::size_t mark) const {
        return interval_->lost + (1.0 - interval_->lost) * battery_.levels[mark].level;
    }

    [[nodiscard]] bool runs(std::size_t i) const { return !dead_ && !off_[i] && duties_[i] > Ratio{}; }

    void forget_points() {
        ++now_known_;
        meeting_.reset();
        running_.clear();
        for (std::size_t i = 0; i < off_.size(); ++i)
            if (runs(i)) running_.push_back({&journey_.consumers[i], duties_[i]});
        switched_.running = running_;
    }

    const OperatingPoint& point(std::size_t mark, ChargeMode mode) {
        auto& kept = points_[mark][mode == ChargeMode::holding ? 1 : 0];
        if (kept.known != now_known_) {
            kept = {now_known_, operating_point(switched_, battery_, battery_.levels[mark], mode, rise_)};
            rise_ = kept.value.terminals - kept.value.open;
            if (dead_ && kept.value.stored < Current{}) {
                kept.value.stored = Current{};  // not even self-discharge: never below empty
                kept.value.battery = std::max(kept.value.battery, Current{});
            }
        }
        return kept.value;
    }

    ChargeMode mode(std::size_t mark) {
        // What is full takes nothing in either mode: no place for the charger to begin to hold.
        if (battery_.one_well && mark + 1 == battery_marks) return mode(mark - 1);
        if (!switched_.has_source()) return ChargeMode::giving;
        auto& kept = modes_[mark];
        if (kept.known != now_known_)
            kept = {now_known_, mode_at(switched_, battery_, battery_.levels[mark], point(mark, ChargeMode::giving))};
        return kept.value;
    }

    static OperatingPoint between(const OperatingPoint& low, const OperatingPoint& high, double share) {
        const auto mix = [share](auto a, auto b) { return a + share * (b - a); };
        return {mix(low.stored, high.stored),       mix(low.battery, high.battery), mix(low.source, high.source),
                mix(low.terminals, high.terminals), mix(low.open, high.open),       mix(low.inside, high.inside)};
    }
    static OperatingPoint within(const Piece& piece, Ratio at) {
        const double share = piece.high > piece.low ? double((at - piece.low) / (piece.high - piece.low)) : 0.0;
        return between(piece.at_low, piece.at_high, share);
    }

    /// Between the marks `mark` and `mark + 1`, on this side of where the charger begins to hold its voltage.
    Piece piece_between(std::size_t mark, Ratio here, bool from_above) {
        Piece piece{real_level(mark), real_level(mark + 1), {}, {}, mode(mark)};
        const ChargeMode above = mode(mark + 1);
        piece.at_low = point(mark, piece.mode);
        piece.at_high = point(mark + 1, piece.mode);
        if (above == piece.mode) return piece;
        const Meeting& meeting = meeting_in(mark);
        if (here < meeting.at - same_level || (from_above && here <= meeting.at + same_level)) {
            piece.at_high = meeting.point;
            piece.high = meeting.at;
        } else {
            piece.at_low = meeting.point;
            piece.at_high = point(mark + 1, above);
            piece.low = meeting.at;
            piece.mode = above;
        }
        return piece;
    }

    /// Where the charger that gives begins to hold, and what flows there: one point for the pieces on both sides.
    struct Meeting {
        std::size_t mark;
        Ratio at;
        OperatingPoint point;
    };

    const Meeting& meeting_in(std::size_t mark) {
        if (meeting_ && meeting_->mark == mark) return *meeting_;
        // While it gives, the volts at the charger's end rise with the level in a straight line, or nearly.
        const auto volts_at_source = [&](std::size_t at) {
            const OperatingPoint& giving = point(at, ChargeMode::giving);
            return giving.terminals + cable_volts(switched_, giving.source);
        };
        const Voltage low_end = volts_at_source(mark), high_end = volts_at_source(mark + 1);
        const double share = std::clamp(double((switched_.target - low_end) / (high_end - low_end)), 1e-6, 1.0 - 1e-6);
        const auto mix = [share](auto a, auto b) { return a + share * (b - a); };
        const BatteryLevel &low = battery_.levels[mark], &high = battery_.levels[mark + 1];
        const BatteryLevel between{mix(low.level, high.level), mix(low.open, high.open), mix(low.giving, high.giving),
                                   mix(low.taking, high.taking)};
        meeting_ = Meeting{mark, interval_->lost + (1.0 - interval_->lost) * between.level,
                           operating_point(switched_, battery_, between, ChargeMode::holding, rise_)};
        return *meeting_;
    }

    /// Below what the cold has taken away nothing comes out; what goes in goes in as at empty.
    Piece piece_below() {
        const OperatingPoint& empty = point(0, mode(0));
        return {Ratio{}, std::max<Ratio>(interval_->lost, same_level), empty, empty, mode(0)};
    }

    [[nodiscard]] bool rises(const Piece& piece, Ratio here) const {
        const Kinetics& kinetics = battery_.kinetics;
        const Current sinking =
            kinetics.rate * ((1.0 - kinetics.available) * wells_.available - kinetics.available * wells_.bound);
        return within(piece, here).stored - sinking > Current{};
    }

    /// The piece that the level is in, or goes into.
    Piece piece_around() {
        const Ratio here = level_now();
        if (here < real_level(0) - same_level) return piece_below();
        // The level moves little: begin where it was.
        std::size_t& mark = mark_;
        while (mark > 0 && here < real_level(mark) - same_level) --mark;
        while (mark + 2 < battery_.levels.size() && here >= real_level(mark + 1) - same_level) ++mark;
        Piece piece = piece_between(mark, here, false);
        const bool at_bottom = here <= piece.low + same_level;
        if (!at_bottom || rises(piece, here)) return piece;
        // At the bottom of a piece and sinking: the one below.
        if (piece.low > real_level(mark) + same_level) return piece_between(mark, here, true);
        if (mark > 0) return piece_between(mark - 1, here, true);
        return piece_below();
    }

    /// Finds the piece that the level is in, and switches what has to be switched there.
    void settle() {
        piece_ = piece_around();
        const Ratio here = level_now();
        if (here <= real_level(0) + same_level && !dead_ && !rises(piece_, here)) die();
        switch_guards();
        float_when_full();
    }

    /// A charger that holds goes to float once the battery takes no more than its tail.
    void float_when_full() {
        if (piece_.mode != ChargeMode::holding || floating_) return;
        if (within(piece_, level_now()).battery > tail_current() * (1.0 + 1e-9)) return;
        floating_ = true;
        switched_.target = interval_->float_;
        forget_points();
        piece_ = piece_around();
    }
    [[nodiscard]] Current tail_current() const { return tail * battery_.capacity / hours(1); }

    /// Ends a piece at the level at which the charger goes to float.
    void shorten_to_tail(Piece& piece, Ratio here) const {
        const Current wanted = tail_current();
        if (piece.mode != ChargeMode::holding || floating_) return;
        if (!(piece.at_low.battery > wanted) || !(piece.at_high.battery < wanted)) return;
        const Ratio meets = piece.low + (piece.high - piece.low) * ((piece.at_low.battery - wanted) /
                                                                    (piece.at_low.battery - piece.at_high.battery));
        if (meets <= here) return;
        piece.at_high = within(piece, meets);
        piece.high = meets;
    }

    void die() {
        dead_ = true;
        forget_points();
        piece_ = piece_around();
        if (options_.stop_at_limit) end(EndedBy::flat, {});
    }

    // ---- guards ------------------------------------------------------------------------------------------------------

    /// What a consumer sees at its own terminals while it runs: its compressor on, all others at their average.
    [[nodiscard]] Voltage seen_by(std::size_t i, const OperatingPoint& point) const {
        const Consumer& consumer = journey_.consumers[i];
        const Current current = drawn_by(consumer, point.terminals);
        const Resistance inside = point.battery > Current{} ? Resistance{} : point.inside;
        const double not_counted = off_[i] ? 1.0 : 1.0 - in_ratio(duties_[i]);
        return point.terminals - not_counted * current * inside - current * consumer.path;
    }

    [[nodiscard]] const std::optional<Guard>& guard_of(std::size_t i) const {
        return journey_.consumers[i].guards[options_.guard == GuardSetting::high ? 1 : 0];
    }
    [[nodiscard]] bool guarded(std::size_t i) const { return guard_of(i) && duties_[i] > Ratio{} && !dead_; }
    [[nodiscard]] bool may_come_back(std::size_t i) const {
        return off_[i] && guard_of(i)->cut_in && !(waits_until_[i] > now_);
    }

    /// Which guard switches at the bottom of a piece, and which at its top.
    struct NextGuard {
        std::optional<std::size_t> trips, returns;
    };

    /// Ends the piece where the first guard would trip, or let go.
    NextGuard shorten_to_guards(Piece& piece, Ratio here) const {
        NextGuard next;
        const Piece whole = piece;
        const auto meets = [&](Voltage at_low, Voltage at_high, Voltage wanted) {
            return whole.low + (whole.high - whole.low) * ((wanted - at_low) / (at_high - at_low));
        };
        for (std::size_t i = 0; i < off_.size(); ++i) {
            if (!guarded(i)) continue;
            const Guard& guard = *guard_of(i);
            if (!off_[i]) {
                const Voltage low = seen_by(i, whole.at_low);
                if (!(low < guard.cut_out)) continue;
                const Voltage high = seen_by(i, whole.at_high);
                if (!(high > guard.cut_out)) continue;
                const Ratio trips = meets(low, high, guard.cut_out);
                if (trips < here && trips > piece.low) {
                    piece.low = trips;
                    next.trips = i;
                }
            } else if (may_come_back(i)) {
                if (!(whole.at_low.terminals < *guard.cut_in) || !(whole.at_high.terminals > *guard.cut_in)) continue;
                const Ratio comes_back = meets(whole.at_low.terminals, whole.at_high.terminals, *guard.cut_in);
                if (comes_back > here && comes_back < piece.high) {
                    piece.high = comes_back;
                    next.returns = i;
                }
            }
        }
        if (piece.low != whole.low) piece.at_low = within(whole, piece.low);
        if (piece.high != whole.high) piece.at_high = within(whole, piece.high);
        return next;
    }

    /// Trips the guards that see too little here, and lets go those that see enough again.
    void switch_guards() {
        for (std::size_t round = 0; round <= off_.size() && !ended_; ++round) {
            bool changed = false;
            for (std::size_t i = 0; i < off_.size() && !changed; ++i) {
                if (!guarded(i)) continue;
                const Guard& guard = *guard_of(i);
                // What it sees rises with the level: enough at the bottom of the piece is enough here.
                if (!off_[i] && seen_by(i, piece_.at_low) > guard.cut_out + same_voltage) continue;
                const OperatingPoint point = within(piece_, level_now());
                if (!off_[i] && seen_by(i, point) <= guard.cut_out + same_voltage) {
                    trip_guard(i);
                    changed = true;
                } else if (may_come_back(i) && point.terminals >= *guard.cut_in - same_voltage) {
                    off_[i] = 0;
                    changed = true;
                }
            }
            if (!changed) return;
            forget_points();
            piece_ = piece_around();
        }
    }

    void trip_guard(std::size_t i) {
        off_[i] = 1;
        waits_until_[i] = now_ + restart_delay;
        Served& served = trip_.served[i];
        ++served.cut_outs;
        if (!served.first_off) served.first_off = moment(now_);
        if (options_.stop_at_limit && served.essential) end(EndedBy::cut_out, served.name);
    }

    /// A guard that has no cut-in of its own lets go as soon as the appliance would run above its cut-out.
    void guards_without_cut_in() {
        for (std::size_t i = 0; i < off_.size(); ++i) {
            if (!off_[i] || !guarded(i) || guard_of(i)->cut_in || waits_until_[i] > now_) continue;
            const OperatingPoint point = within(piece_around(), level_now());
            if (seen_by(i, point) <= guard_of(i)->cut_out + sure_to_run) continue;
            off_[i] = 0;
            forget_points();
        }
    }

    // ---- counting ----------------------------------------------------------------------------------------------------

    void count(const Piece& piece, const Moved& moved) {
        if (!(moved.took > Duration{})) return;
        const OperatingPoint mean = within(piece, moved.level_time / moved.took);
        const bool idle = dead_ && !(mean.stored > Current{});
        const Current leaking = idle ? Current{} : battery_.self_discharge;
        const Charge source = mean.source * moved.took;
        const Charge served = (mean.source - mean.battery) * moved.took;

        Current from_panel = switched_.sun / mean.terminals;
        const Current all = from_panel + switched_.charger;
        const double sunny = all > Current{} ? double(from_panel / all) : 0.0;
        trip_.ledger.from_sun += sunny * source;
        trip_.ledger.from_charger += source - sunny * source;
        trip_.ledger.used += served;
        trip_.ledger.gassed += (mean.battery - mean.stored - leaking) * moved.took;
        trip_.ledger.leaked += leaking * moved.took;
        const Charge before = trip_.ledger.now;
        trip_.ledger.now = moved.wells.available + moved.wells.bound;
        if (interval_->driving) {
            trip_.driven += moved.took;
            trip_.kept_while_driving += trip_.ledger.now - before;
            if (!interval_->takes_charge) trip_.refused += moved.took;
        }
        trip_.days.back().used += served;
        trip_.days.back().charged += source;
        serve(mean, served, moved.took);
    }

    /// Shares out what all loads used, and notes who was left without.
    void serve(const OperatingPoint& mean, Charge used, Duration took) {
        Current sum{};
        for (std::size_t i = 0; i < off_.size(); ++i) {
            draws_[i] = duties_[i] > Ratio{} ? duties_[i] * drawn_by(journey_.consumers[i], mean.terminals) : Current{};
            if (runs(i)) sum += draws_[i];
        }
        for (std::size_t i = 0; i < off_.size(); ++i) {
            if (!(draws_[i] > Current{})) continue;
            Served& served = trip_.served[i];
            if (runs(i)) {
                served.used += used * (draws_[i] / sum);
            } else {
                served.off += took;
                const auto* power = std::get_if<Power>(&journey_.consumers[i].draw);
                served.unserved += (power ? duties_[i] * *power : draws_[i] * mean.terminals) * took;
                if (!served.first_off) served.first_off = moment(now_);
            }
        }
    }

    /// After a step: the lowest state of charge and the depth limit.
    void look_back(bool passed_limit) {
        const Ratio soc = battery_.soc(wells_);
        DayTotals& day = trip_.days.back();
        day.lowest = std::min(day.lowest, soc);
        day.end = soc;
        if (soc < trip_.lowest) {
            trip_.lowest = soc;
            trip_.lowest_at = moment(now_);
            if (!trip_.below_limit) trip_.deepest_allowed = limit_as_soc();
        }
        if (switched_.has_source()) trip_.highest_after_start = std::max(trip_.highest_after_start, soc);
        if (passed_limit && !trip_.below_limit) {
            trip_.below_limit = moment(now_);
            trip_.deepest_allowed = limit_as_soc();
            if (options_.stop_at_limit) end(EndedBy::depth_limit, {});
        }
    }

    [[nodiscard]] Ratio limit_as_soc() const { return 1.0 - journey_.depth_limit * (1.0 - interval_->lost); }

    void open_day(int day) {
        if (!trip_.days.empty() && trip_.days.back().day == day) return;
        const Ratio soc = battery_.soc(wells_);
        trip_.days.push_back({day, {}, {}, soc, soc});
    }

    void keep_point() {
        const OperatingPoint point = within(piece_around(), level_now());
        trip_.points.push_back({now_, battery_.soc(wells_), point.terminals, point.battery, point.source,
                                interval_->driving, interval_->air, interval_->battery});
    }

    void end(EndedBy by, std::string name) {
        ended_ = true;
        trip_.ended_by = by;
        trip_.ended_name = std::move(name);
    }

    const Journey& journey_;
    const HouseBattery& battery_;
    const MarchOptions options_;
    Trip trip_{};
    Wells wells_;
    Duration now_{};
    const Interval* interval_ = nullptr;
    Switched switched_{};
    bool floating_ = false, dead_ = false, ended_ = false;
    std::vector<std::uint8_t> off_;
    std::vector<Duration> waits_until_;
    std::vector<Current> draws_;
    Piece piece_{};
    /// Something worked out for what is switched now.
    template <class T>
    struct Kept {
        std::uint32_t known = 0;
        T value{};
    };
    std::array<std::array<Kept<OperatingPoint>, 2>, battery_marks> points_;
    std::array<Kept<ChargeMode>, battery_marks> modes_;
    std::uint32_t now_known_ = 0;
    std::vector<RunningLoad> running_;
    const Ratio* duties_ = nullptr;  ///< of this interval
    std::size_t mark_ = battery_marks - 2;
    Voltage rise_{};  ///< of the terminals above open circuit at the last point: where to begin with the next
    std::optional<Meeting> meeting_;
};

}  // namespace

Trip march(const Journey& journey, const MarchOptions& options) { return March(journey, options).go(); }

}  // namespace voltwright
