#pragma once

#include "voltwright/circuit/withstand.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<Withstand> {
    static constexpr Equation equation{"Wl = I·I·t, at most Wa = (226·S)²·ln((234.5 °C + Tf)/(234.5 °C + Ti))",
                                       "IEC 60364-4-43; 226 A·√s/mm² for copper: IEC 60364-5-54"};
    static constexpr auto result = &Withstand::let_through;
    static constexpr auto fields = std::tuple{
        field(&Withstand::area, "S", "area of the thinner conductor"),
        field(&Withstand::start, "Ti", "temperature at the start of the short"),
        field(&Withstand::limit, "Tf", "temperature that its insulation stands for seconds"),
        field(&Withstand::fault, "I", "current of the short"),
        field(&Withstand::time, "t", "the longest that the fuse lets it flow"),
        field(&Withstand::let_through, "Wl", "let through"),
        field(&Withstand::allowed, "Wa", "what the conductor stands"),
    };
};

}  // namespace voltwright
