#include "voltwright/simulation/record.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

/// No acid freezes above this, however flat the battery.
constexpr Temperature frost_begins_to_matter = celsius(0);

/// What the running loads used of what all of them drew, by what each draws at the mean voltage.
void share_out(const std::vector<RunningLoad>& running, Record& record) {
    const AccountingWindow& window = record.window;
    std::vector<ConsumerResult>& results = record.result.served;
    if (running.size() == 1) {
        results[running.front().consumer].used += window.used;
        return;
    }
    if (running.empty()) return;
    const Voltage mean = window.volt_time / window.took;
    Current sum{};
    for (std::size_t i = 0; i < running.size(); ++i) sum += record.draws[i] = running[i].load.at(mean).current;
    const Duration of_all = window.used / sum;
    for (std::size_t i = 0; i < running.size(); ++i) results[running[i].consumer].used += record.draws[i] * of_all;
}

/// What one that is off would have taken.
void left_without(const Setup& setup, const State& state, const RunningLoad& load, Record& record) {
    const AccountingWindow& window = record.window;
    const Voltage mean = window.volt_time / window.took;
    ConsumerResult& result = record.result.served[load.consumer];
    result.off += window.took;
    const auto* power = std::get_if<Power>(&setup.scenario.consumers[load.consumer].draw);
    result.unserved +=
        (power ? std::min<Ratio>(state.needs[load.consumer], 1.0) * *power : load.load.at(mean).current * mean) *
        window.took;
    if (!result.first_off) result.first_off = moment(state.now - window.took);
}

/// Charged, the acid freezes only in the deepest cold: the nearest moment is that of the least margin.
void record_frost(const Setup& setup, const State& state, Ratio soc, Record& record) {
    const HouseBattery& house = setup.scenario.battery;
    const Temperature battery = state.interval->battery;
    if (house.freezing.empty() || battery > frost_begins_to_matter) return;
    const Temperature freezes = *freezes_at(house, soc);
    auto& nearest = record.result.near_freezing;
    if (!nearest || battery - freezes < nearest->battery - nearest->freezes)
        nearest = NearFreezing{battery, freezes, soc, moment(state.now)};
}

/// The depth limit, and how cold the battery is that it is taken at.
void record_limit(const Scenario& scenario, const Interval& interval, TripResult& result) {
    result.deepest_allowed = soc_at_depth_limit(scenario, interval);
    result.limit_at = interval.battery;
}

}  // namespace

Record open_record(const Setup& setup, const State& state) {
    const Scenario& scenario = setup.scenario;
    Record record{};
    TripResult& result = record.result;
    result.start = result.lowest = result.end = scenario.battery.soc(state.charge);
    result.ledger.at_start = result.ledger.now = state.charge.available + state.charge.bound;
    result.served.reserve(scenario.consumers.size());
    for (const Consumer& consumer : scenario.consumers)
        result.served.push_back({.name = consumer.name, .essential = consumer.essential});
    record.draws.resize(scenario.consumers.size());
    if (!scenario.intervals.empty()) {
        record_limit(scenario, scenario.intervals.front(), result);
        record.lowest_at = scenario.intervals.front().from;
        result.days.reserve(static_cast<std::size_t>(scenario.intervals.back().day));
    }
    if (setup.options.points) result.points.reserve(scenario.intervals.size() + 1);
    return record;
}

void open_day(const Setup& setup, const State& state, Record& record) {
    const int day = state.interval->day;
    std::vector<DayTotals>& days = record.result.days;
    if (!days.empty() && days.back().day == day) return;
    const Ratio soc = setup.scenario.battery.soc(state.charge);
    days.push_back({day, {}, {}, soc, soc, soc});
}

void book_step(const Setup& setup, const State& state, const KineticStep& step, Record& record) {
    const Duration took = step.took;
    if (!(took > Duration{})) return;
    const OperatingPoint mean = mean_flow(state.circuit, step.level_time, took);
    const bool idle = gives_nothing(state.circuit) && !(mean.stored > Current{});
    // Where nothing flows in or out, what it loses is that and no more.
    const bool carried = mean.battery == Current{};
    const Current self_discharge = idle ? Current{} : carried ? -mean.stored : state.circuit.battery->self_discharge;
    TripResult& result = record.result;
    const StepCharges charges = book(result.ledger, state.circuit.connections, mean, self_discharge, took, step.state);
    if (state.interval->driving) {
        result.driven += took;
        result.kept_while_driving += charges.kept;
        if (!state.interval->takes_charge && !setup.scenario.battery.too_hot_to_charge(state.interval->battery))
            result.refused += took;
    }
    result.lasted += took;
    result.days.back().used += charges.used;
    result.days.back().charged += charges.source;
    record.window.used += charges.used;
    record.window.volt_time += mean.terminals * took;
    record.window.took += took;
}

void attribute_to_loads(const Setup& setup, State& state, Record& record) {
    const Duration took = record.window.took;
    if (!(took > Duration{})) return;
    share_out(state.circuit.connections.running, record);
    for (const RunningLoad& load : state.circuit.connections.running)
        owe_heat(setup, state, load.consumer, state.consumers[load.consumer].duty, took);
    for (const RunningLoad& load : state.waiting) {
        left_without(setup, state, load, record);
        owe_heat(setup, state, load.consumer, Ratio{}, took);
    }
    record.window = {};
}

void record_extremes(const Setup& setup, const State& state, Record& record) {
    const Ratio soc = setup.scenario.battery.soc(state.charge);
    TripResult& result = record.result;
    DayTotals& day = result.days.back();
    day.lowest = std::min(day.lowest, soc);
    day.end = soc;
    day.highest = std::max(day.highest, soc);
    if (soc < result.lowest) {
        result.lowest = soc;
        record.lowest_at = state.now;
        if (!result.below_limit) record_limit(setup.scenario, *state.interval, result);
    }
    if (state.circuit.fed) result.highest_after_start = std::max(result.highest_after_start, soc);
    record_frost(setup, state, soc, record);
}

void record_cut_off(const State& state, const CutOff& cut_off, Record& record) {
    ConsumerResult& result = record.result.served[cut_off.consumer];
    ++result.cut_offs;
    if (result.first_off) return;
    result.first_off = moment(state.now);
    result.by_its_cut_off = true;
}

void record_below_limit(const Setup& setup, const State& state, Duration then, Record& record) {
    record.result.below_limit = moment(then);
    record_limit(setup.scenario, *state.interval, record.result);
}

void record_end(EndedBy by, std::string name, Record& record) {
    record.ended = true;
    record.result.ended_by = by;
    record.result.ended_name = std::move(name);
}

void record_point(const Setup& setup, State& state, Record& record) {
    if (!setup.options.points) return;
    locate_segment(state.circuit, state.charge, state.level);
    const OperatingPoint point = flow_at(state.circuit, state.level);
    record.result.points.push_back({state.now, setup.scenario.battery.soc(state.charge), point.terminals, point.battery,
                                    point.source, state.interval->driving, state.interval->air,
                                    state.interval->battery});
}

TripResult close_record(const Setup& setup, const State& state, Record&& record) {
    TripResult& result = record.result;
    result.end = setup.scenario.battery.soc(state.charge);
    for (std::size_t i = 0; i < state.consumers.size(); ++i) result.served[i].owed = state.consumers[i].owed;
    result.lowest_at = moment(record.lowest_at);
    // There is no day after the last.
    if (!result.days.empty() && result.lowest_at.day > result.days.back().day)
        result.lowest_at = {result.days.back().day, hours(24)};
    return std::move(result);
}

}  // namespace voltwright
