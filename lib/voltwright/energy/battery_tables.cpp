#include "voltwright/energy/battery_tables.hpp"

#include "voltwright/tables/practice.hpp"

#include <algorithm>
#include <optional>
#include <stdexcept>

namespace voltwright {

namespace {

/// A straight line through (x₀, y₀) and (x₁, y₁), held at both ends.
template <class X, class Y>
Y between(X x, X x_0, Y y_0, X x_1, Y y_1) {
    const double share = in_ratio((x - x_0) / (x_1 - x_0));
    return y_0 + (y_1 - y_0) * std::clamp(share, 0.0, 1.0);
}

/// Among the rows that are wanted, which rise in x.
template <class Rows, class Wanted, class X, class Y, class Row>
std::optional<Y> look_up(const Rows& rows, Wanted wanted, X Row::*x_of, Y Row::*y_of, X x) {
    const Row* before = nullptr;
    for (const Row& row : rows) {
        if (!wanted(row)) continue;
        if (x <= row.*x_of) return before ? between(x, before->*x_of, before->*y_of, row.*x_of, row.*y_of) : row.*y_of;
        before = &row;
    }
    return before ? std::optional<Y>(before->*y_of) : std::nullopt;
}

const ChemistryRow& row_of(const Tables& tables, std::string_view chemistry) {
    const ChemistryRow* row = find_chemistry(tables, chemistry);
    if (!row) throw std::logic_error("no such chemistry");
    return *row;
}

}  // namespace

Ratio capacity_factor(const Tables& tables, std::string_view chemistry, Temperature around) {
    return capacity_factor(tables, row_of(tables, chemistry), around);
}

Ratio capacity_factor(const Tables& tables, const ChemistryRow& chemistry, Temperature around) {
    const auto wanted = [&](const auto& row) { return row.group == chemistry.cold_capacity; };
    if (const auto factor = look_up(tables.cell_size_factors, wanted, &CellSizeFactorRow::temperature,
                                    &CellSizeFactorRow::factor, around))
        return std::min<Ratio>(1.0 / *factor, 1.0);
    if (const auto share = look_up(tables.capacity_shares, wanted, &CapacityShareRow::temperature,
                                   &CapacityShareRow::capacity, around))
        return std::min<Ratio>(*share, 1.0);
    throw std::logic_error("no capacity by temperature for this chemistry");
}

Voltage rest_voltage(const Tables& tables, std::string_view chemistry, Ratio soc) {
    const auto voltage = look_up(
        tables.rest_voltages, [&](const RestVoltageRow& row) { return row.chemistry == chemistry; },
        &RestVoltageRow::soc, &RestVoltageRow::voltage, soc);
    if (!voltage) throw std::logic_error("no rest voltages for this chemistry");
    return *voltage;
}

Voltage mean_running_voltage(const Tables& tables, const ChemistryRow& chemistry) {
    constexpr int parts = 20;
    Voltage sum{};
    for (int part = 0; part < parts; ++part) {
        const Ratio used = chemistry.depth_limit * ((part + 0.5) / parts);
        sum += rest_voltage(tables, chemistry.chemistry, 1.0 - used);
    }
    return sum / static_cast<double>(parts);
}

std::optional<Ratio> soc_at_rest(const Tables& tables, std::string_view chemistry, Voltage at_rest) {
    if (row_of(tables, chemistry).group != "lead") return {};
    return look_up(
        tables.rest_voltages, [&](const RestVoltageRow& row) { return row.chemistry == chemistry; },
        &RestVoltageRow::voltage, &RestVoltageRow::soc, at_rest);
}

std::optional<Voltage> highest_at_rest(const Tables& tables, std::string_view chemistry) {
    if (row_of(tables, chemistry).group != "lead") return {};
    return rest_voltage(tables, chemistry, percent(100)) + practice(tables, PracticeVoltage::above_full_at_rest).value;
}

}  // namespace voltwright
