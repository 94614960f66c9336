#pragma once

#include "voltwright/provenance/formula.hpp"
#include "voltwright/simulation/autonomy.hpp"
#include "voltwright/simulation/ledger_description.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<Autonomy> {
    static constexpr Equation equation{};
    static constexpr auto result = &Autonomy::lasts;
    static constexpr auto fields = std::tuple{
        field(&Autonomy::from, "", "state of charge at the start"),
        field(&Autonomy::day, "", "day of the trip"),
        field(&Autonomy::starts_at, "", "start, after midnight"),
        field(&Autonomy::lasts, "", "how long all runs"),
        field(&Autonomy::ended_by, "", "ended by"),
        field(&Autonomy::ended_name, "", "its name"),
        field(&Autonomy::end, "", "state of charge at the end"),
        field(&Autonomy::limit, "", "state of charge at the depth limit"),
        field(&Autonomy::limit_at, "", "of the battery then"),
        field(&Autonomy::used, "", "used until then"),
        field(&Autonomy::cut_offs, "", "how often a guard switched something off"),
    };
};

}  // namespace voltwright
