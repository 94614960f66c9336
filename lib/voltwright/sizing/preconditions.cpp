#include "voltwright/sizing/preconditions.hpp"

#include <limits>
#include <stdexcept>
#include <string>

namespace voltwright {

namespace {

/// Refuses what is no amount of its kind, by the name of its field. Written so that what is no number is refused too.
template <class Q>
void above_nothing(Q value, const char* field) {
    if (!(value > Q{} && value < std::numeric_limits<Q>::infinity()))
        throw std::invalid_argument(std::string(field) + " has to be more than nothing");
}
template <class Q>
void not_negative(Q value, const char* field) {
    if (!(value >= Q{} && value < std::numeric_limits<Q>::infinity()))
        throw std::invalid_argument(std::string(field) + " has to be nothing or more");
}
void share(Ratio value, const char* field) {
    if (!(value > Ratio{} && value <= percent(100)))
        throw std::invalid_argument(std::string(field) + " has to be a share: above 0, at most 1");
}
void temperature(Temperature value, const char* field) {
    if (!(value > absolute_kelvins(0) && value < absolute_kelvins(std::numeric_limits<double>::infinity())))
        throw std::invalid_argument(std::string(field) + " is no temperature");
}
void cycle(const std::optional<ShortTime>& given, const char* field) {
    if (!given) return;
    above_nothing(given->on, field);
    above_nothing(given->cycle, field);
    not_negative(given->base, field);
    if (given->on > given->cycle) throw std::invalid_argument(std::string(field) + " lasts longer than its cycle");
}
template <class Q>
void if_given(const std::optional<Q>& value, const char* field) {
    if (value) above_nothing(*value, field);
}

}  // namespace

void expect_amounts(const RunLoad& load) {
    struct Check {
        void operator()(const ConverterLoad& charger) const {
            above_nothing(*charger.output, "ConverterLoad::output");
            above_nothing(charger.absorption, "ConverterLoad::absorption");
            above_nothing(charger.highest_absorption.voltage, "ConverterLoad::highest_absorption");
            share(charger.efficiency, "ConverterLoad::efficiency");
            not_negative(charger.input_off, "ConverterLoad::input_off");
            if_given(charger.input_limit, "ConverterLoad::input_limit");
            if_given(charger.fuse_max, "ConverterLoad::fuse_max");
        }
        void operator()(const SteadyLoad& steady) const {
            not_negative(*steady.current, "SteadyLoad::current");
            if (steady.most) not_negative(*steady.most, "SteadyLoad::most");
            if_given(steady.fuse_max, "SteadyLoad::fuse_max");
            cycle(steady.short_time, "SteadyLoad::short_time");
        }
        void operator()(const PowerLoad& appliance) const {
            not_negative(*appliance.power, "PowerLoad::power");
            above_nothing(appliance.cut_out, "PowerLoad::cut_out");
            if_given(appliance.fuse_max, "PowerLoad::fuse_max");
            cycle(appliance.short_time, "PowerLoad::short_time");
        }
        void operator()(const ResistiveLoad& heater) const {
            above_nothing(*heater.resistance, "ResistiveLoad::resistance");
            above_nothing(*heater.highest, "ResistiveLoad::highest");
            if_given(heater.fuse_max, "ResistiveLoad::fuse_max");
            cycle(heater.short_time, "ResistiveLoad::short_time");
        }
        void operator()(const PanelLoad& panels) const {
            above_nothing(*panels.most_power, "PanelLoad::most_power");
            above_nothing(*panels.short_circuit, "PanelLoad::short_circuit");
        }
    };
    std::visit(Check{}, load);
}

void expect_amounts(const CableRun& run) {
    above_nothing(*run.length, "CableRun::length");
    temperature(run.around, "CableRun::around");
    temperature(run.insulation, "CableRun::insulation");
    if (run.loaded_in_bundle < 1) throw std::invalid_argument("CableRun::loaded_in_bundle has to count the run itself");
    for (const WayPart& part : run.way) {
        not_negative(part.length, "WayPart::length");
        temperature(part.around, "WayPart::around");
    }
    if (run.joints)
        for (const Joint& joint : *run.joints)
            if (joint.measured) not_negative(*joint.measured, "Joint::measured");
    if (run.body) not_negative(run.body->resistance.value, "BodyReturn::resistance");
    if (run.body && run.body->high) not_negative(*run.body->high, "BodyReturn::high");
    if_given(run.source_limit, "CableRun::source_limit");
    if (run.fused_at.empty() && !run.source_limit)
        throw std::invalid_argument(
            "CableRun::fused_at is empty: a fuse is due at every end from which a source feeds");
    for (const FuseEnd& end : run.fused_at) {
        temperature(end.around, "FuseEnd::around");
        above_nothing(end.open_circuit, "FuseEnd::open_circuit");
        above_nothing(end.highest, "FuseEnd::highest");
        not_negative(end.internal.low, "FuseEnd::internal");
        not_negative(end.internal.expected, "FuseEnd::internal");
        not_negative(end.internal.high, "FuseEnd::internal");
    }
    if_given(run.terminal, "CableRun::terminal");
    for (const Length& stud : run.studs) above_nothing(stud, "CableRun::studs");
    not_negative(run.upstream.cold, "Upstream::cold");
    not_negative(run.upstream.hot, "Upstream::hot");
    for (const ShortCurrent& start : run.starting) {
        not_negative(start.current, "ShortCurrent::current");
        not_negative(start.time, "ShortCurrent::time");
    }
    if_given(run.motor_fuse, "CableRun::motor_fuse");
}

void expect_amounts(const Supply& supply, const Rules& rules) {
    above_nothing(*supply.normal, "Supply::normal");
    above_nothing(*supply.lowest, "Supply::lowest");
    share(supply.drop_limit, "Supply::drop_limit");
    share(rules.fuse_use, "Rules::fuse_use");
    not_negative(rules.smallest, "Rules::smallest");
}

}  // namespace voltwright
