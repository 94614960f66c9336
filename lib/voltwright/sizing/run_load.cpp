#include "voltwright/sizing/run_load.hpp"

#include <algorithm>

namespace voltwright {

namespace {

DesignCurrent designed(Current most, const std::optional<ShortTime>& short_time) {
    if (!short_time) return {{}, {}, {}, most};
    const Current base = std::min(short_time->base, most);
    const auto always = base * base;
    return {{},
            {},
            {},
            sqrt(always + (most * most - always) * double(short_time->on / short_time->cycle)),
            ShortTimeCurrent{most, short_time->on, short_time->cycle, base}};
}

}  // namespace

Current peak_current(const DesignCurrent& design) {
    return design.short_time ? design.short_time->current : design.current;
}

DesignCurrent design_current(const RunLoad& load) {
    struct {
        DesignCurrent operator()(const ConverterLoad& charger) const {
            const FeedDesignCurrent feed =
                feed_design_current(charger.output, charger.highest_absorption.voltage, charger.efficiency,
                                    charger.input_off, charger.input_limit);
            return {feed, charger.highest_absorption, {}, feed.current};
        }
        DesignCurrent operator()(const SteadyLoad& steady) const {
            DesignCurrent design = designed(steady.most.value_or(steady.current), steady.short_time);
            design.link = steady.link;
            return design;
        }
        DesignCurrent operator()(const PowerLoad& appliance) const {
            return designed(current_at(law_of(appliance), appliance.cut_out), appliance.short_time);
        }
        DesignCurrent operator()(const ResistiveLoad& heater) const {
            return designed(current_at(law_of(heater), heater.highest), heater.short_time);
        }
        DesignCurrent operator()(const PanelLoad& panels) const {
            const PanelDesignCurrent panel = panel_design_current(panels.short_circuit);
            return {.current = panel.most, .panel = panel};
        }
    } of;
    return std::visit(of, load);
}

LoadLaw law_of(const RunLoad& load) {
    struct {
        LoadLaw operator()(const ConverterLoad& charger) const {
            return converter_power(charger.output, charger.absorption, charger.efficiency).power;
        }
        LoadLaw operator()(const SteadyLoad& steady) const { return *steady.current; }
        LoadLaw operator()(const PowerLoad& appliance) const { return *appliance.power; }
        LoadLaw operator()(const ResistiveLoad& heater) const { return *heater.resistance; }
        LoadLaw operator()(const PanelLoad& panels) const { return *panels.most_power; }
    } of;
    return std::visit(of, load);
}

std::optional<Current> fuse_max(const RunLoad& load) {
    return std::visit(
        [](const auto& one) -> std::optional<Current> {
            if constexpr (requires { one.fuse_max; })
                return one.fuse_max;
            else
                return {};
        },
        load);
}

bool starts_hard(const RunLoad& load) {
    const auto* appliance = std::get_if<PowerLoad>(&load);
    return appliance && appliance->starts_hard && appliance->fuse_max;
}

}  // namespace voltwright
