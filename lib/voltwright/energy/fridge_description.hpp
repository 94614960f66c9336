#pragma once

#include "voltwright/energy/fridge.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<Fridge> {
    static constexpr Equation equation{};
    static constexpr auto result = &Fridge::wall;
    static constexpr auto fields = std::tuple{
        field(&Fridge::fixed, "Pf", "power that heat does not change"),
        field(&Fridge::wall, "W", "conductance of the walls over efficiency"),
        field(&Fridge::fit, "", "known from"),
        field(&Fridge::by_rule_of_thumb, "", "by a rule of thumb, from the volume alone"),
    };
};

template <>
struct Described<FridgeDuty> {
    static constexpr Equation equation{"P = Pf + W·(Ta − Ti)·x, d = P/Pd",
                                       "heat through a wall and Carnot's efficiency, textbook relations"};
    static constexpr auto result = &FridgeDuty::power;
    static constexpr auto fields = std::tuple{
        field(&FridgeDuty::fixed, "Pf", "power that heat does not change"),
        field(&FridgeDuty::wall, "W", "conductance of the walls over efficiency"),
        field(&FridgeDuty::around, "Ta", "temperature around it"),
        field(&FridgeDuty::inside, "Ti", "temperature inside, over all its walls"),
        field(&FridgeDuty::ideal_work, "x", "work that an ideal refrigerator needs for that heat"),
        field(&FridgeDuty::power, "P", "mean power", "power_W"),
        field(&FridgeDuty::draw, "Pd", "power while the compressor runs"),
        field(&FridgeDuty::duty, "d", "share of the time that it runs", "duty_percent"),
        field(&FridgeDuty::holds, "", "it holds its temperature"),
    };
};

template <>
struct Described<Restocking> {
    static constexpr Equation equation{"E = Q·x/η", "Carnot's efficiency and a share of it"};
    static constexpr auto result = &Restocking::electric;
    static constexpr auto fields = std::tuple{
        field(&Restocking::mass, "m", "mass put in"),
        field(&Restocking::from, "T", "temperature at which it is put in"),
        field(&Restocking::inside, "Ti", "temperature inside"),
        field(&Restocking::around, "Ta", "temperature around the fridge"),
        field(&Restocking::cooling, "", "heat of cooling it down"),
        field(&Restocking::freezing, "", "heat of freezing it"),
        field(&Restocking::heat, "Q", "heat to be taken out"),
        field(&Restocking::ideal_work, "x", "work that an ideal refrigerator needs for that heat"),
        field(&Restocking::efficiency, "η", "share of the ideal"),
        field(&Restocking::electric, "E", "taken from the battery for it"),
    };
};

template <>
struct Described<LidOpenings> {
    static constexpr Equation equation{"E = n·Q·x/η",
                                       "the air of the inside, changed; Carnot's efficiency and a share of it"};
    static constexpr auto result = &LidOpenings::electric;
    static constexpr auto fields = std::tuple{
        field(&LidOpenings::a_day, "n", "how often it is opened in a day"),
        field(&LidOpenings::volume, "V", "volume of the inside"),
        field(&LidOpenings::around, "Ta", "temperature around the fridge"),
        field(&LidOpenings::inside, "Ti", "temperature inside"),
        field(&LidOpenings::heat, "Q", "heat that one opening lets in"),
        field(&LidOpenings::ideal_work, "x", "work that an ideal refrigerator needs for that heat"),
        field(&LidOpenings::efficiency, "η", "share of the ideal"),
        field(&LidOpenings::electric, "E", "taken from the battery for it in a day"),
    };
};

}  // namespace voltwright
