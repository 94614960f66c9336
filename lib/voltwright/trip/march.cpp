#include "voltwright/trip/march.hpp"

#include "voltwright/energy/wells.hpp"
#include "voltwright/trip/operating_points.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <stdexcept>

namespace voltwright {

namespace {

constexpr int minutes_a_day = 24 * 60;

}  // namespace

Moment moment(Duration since_first_midnight) {
    const double days = std::floor(since_first_midnight / hours(24));
    return {static_cast<int>(days) + 1, since_first_midnight - days * hours(24)};
}

std::string clock_of(Duration since_midnight) {
    const int rounded = static_cast<int>(std::lround(in_minutes(since_midnight)));
    const int minute = rounded > minutes_a_day ? rounded % minutes_a_day : rounded;
    char text[16];
    std::snprintf(text, sizeof text, "%02d:%02d", minute / 60, minute % 60);
    return text;
}

namespace {

bool ends_its_day(const Moment& moment) { return std::lround(in_minutes(moment.clock)) == minutes_a_day; }

}  // namespace

std::string show(const Moment& moment) {
    const std::string day = "day " + std::to_string(moment.day);
    return ends_its_day(moment) ? "the end of " + day : day + " at " + clock_of(moment.clock);
}

std::string when(const Moment& moment) { return (ends_its_day(moment) ? "at " : "on ") + show(moment); }

Duration Trip::essential_off() const {
    Duration longest{};
    for (const Served& one : served)
        if (one.essential) longest = std::max(longest, one.off);
    return longest;
}

std::string_view show(EndedBy by) {
    switch (by) {
        case EndedBy::trip: return "nothing, in the time looked at";
        case EndedBy::depth_limit: return "the depth limit";
        case EndedBy::cut_out: return "an appliance that switched itself off";
        case EndedBy::flat: return "a flat battery";
    }
    return "";
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
/// So is a state of charge: one that begins at its limit is not below it by a rounding.
constexpr double same_soc = 1e-9;

/// What a fridge owes it takes out over this time, if its compressor can: not at once, so that the answer does not hang on
/// where an hour begins. Common practice, no source.
constexpr Duration cools_down_in = hours(1);

/// No acid freezes above this, however flat the battery.
constexpr Temperature frost_begins_to_matter = celsius(0);

/// Marks, guards and modes are few: an interval with more steps than this has not got on.
constexpr int most_steps = 2000;

/// Aligned, for half of its time goes into fields that would lie across two lines of the cache.
class alignas(64) March {
public:
    March(const Journey& journey, const MarchOptions& options)
        : journey_(journey),
          battery_(journey.battery),
          options_(options),
          wells_(battery_.at(options.start_soc.value_or(journey.start_soc))),
          per_level_(1.0 / (battery_.kinetics.available * battery_.whole)),
          here_(wells_.available * per_level_),
          off_(journey.consumers.size(), 0) {
        trip_.start = trip_.lowest = trip_.end = battery_.soc(wells_);
        trip_.ledger.at_start = trip_.ledger.now = wells_.available + wells_.bound;
        switched_.output_path = journey.output_path;
        trip_.served.reserve(journey.consumers.size());
        for (std::size_t i = 0; i < journey.consumers.size(); ++i) {
            const Consumer& consumer = journey.consumers[i];
            trip_.served.push_back({consumer.name, consumer.essential, {}, {}, {}, 0, {}});
            if (const auto& guard = consumer.guards[options.guard == GuardSetting::high ? 1 : 0])
                guards_.push_back({i, *guard, current_at(consumer.draw, guard->cut_out), {}});
        }
        running_.reserve(journey.consumers.size());
        who_runs_.reserve(journey.consumers.size());
        draws_.resize(journey.consumers.size());
        duties_.resize(journey.consumers.size());
        waiting_.reserve(journey.consumers.size());
        if (!journey.intervals.empty()) {
            lowest_at_ = journey.intervals.front().from;
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
        trip_.lowest_at = moment(lowest_at_);
        // There is no day after the last.
        if (!trip_.days.empty() && trip_.lowest_at.day > trip_.days.back().day)
            trip_.lowest_at = {trip_.days.back().day, hours(24)};
        return std::move(trip_);
    }

private:
    /// A guard, as this march knows it. It sees its appliance's own terminals while that runs: all others take their
    /// average then, and the appliance all of its current.
    struct Watch {
        std::size_t who;
        Guard guard;
        Current at_cut_out;    ///< what the appliance draws at its cut-out
        Duration waits_until;  ///< before it may start again
    };

    /// What an appliance draws at a voltage at its own terminals.
    /// A consumer that would run if it could.
    struct Waiting {
        std::size_t who;
        LoadThroughCable load;
    };

    /// A part of the levels in which everything is linear and nothing switches.
    struct Piece {
        Ratio low, high;
        const OperatingPoint *at_low, *at_high;
        ChargeMode mode;

        /// What flows at a level in it.
        [[nodiscard]] OperatingPoint at(Ratio level) const {
            return between_ends(high > low ? double((level - low) / (high - low)) : 0.0);
        }
        /// What flows on average, where the level sums up to so much.
        [[nodiscard]] OperatingPoint mean(Duration level_time, Duration time) const {
            return between_ends(high > low ? double((level_time - low * time) / ((high - low) * time)) : 0.0);
        }

    private:
        [[nodiscard]] OperatingPoint between_ends(double share) const {
            const auto mix = [share](auto a, auto b) { return a + share * (b - a); };
            return {mix(at_low->stored, at_high->stored), mix(at_low->battery, at_high->battery),
                    mix(at_low->source, at_high->source), mix(at_low->terminals, at_high->terminals),
                    mix(at_low->inside, at_high->inside)};
        }
    };

    /// The levels of a piece up to where something switches next.
    struct Reach {
        Ratio low, high;
        std::optional<std::size_t> trips, returns;  ///< guards, at its bottom and at its top
    };

    // ---- one interval ------------------------------------------------------------------------------------------------

    void pass(std::size_t index) {
        const Interval& interval = journey_.intervals[index];
        const bool was_fed = fed_;
        now_ = interval.from;
        interval_ = &interval;
        needs_ = journey_.needs_of(index);
        switched_.charger = interval.charger;
        switched_.sun = interval.sun;
        switched_.target = interval.absorption;
        switched_.takes_charge = interval.takes_charge;
        switched_.cold_acceptance = interval.cold_acceptance;
        fed_ = switched_.has_source();
        lose_to_cold(interval.lost);
        if (fed_) trip_.highest_target = std::max(trip_.highest_target, interval.absorption);
        if (!was_fed) floating_ = false;
        if (floating_) switched_.target = interval.float_;
        if (dead_ && (fed_ || effective_level() >= revived)) dead_ = false;
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
        share_out();
        if (options_.points) keep_point();
    }

    /// How long each consumer runs in what is left of this interval. A fridge runs for the heat that comes in and for what
    /// it owes, but never more than all the time.
    void run_for_what_is_owed() {
        for (std::size_t i = 0; i < duties_.size(); ++i) {
            duties_[i] = needs_[i];
            if (!journey_.consumers[i].fridge) continue;
            duties_[i] = std::min<Ratio>(duties_[i] + trip_.served[i].owed / (draw_of_fridge(i) * cools_down_in), 1.0);
        }
    }
    [[nodiscard]] Power draw_of_fridge(std::size_t who) const { return std::get<Power>(journey_.consumers[who].draw); }

    /// What came in and was not taken out is owed; what was taken out beyond it is paid.
    void owe(std::size_t who, Ratio ran) {
        if (!journey_.consumers[who].fridge) return;
        Energy& owed = trip_.served[who].owed;
        owed = std::max<Energy>(owed + (needs_[who] - ran) * draw_of_fridge(who) * spell_.took, Energy{});
    }

    /// Moves on by as much of `left` as nothing switches in.
    Duration step(Duration left) {
        Duration most = left;
        for (const Watch& watch : guards_)
            if (off_[watch.who] && watch.waits_until > now_) most = std::min<Duration>(most, watch.waits_until - now_);
        Reach reach{piece_.low, piece_.high, {}, {}};
        reach_tail(reach);
        reach_guards(reach);
        const Stretch stretch{reach.low, reach.high,
                              reach.low == piece_.low ? piece_.at_low->stored : piece_.at(reach.low).stored,
                              reach.high == piece_.high ? piece_.at_high->stored : piece_.at(reach.high).stored};
        Moved moved = move_wells(wells_, battery_.kinetics, battery_.whole, stretch, most);
        const std::optional<Duration> passes = passes_limit(stretch, moved);
        if (passes && options_.stop_at_limit)
            moved = move_wells(wells_, battery_.kinetics, battery_.whole, stretch, *passes);
        count(moved);
        wells_ = moved.wells;
        here_ = wells_.available * per_level_;
        if (passes) below_limit_from(now_ + *passes);
        now_ += moved.took;
        trip_.lasted += moved.took;
        look_back();
        if (moved.took < left && !ended_) {
            if (reach.trips && here_ <= reach.low + same_level) trip_guard(guards_[*reach.trips]);
            if (reach.returns && here_ >= reach.high - same_level) off_[guards_[*reach.returns].who] = 0;
            if (reach.trips || reach.returns) forget_points();
            settle();
        }
        return moved.took;
    }

    /// When, from the beginning of that move, the depth limit is passed for the first time.
    [[nodiscard]] std::optional<Duration> passes_limit(const Stretch& stretch, const Moved& moved) const {
        if (trip_.below_limit) return {};
        const Charge limit = total_at_limit(), nearly = same_soc * battery_.capacity;
        // The cold may lift the limit above what is there.
        if (total() < limit - nearly) return Duration{};
        if (!(moved.wells.available + moved.wells.bound < limit - nearly)) return {};
        return time_to_total(wells_, battery_.kinetics, battery_.whole, stretch, limit, moved.took);
    }

    void below_limit_from(Duration then) {
        trip_.below_limit = moment(then);
        trip_.deepest_allowed = limit_as_soc();
        if (options_.stop_at_limit) end(EndedBy::depth_limit, {});
    }

    // ---- where the level is, and what flows there --------------------------------------------------------------------

    [[nodiscard]] Charge total() const { return wells_.available + wells_.bound; }
    [[nodiscard]] Charge total_at_limit() const {
        return battery_.whole - journey_.depth_limit * (1.0 - interval_->lost) * battery_.capacity;
    }
    /// The level as the terminals feel it: what the cold keeps back counts for nothing.
    [[nodiscard]] Ratio effective_level() const { return (here_ - interval_->lost) / (1.0 - interval_->lost); }
    [[nodiscard]] Ratio real_level(std::size_t mark) const { return real_levels_[mark]; }
    void lose_to_cold(Ratio lost) {
        if (lost == lost_) return;
        lost_ = lost;
        for (std::size_t mark = 0; mark < battery_marks; ++mark)
            real_levels_[mark] = lost + (1.0 - lost) * battery_.levels[mark].level;
    }

    /// Something was switched: what was known of the levels no longer holds.
    void forget_points() {
        share_out();
        run_for_what_is_owed();
        ++now_known_;
        meeting_.reset();
        running_.clear();
        who_runs_.clear();
        waiting_.clear();
        for (std::size_t i = 0; i < off_.size(); ++i) {
            if (!(duties_[i] > Ratio{})) continue;
            if (dead_ || off_[i]) {
                waiting_.push_back({i, {journey_.consumers[i].draw, journey_.consumers[i].path, duties_[i]}});
            } else {
                running_.emplace_back(journey_.consumers[i].draw, journey_.consumers[i].path, duties_[i]);
                who_runs_.push_back(i);
            }
        }
        switched_.running = running_;
    }

    const OperatingPoint& point(std::size_t mark, ChargeMode mode) {
        auto& kept = points_[mark][mode == ChargeMode::holding ? 1 : 0];
        if (kept.known != now_known_) {
            const BatteryLevel& level = battery_.levels[mark];
            const Voltage near = kept.known != 0 ? kept.value.terminals : level.open;
            kept = {now_known_, operating_point(switched_, battery_, level, mode, near)};
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
        if (!fed_) return ChargeMode::giving;
        auto& kept = modes_[mark];
        if (kept.known != now_known_)
            kept = {now_known_, mode_at(switched_, battery_, battery_.levels[mark], point(mark, ChargeMode::giving))};
        return kept.value;
    }

    /// The next mark that counts now.
    [[nodiscard]] std::size_t mark_above(std::size_t mark) const {
        do ++mark;
        while (!fed_ && battery_.levels[mark].charging_only);
        return mark;
    }
    [[nodiscard]] std::size_t mark_below(std::size_t mark) const {
        do --mark;
        while (!fed_ && battery_.levels[mark].charging_only);
        return mark;
    }

    /// From a mark to the next, on this side of where the charger begins to hold its voltage.
    void piece_from(std::size_t mark, bool from_above, Piece& piece) {
        const std::size_t next = mark_above(mark);
        const ChargeMode below = mode(mark), above = mode(next);
        piece.low = real_level(mark);
        piece.high = real_level(next);
        piece.mode = below;
        piece.at_low = &point(mark, below);
        piece.at_high = &point(next, below);
        if (above == below) return;
        const Meeting& meeting = meeting_in(mark);
        if (here_ < meeting.at - same_level || (from_above && here_ <= meeting.at + same_level)) {
            piece.at_high = &meeting.point;
            piece.high = meeting.at;
        } else {
            piece.at_low = &meeting.point;
            piece.at_high = &point(next, above);
            piece.low = meeting.at;
            piece.mode = above;
        }
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
                                   mix(low.taking, high.taking), true};
        meeting_ = Meeting{mark, interval_->lost + (1.0 - interval_->lost) * between.level,
                           operating_point(switched_, battery_, between, ChargeMode::holding, switched_.target)};
        return *meeting_;
    }

    /// Below what the cold has taken away nothing comes out; what goes in goes in as at empty.
    void piece_below(Piece& piece) {
        const OperatingPoint& empty = point(0, mode(0));
        piece = {Ratio{}, std::max<Ratio>(interval_->lost, same_level), &empty, &empty, mode(0)};
    }

    [[nodiscard]] bool rises(const Piece& piece) const {
        const Kinetics& kinetics = battery_.kinetics;
        const Current sinking =
            kinetics.rate * ((1.0 - kinetics.available) * wells_.available - kinetics.available * wells_.bound);
        return piece.at(here_).stored - sinking > Current{};
    }

    /// The piece that the level is in, or goes into.
    void find_piece(Piece& piece) {
        if (here_ < real_level(0) - same_level) return piece_below(piece);
        // The level moves little: begin where it was.
        std::size_t& mark = mark_;
        if (!fed_ && battery_.levels[mark].charging_only) mark = mark_below(mark);
        while (mark > 0 && here_ < real_level(mark) - same_level) mark = mark_below(mark);
        for (std::size_t next = mark_above(mark); next + 1 < battery_marks && here_ >= real_level(next) - same_level;
             next = mark_above(mark))
            mark = next;
        piece_from(mark, false, piece);
        const bool at_bottom = here_ <= piece.low + same_level;
        if (!at_bottom || rises(piece)) return;
        // At the bottom of a piece and sinking: the one below.
        if (piece.low > real_level(mark) + same_level) return piece_from(mark, true, piece);
        if (mark > 0) return piece_from(mark_below(mark), true, piece);
        piece_below(piece);
    }
    OperatingPoint point_here() {
        Piece piece{};
        find_piece(piece);
        return piece.at(here_);
    }

    /// Finds the piece that the level is in, and switches what has to be switched there.
    void settle() {
        find_piece(piece_);
        if (here_ <= real_level(0) + same_level && !dead_ && !rises(piece_)) die();
        switch_guards();
        float_when_full();
    }

    /// A charger that holds goes to float once the battery takes no more than its tail.
    void float_when_full() {
        if (piece_.mode != ChargeMode::holding || floating_) return;
        if (piece_.at(here_).battery > tail_current() * (1.0 + 1e-9)) return;
        floating_ = true;
        switched_.target = interval_->float_;
        forget_points();
        find_piece(piece_);
    }
    [[nodiscard]] Current tail_current() const { return tail * battery_.capacity / hours(1); }

    /// Not beyond the level at which the charger goes to float.
    void reach_tail(Reach& reach) const {
        if (piece_.mode != ChargeMode::holding || floating_) return;
        const Current wanted = tail_current(), low = piece_.at_low->battery, high = piece_.at_high->battery;
        if (!(low > wanted) || !(high < wanted)) return;
        const Ratio meets = piece_.low + (piece_.high - piece_.low) * ((low - wanted) / (low - high));
        if (meets > here_) reach.high = meets;
    }

    void die() {
        dead_ = true;
        forget_points();
        find_piece(piece_);
        if (options_.stop_at_limit) end(EndedBy::flat, {});
    }

    // ---- guards ------------------------------------------------------------------------------------------------------

    /// The voltage of the battery's terminals at which a guard trips.
    ///
    ///     V = V_out + I·(R_path + (1 − d)·R_inside)
    ///
    /// V_out   its cut-out       I   the appliance's current there
    /// d       share of the time that it runs: as much of I is counted in the terminals' voltage already
    /// R_inside   of the battery, while that gives
    [[nodiscard]] Voltage trips_at(const Watch& watch, const OperatingPoint& point) const {
        const Resistance inside = point.battery > Current{} ? Resistance{} : point.inside;
        const double not_counted = off_[watch.who] ? 1.0 : 1.0 - in_ratio(duties_[watch.who]);
        return watch.guard.cut_out + watch.at_cut_out * (journey_.consumers[watch.who].path + not_counted * inside);
    }
    [[nodiscard]] Voltage spare(const Watch& watch, const OperatingPoint& point) const {
        return point.terminals - trips_at(watch, point);
    }
    /// Its appliance is wanted now.
    [[nodiscard]] bool counts(const Watch& watch) const { return duties_[watch.who] > Ratio{}; }
    [[nodiscard]] bool may_come_back(const Watch& watch) const {
        return off_[watch.who] && watch.guard.cut_in && !(watch.waits_until > now_);
    }

    /// Not beyond where the first guard would trip, or let go.
    void reach_guards(Reach& reach) const {
        if (dead_) return;
        for (std::size_t i = 0; i < guards_.size(); ++i) {
            const Watch& watch = guards_[i];
            const bool returning = may_come_back(watch);
            if (!counts(watch) || (off_[watch.who] && !returning)) continue;
            // Over its voltage by so much at both ends; in between that is linear.
            const auto over = [&](const OperatingPoint& point) {
                return returning ? point.terminals - *watch.guard.cut_in : spare(watch, point);
            };
            const Voltage at_low = over(*piece_.at_low);
            if (!(at_low < Voltage{})) continue;
            const Voltage at_high = over(*piece_.at_high);
            if (!(at_high > Voltage{})) continue;
            const Ratio at = piece_.low - (piece_.high - piece_.low) * (at_low / (at_high - at_low));
            if (!returning && at < here_ && at > reach.low) {
                reach.low = at;
                reach.trips = i;
            } else if (returning && at > here_ && at < reach.high) {
                reach.high = at;
                reach.returns = i;
            }
        }
    }

    /// Trips the guards that see too little here, and lets go those that see enough again.
    void switch_guards() {
        for (std::size_t round = 0; round <= guards_.size() && !ended_ && !dead_; ++round) {
            if (!switch_one_guard()) return;
            forget_points();
            find_piece(piece_);
        }
    }

    bool switch_one_guard() {
        for (Watch& watch : guards_) {
            if (!counts(watch)) continue;
            const bool off = off_[watch.who];
            // What it sees rises with the level: enough at the bottom of the piece is enough here.
            if (!off && spare(watch, *piece_.at_low) > same_voltage) continue;
            const OperatingPoint point = piece_.at(here_);
            if (!off && spare(watch, point) <= same_voltage) {
                trip_guard(watch);
                return true;
            }
            if (may_come_back(watch) && point.terminals >= *watch.guard.cut_in - same_voltage) {
                off_[watch.who] = 0;
                return true;
            }
        }
        return false;
    }

    void trip_guard(Watch& watch) {
        off_[watch.who] = 1;
        watch.waits_until = now_ + restart_delay;
        Served& served = trip_.served[watch.who];
        ++served.cut_outs;
        if (!served.first_off) served.first_off = moment(now_);
        if (options_.stop_at_limit && served.essential) end(EndedBy::cut_out, served.name);
    }

    /// A guard that has no cut-in of its own lets go as soon as the appliance would run above its cut-out.
    void guards_without_cut_in() {
        if (dead_) return;
        for (const Watch& watch : guards_) {
            if (!counts(watch) || !off_[watch.who] || watch.guard.cut_in || watch.waits_until > now_) continue;
            if (spare(watch, point_here()) <= sure_to_run) continue;
            off_[watch.who] = 0;
            forget_points();
        }
    }

    // ---- counting ----------------------------------------------------------------------------------------------------

    void count(const Moved& moved) {
        const Duration took = moved.took;
        if (!(took > Duration{})) return;
        const OperatingPoint mean = piece_.mean(moved.level_time, took);
        const bool idle = dead_ && !(mean.stored > Current{});
        const Current leaking = idle ? Current{} : battery_.self_discharge;
        const Charge source = mean.source * took;
        const Charge served = (mean.source - mean.battery) * took;
        const Charge sunny = by_sun(source, mean.terminals);
        trip_.ledger.from_sun += sunny;
        trip_.ledger.from_charger += source - sunny;
        trip_.ledger.used += served;
        trip_.ledger.gassed += (mean.battery - mean.stored - leaking) * took;
        trip_.ledger.leaked += leaking * took;
        const Charge before = trip_.ledger.now;
        trip_.ledger.now = moved.wells.available + moved.wells.bound;
        if (interval_->driving) {
            trip_.driven += took;
            trip_.kept_while_driving += trip_.ledger.now - before;
            if (!interval_->takes_charge) trip_.refused += took;
        }
        trip_.days.back().used += served;
        trip_.days.back().charged += source;
        spell_.used += served;
        spell_.volts += mean.terminals * took;
        spell_.took += took;
    }

    /// How much of it the panel gave: in proportion to what each could.
    [[nodiscard]] Charge by_sun(Charge source, Voltage terminals) const {
        if (!(switched_.sun > Power{})) return {};
        if (!(switched_.charger > Current{})) return source;
        const Current panel = switched_.sun / terminals;
        return source * double(panel / (panel + switched_.charger));
    }

    /// Shares out what all loads used since something was last switched, and notes who was left without.
    void share_out() {
        if (!(spell_.took > Duration{})) return;
        const Voltage mean = spell_.volts / spell_.took;
        if (running_.size() == 1) {
            trip_.served[who_runs_.front()].used += spell_.used;
        } else if (!running_.empty()) {
            Current sum{};
            for (std::size_t i = 0; i < running_.size(); ++i) sum += draws_[i] = running_[i].at(mean).current;
            const Duration of_all = spell_.used / sum;
            for (std::size_t i = 0; i < running_.size(); ++i) trip_.served[who_runs_[i]].used += draws_[i] * of_all;
        }
        for (const std::size_t who : who_runs_) owe(who, duties_[who]);
        for (const auto& [who, load] : waiting_) {
            Served& served = trip_.served[who];
            served.off += spell_.took;
            const auto* power = std::get_if<Power>(&journey_.consumers[who].draw);
            served.unserved +=
                (power ? std::min<Ratio>(needs_[who], 1.0) * *power : load.at(mean).current * mean) * spell_.took;
            owe(who, Ratio{});
            if (!served.first_off) served.first_off = moment(now_ - spell_.took);
        }
        spell_ = {};
    }

    /// After a step: the lowest state of charge.
    void look_back() {
        const Ratio soc = battery_.soc(wells_);
        DayTotals& day = trip_.days.back();
        day.lowest = std::min(day.lowest, soc);
        day.end = soc;
        if (soc < trip_.lowest) {
            trip_.lowest = soc;
            lowest_at_ = now_;
            if (!trip_.below_limit) trip_.deepest_allowed = limit_as_soc();
        }
        if (fed_) trip_.highest_after_start = std::max(trip_.highest_after_start, soc);
        look_for_frost(soc);
    }

    /// Charged, the acid freezes only in the deepest cold: the nearest moment is that of the least margin.
    void look_for_frost(Ratio soc) {
        const Temperature battery = interval_->battery;
        if (battery_.freezing.empty() || battery > frost_begins_to_matter) return;
        const Temperature freezes = *freezes_at(battery_, soc);
        const auto& known = trip_.near_freezing;
        if (!known || battery - freezes < known->battery - known->freezes)
            trip_.near_freezing = NearFreezing{battery, freezes, soc, moment(now_)};
    }

    [[nodiscard]] Ratio limit_as_soc() const { return 1.0 - journey_.depth_limit * (1.0 - interval_->lost); }

    void open_day(int day) {
        if (!trip_.days.empty() && trip_.days.back().day == day) return;
        const Ratio soc = battery_.soc(wells_);
        trip_.days.push_back({day, {}, {}, soc, soc});
    }

    void keep_point() {
        const OperatingPoint point = point_here();
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
    decltype(1.0 / Charge{}) per_level_;  ///< of what is in the available well
    Ratio here_;                          ///< the level of the available well
    Duration now_{};
    const Interval* interval_ = nullptr;
    Switched switched_{};
    bool floating_ = false, dead_ = false, ended_ = false;
    std::vector<Watch> guards_;
    std::vector<std::uint8_t> off_;  ///< by its guard, each consumer
    Duration lowest_at_{};
    Piece piece_{};
    /// Since something was last switched.
    struct Spell {
        Charge used;
        units::quantity<si::magnetic_flux> volts;  ///< of the terminals, times the time
        Duration took;
    };
    Spell spell_{};
    /// Something worked out for what is switched now.
    template <class T>
    struct Kept {
        std::uint32_t known = 0;
        T value{};
    };
    Ratio lost_ = -1.0;                             ///< to the cold, now
    std::array<Ratio, battery_marks> real_levels_;  ///< of the available well, of the marks that the terminals feel
    bool fed_ = false;                              ///< by charger or panel
    std::array<std::array<Kept<OperatingPoint>, 2>, battery_marks> points_;
    std::array<Kept<ChargeMode>, battery_marks> modes_;
    std::uint32_t now_known_ = 0;
    std::vector<LoadThroughCable> running_;
    std::vector<std::size_t> who_runs_;
    std::vector<Current> draws_;
    std::vector<Waiting> waiting_;
    const Ratio* needs_ = nullptr;  ///< of this interval
    std::vector<Ratio> duties_;     ///< share of it that each consumer runs
    std::size_t mark_ = battery_marks - 2;
    std::optional<Meeting> meeting_;
};

}  // namespace

Trip march(const Journey& journey, const MarchOptions& options) { return March(journey, options).go(); }

}  // namespace voltwright
