#pragma once

#include "voltwright/provenance/formula.hpp"
#include "voltwright/simulation/charger_point_description.hpp"
#include "voltwright/simulation/ledger.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<Ledger> {
    static constexpr Equation equation{"Q1 = Q0 + Qc + Qs − Qu − Qg − Ql", "conservation of charge"};
    static constexpr auto result = &Ledger::now;
    static constexpr auto fields = std::tuple{
        field(&Ledger::from_charger, "Qc", "from the charger"),
        field(&Ledger::from_sun, "Qs", "from the sun"),
        field(&Ledger::used, "Qu", "used by all loads"),
        field(&Ledger::gassed, "Qg", "put in and not kept"),
        field(&Ledger::leaked, "Ql", "self-discharge"),
        field(&Ledger::at_start, "Q0", "in both wells at the start"),
        field(&Ledger::now, "Q1", "in both wells at the end"),
    };
};

}  // namespace voltwright
