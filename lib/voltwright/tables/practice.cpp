#include "voltwright/tables/practice.hpp"

#include "voltwright/tables/tables.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

namespace {

template <class Rows, class What>
auto cited(const Rows& rows, What what) {
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const auto& one) { return one.what == what; });
    if (row == rows.end()) throw std::logic_error("a figure of practice has no row");
    return Cited<decltype(row->value)>{row->value, row->source};
}

}  // namespace

Cited<Voltage> practice(const Tables& tables, PracticeVoltage what) { return cited(tables.practice_voltages, what); }
Cited<Ratio> practice(const Tables& tables, PracticeShare what) { return cited(tables.practice_shares, what); }
Cited<Length> practice(const Tables& tables, PracticeLength what) { return cited(tables.practice_lengths, what); }

Voltage in_practice(PracticeVoltage what) { return practice(built_in_tables(), what).value; }
Ratio in_practice(PracticeShare what) { return practice(built_in_tables(), what).value; }
Length in_practice(PracticeLength what) { return practice(built_in_tables(), what).value; }

}  // namespace voltwright
