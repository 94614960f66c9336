#include "testing.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/units/literals.hpp"

#include <array>
#include <stdexcept>

namespace voltwright {

using namespace literals;

TEST_CASE("every chemistry has a rest voltage and a capacity at any temperature") {
    const Tables& tables = built_in_tables();
    for (const ChemistryRow& row : tables.chemistries) {
        CAPTURE(row.chemistry);
        Voltage voltage{};
        for (int soc = -5; soc <= 105; ++soc) {
            const Voltage now = rest_voltage(tables, row.chemistry, percent(soc));
            CHECK(now >= voltage);
            voltage = now;
        }
        CHECK(rest_voltage(tables, row.chemistry, percent(-5)) == rest_voltage(tables, row.chemistry, 0_percent));
        CHECK(rest_voltage(tables, row.chemistry, percent(105)) == rest_voltage(tables, row.chemistry, 100_percent));

        Ratio share = 0_percent;
        for (int around = -60; around <= 90; ++around) {
            const Ratio now = capacity_factor(tables, row.chemistry, celsius(around));
            CHECK(now >= share);
            share = now;
        }
        // The least that any source prints, at -18 degC, and held from there.
        CHECK(in_percent(capacity_factor(tables, row.chemistry, celsius(-60))) > 39.9);
        CHECK(in_percent(capacity_factor(tables, row.chemistry, 90_degC)) == near(100.0, 1e-9));
    }
}

TEST_CASE("a rest voltage and its state of charge lead to each other, for lead alone") {
    const Tables& tables = built_in_tables();
    for (const std::string_view lead : {"flooded", "agm", "gel"})
        for (int soc = 0; soc <= 100; ++soc) {
            CAPTURE(lead);
            CAPTURE(soc);
            const auto back = soc_at_rest(tables, lead, rest_voltage(tables, lead, percent(soc)));
            REQUIRE(back);
            CHECK(in_percent(*back) == near(soc, 1e-9));
        }
    CHECK(*soc_at_rest(tables, "agm", 10_V) == ratio(0.0));
    CHECK(*soc_at_rest(tables, "agm", 14_V) == ratio(1.0));
    CHECK_FALSE(soc_at_rest(tables, "lfp", 13.2_V));
}

TEST_CASE(
    "a temperature between two rows of lead is read from the factor in a straight line, of lithium from the share") {
    // A table of our own: half way between 1 and 2 the factor is 1.5.
    constexpr std::array lead = {CellSizeFactorRow{"flooded", celsius(0), 2.0, {}},
                                 CellSizeFactorRow{"flooded", celsius(20), 1.0, {}}};
    constexpr std::array lithium = {CapacityShareRow{"lithium", celsius(0), 0.5, {}},
                                    CapacityShareRow{"lithium", celsius(20), 1.0, {}}};
    Tables tables = built_in_tables();
    tables.cell_size_factors = lead;
    tables.capacity_shares = lithium;
    CHECK(capacity_factor(tables, "flooded", 10_degC) == near(ratio(2.0 / 3.0), ratio(1e-12)));
    CHECK(capacity_factor(tables, "lfp", 10_degC) == near(ratio(0.75), ratio(1e-12)));
    CHECK(capacity_factor(tables, "flooded", celsius(-10)) == near(ratio(0.5), ratio(1e-12)));
}

TEST_CASE("what no table knows is our own fault") {
    CHECK_THROWS_AS(capacity_factor(built_in_tables(), "nickel", 20_degC), std::logic_error);
    CHECK_THROWS_AS(rest_voltage(built_in_tables(), "nickel", 50_percent), std::logic_error);
    CHECK_THROWS_AS(soc_at_rest(built_in_tables(), "nickel", 12_V), std::logic_error);
}

}  // namespace voltwright
