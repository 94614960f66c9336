#pragma once

#include "voltwright/energy/charger.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<CompensatedVoltage> {
    static constexpr Equation equation{"V = V25 + k·(T − 25 °C)", "lead-acid practice"};
    static constexpr auto result = &CompensatedVoltage::voltage;
    static constexpr auto fields = std::tuple{
        field(&CompensatedVoltage::at_25, "V25", "absorption voltage at 25 degC"),
        field(&CompensatedVoltage::compensation, "k", "temperature compensation"),
        field(&CompensatedVoltage::temperature, "T", "coldest of the trip"),
        field(&CompensatedVoltage::voltage, "V", "highest absorption voltage"),
    };
};

}  // namespace voltwright
