#pragma once

#include "voltwright/provenance/formula.hpp"
#include "voltwright/sizing/ampacity.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<Ampacity> {
    static constexpr Equation equation{"I = Itable·ka·k, ka = min(1, sqrt((Trated − Taround)/(Trated − Tref)))",
                                       "the basis named below; ambient correction as in NEC 310.15(B)"};
    static constexpr auto result = &Ampacity::current;
    static constexpr auto fields = std::tuple{
        field(&Ampacity::table, "Itable", "ampacity in the table"),
        field(&Ampacity::table_size, "", "row of the table"),
        field(&Ampacity::rated, "Trated", "temperature rating of the insulation"),
        field(&Ampacity::reference, "Tref", "ambient of the table"),
        field(&Ampacity::around, "Taround", "hottest surroundings while it carries current"),
        field(&Ampacity::ambient, "ka", "ambient correction"),
        field(&Ampacity::loaded, "", "loaded conductors lying together"),
        field(&Ampacity::grouping, "k", "factor for them"),
        field(&Ampacity::current, "I", "ampacity", "ampacity_A"),
    };
};

}  // namespace voltwright
