#pragma once

#include "voltwright/energy/sky.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<DullDay> {
    static constexpr Equation equation{"Kd = K·s(K)", "Aguiar, Collares-Pereira and Conde 1988"};
    static constexpr auto result = &DullDay::dull;
    static constexpr auto fields = std::tuple{
        field(&DullDay::clearness_index, "K", "share of the sun outside the air that reaches the ground, mean day"),
        field(&DullDay::share, "s", "what one day in ten does not reach, of the mean day's sun"),
        field(&DullDay::dull, "Kd", "share of the sun outside the air that reaches the ground, dull day"),
    };
};

}  // namespace voltwright
