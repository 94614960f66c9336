#pragma once

#include "voltwright/circuit/converter_description.hpp"
#include "voltwright/circuit/link_description.hpp"
#include "voltwright/circuit/run_description.hpp"
#include "voltwright/circuit/withstand_description.hpp"
#include "voltwright/energy/charger_description.hpp"
#include "voltwright/provenance/formula.hpp"
#include "voltwright/sizing/ampacity_description.hpp"
#include "voltwright/sizing/choice.hpp"
#include "voltwright/sizing/fuse_description.hpp"
#include "voltwright/sizing/panel_current_description.hpp"
#include "voltwright/sizing/part_rating_description.hpp"

#include <string_view>
#include <tuple>

namespace voltwright {

template <>
struct Described<DropCheck> {
    static constexpr Equation equation{"U = I·R", "Ohm's law"};
    static constexpr auto result = &DropCheck::drop;
    static constexpr auto fields = std::tuple{
        field(&DropCheck::source, "", "normal voltage at the source"),
        field(&DropCheck::charger, "", "power that the charger takes in"),
        field(&DropCheck::input, "", "voltage that is left at the far end"),
        field(&DropCheck::resistance, "R", "loop resistance"),
        field(&DropCheck::current, "I", "current"),
        field(&DropCheck::drop, "U", "volts lost"),
        field(&DropCheck::cable_drop, "", "of which in the cable"),
        field(&DropCheck::joint_drop, "", "of which in joints and fuse"),
        field(&DropCheck::share, "", "share of 12 V"),
        field(&DropCheck::limit, "", "share allowed", "drop_limit_percent"),
        field(&DropCheck::allowed, "", "volts allowed"),
        field(&DropCheck::far_end, "", "voltage at the far end"),
        field(&DropCheck::heat, "", "heat in the run"),
    };
};

template <>
struct Described<LowestInput> {
    static constexpr Equation equation{};
    static constexpr auto result = &LowestInput::far_end;
    static constexpr auto fields = std::tuple{
        field(&LowestInput::input, "", "solved at the lowest running voltage"),
        field(&LowestInput::input_off, "", "input voltage at which the charger gives up"),
        field(&LowestInput::required, "", "voltage that it must keep"),
        field(&LowestInput::far_end, "", "voltage at the far end, lowest", "far_end_lowest_V"),
    };
};

template <>
struct Described<ShortTimeCurrent> {
    static constexpr Equation equation{};
    static constexpr auto result = &ShortTimeCurrent::current;
    static constexpr auto fields = std::tuple{
        field(&ShortTimeCurrent::current, "", "current while it runs", "short_time_A"),
        field(&ShortTimeCurrent::on, "", "for", "short_time_s"),
        field(&ShortTimeCurrent::cycle, "", "from one start to the next", "short_time_cycle_s"),
        field(&ShortTimeCurrent::base, "", "beside it all the time"),
    };
};

template <>
struct Described<DesignCurrent> {
    static constexpr Equation equation{};
    static constexpr auto result = &DesignCurrent::current;
    static constexpr auto fields = std::tuple{
        field(&DesignCurrent::feed, "", "of a charger's feed"),
        field(&DesignCurrent::absorption, "", "its highest absorption voltage"),
        field(&DesignCurrent::link, "", "the most that flows through the relay's link"),
        field(&DesignCurrent::current, "", "design current", "design_current_A"),
        field(&DesignCurrent::short_time, "", "of a load that runs for a short time"),
        field(&DesignCurrent::panel, "", "of a panel's cable"),
    };
};

template <>
struct Described<LastingShort> {
    static constexpr Equation equation{};
    static constexpr auto result = &LastingShort::reaches;
    static constexpr auto fields = std::tuple{
        field(&LastingShort::current, "", "current of the short"),
        field(&LastingShort::time, "", "the longest that the fuse lets it flow"),
        field(&LastingShort::start, "", "temperature at the start of the short"),
        field(&LastingShort::reaches, "", "temperature that the conductor reaches"),
        field(&LastingShort::limit, "", "temperature that its insulation stands for so long"),
    };
};

template <>
struct Described<Protection> {
    static constexpr Equation equation{};
    static constexpr auto result = &Protection::clears;
    static std::string_view name(const Protection& protection) { return protection.at.name; }
    static constexpr auto fields = std::tuple{
        field(&Protection::at, "", "fuse at"),
        field(&Protection::lowest, "", "dead short at the far end, at its lowest"),
        field(&Protection::clears, "", "cleared at the latest after"),
        field(&Protection::known, "", "its time limits are known"),
        field(&Protection::at_far, "", "let through then"),
        field(&Protection::at_worst, "", "let through of the short that lets through most"),
        field(&Protection::lasting, "", "of the shorts that last longer than 5 s, the one that heats most"),
    };
};

template <>
struct Described<Candidate> {
    static constexpr Equation equation{};
    static constexpr auto result = &Candidate::size;
    static constexpr auto fields = std::tuple{
        field(&Candidate::size, "", "size", "size"),
        field(&Candidate::area, "", "area", "area_mm2"),
        field(&Candidate::ampacity, "", "ampacity"),
        field(&Candidate::temperature, "", "conductor temperature"),
        field(&Candidate::drop, "", "drop"),
        field(&Candidate::lowest, "", "lowest input"),
        field(&Candidate::far_fault, "", "dead short at the far end, cold copper"),
        field(&Candidate::parts, "", "parts in the run"),
        field(&Candidate::fuses, "", "fuses"),
        field(&Candidate::protection, "", "a short at the far end"),
        field(&Candidate::start, "", "heat of a starting current"),
    };
};

}  // namespace voltwright
