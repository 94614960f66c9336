#include "testing.hpp"

#include "voltwright/tables/tables.hpp"

#include <array>
#include <cstddef>
#include <stdexcept>

namespace voltwright {

namespace {

constexpr Source invented{"invented", "made up for this test"};

/// A few rows of every table that is looked up by more than its name.
struct Invented {
    std::array<AmpacityRow, 4> ampacities{{
        {"first", awg(8), celsius(90), amperes(70), invented},
        {"first", awg(8), celsius(105), amperes(80), invented},
        {"first", awg(8), celsius(125), amperes(90), invented},
        {"second", awg(8), celsius(105), amperes(81), invented},
    }};
    std::array<GroupingRow, 3> groupings{{
        {"first", 3, 3, ratio(0.7), invented},
        {"first", 4, 6, ratio(0.6), invented},
        {"first", 7, {}, ratio(0.5), invented},
    }};
    std::array<JointRow, 4> joints{{
        {"lug",
         JointKind::lug,
         square_millimetres(1),
         square_millimetres(10),
         milliohms(1),
         milliohms(2),
         milliohms(3),
         {},
         {},
         {},
         {},
         {},
         {},
         watts(5),
         invented,
         invented},
        {"lug",
         JointKind::lug,
         square_millimetres(10),
         square_millimetres(20),
         milliohms(4),
         milliohms(5),
         milliohms(6),
         {},
         {},
         {},
         {},
         {},
         {},
         watts(5),
         invented,
         invented},
        {"lug",
         JointKind::lug,
         square_millimetres(30),
         square_millimetres(50),
         milliohms(7),
         milliohms(8),
         milliohms(9),
         {},
         {},
         {},
         {},
         {},
         {},
         watts(5),
         invented,
         invented},
        {"clamp",
         JointKind::battery_clamp,
         square_millimetres(1),
         square_millimetres(50),
         milliohms(10),
         milliohms(11),
         milliohms(12),
         {},
         {},
         {},
         {},
         {},
         {},
         watts(5),
         invented,
         invented},
    }};
    std::array<FuseFamilyRow, 2> families{{
        {"small", "a standard", FuseForm::blade, {}, {}, {}, {}, milliohms(2), {}, invented},
        {"large", "a standard", FuseForm::bolted, "big|heavy", {}, {}, {}, milliohms(1), {}, invented},
    }};
    std::array<BreakingCapacityRow, 3> breaking{{
        {"large", volts(58), amperes(2000), invented},
        {"large", volts(14), amperes(10000), invented},
        {"large", volts(32), amperes(5000), invented},
    }};
    Tables tables() const {
        Tables all{};
        all.ampacities = ampacities;
        all.groupings = groupings;
        all.joints = joints;
        all.fuse_families = families;
        all.breaking_capacities = breaking;
        return all;
    }
};

}  // namespace

TEST_CASE("an ampacity is that of the highest insulation class not above the wire's own") {
    const Invented invented_rows;
    const Tables tables = invented_rows.tables();
    struct Case {
        double insulation, current;
    };
    for (const Case& wanted : {Case{90, 70}, {104, 70}, {105, 80}, {110, 80}, {125, 90}, {200, 90}}) {
        CAPTURE(wanted.insulation);
        const AmpacityRow* row = find_ampacity(tables, "first", awg(8), celsius(wanted.insulation));
        REQUIRE(row);
        CHECK(in_amperes(row->current) == near(wanted.current, 1e-9));
    }
    CHECK(find_ampacity(tables, "second", awg(8), celsius(105)) == &tables.ampacities[3]);
}

TEST_CASE("there is no ampacity below the lowest class, of another size or in another basis") {
    const Invented invented_rows;
    const Tables tables = invented_rows.tables();
    CHECK_FALSE(find_ampacity(tables, "first", awg(8), celsius(89)));
    CHECK_FALSE(find_ampacity(tables, "first", awg(6), celsius(105)));
    CHECK_FALSE(find_ampacity(tables, "first", metric(8), celsius(105)));
    CHECK_FALSE(find_ampacity(tables, "third", awg(8), celsius(105)));
}

TEST_CASE("a grouping is found by the number of loaded conductors, both ends included and the last row open") {
    const Invented invented_rows;
    const Tables tables = invented_rows.tables();
    CHECK_FALSE(find_grouping(tables, "first", 2));
    CHECK(find_grouping(tables, "first", 3) == &tables.groupings[0]);
    CHECK(find_grouping(tables, "first", 4) == &tables.groupings[1]);
    CHECK(find_grouping(tables, "first", 6) == &tables.groupings[1]);
    CHECK(find_grouping(tables, "first", 7) == &tables.groupings[2]);
    CHECK(find_grouping(tables, "first", 500) == &tables.groupings[2]);
    CHECK_FALSE(find_grouping(tables, "second", 5));
}

TEST_CASE("a joint is found by name and by the area of its conductor") {
    const Invented invented_rows;
    const Tables tables = invented_rows.tables();
    CHECK(find_joint(tables, "lug", square_millimetres(5)) == &tables.joints[0]);
    CHECK(find_joint(tables, "lug", square_millimetres(15)) == &tables.joints[1]);
    CHECK(find_joint(tables, "clamp", square_millimetres(5)) == &tables.joints[3]);
    CHECK_FALSE(find_joint(tables, "rivet", square_millimetres(5)));
    CHECK(find_joint(tables, "lug") == &tables.joints[0]);
    CHECK(joint_kind(tables, "clamp") == JointKind::battery_clamp);
    CHECK_FALSE(joint_kind(tables, "rivet"));
}

TEST_CASE("a joint for an area outside all its rows is the nearest row") {
    const Invented invented_rows;
    const Tables tables = invented_rows.tables();
    CHECK(find_joint(tables, "lug", square_millimetres(0.5)) == &tables.joints[0]);
    CHECK(find_joint(tables, "lug", square_millimetres(22)) == &tables.joints[1]);
    CHECK(find_joint(tables, "lug", square_millimetres(28)) == &tables.joints[2]);
    CHECK(find_joint(tables, "lug", square_millimetres(400)) == &tables.joints[2]);
}

TEST_CASE("a family of fuses is found by its printed name and by each other spelling, whole") {
    const Invented invented_rows;
    const Tables tables = invented_rows.tables();
    CHECK(find_fuse_family(tables, "large") == &tables.fuse_families[1]);
    CHECK(find_fuse_family(tables, "big") == &tables.fuse_families[1]);
    CHECK(find_fuse_family(tables, "heavy") == &tables.fuse_families[1]);
    CHECK_FALSE(find_fuse_family(tables, "big|heavy"));
    CHECK_FALSE(find_fuse_family(tables, "heav"));
    CHECK_FALSE(find_fuse_family(tables, ""));
}

TEST_CASE("a breaking capacity is that of the least voltage that covers the system's, in any order of the rows") {
    const Invented invented_rows;
    const Tables tables = invented_rows.tables();
    CHECK(find_breaking_capacity(tables, "large", volts(12)) == &tables.breaking_capacities[1]);
    CHECK(find_breaking_capacity(tables, "large", volts(14)) == &tables.breaking_capacities[1]);
    CHECK(find_breaking_capacity(tables, "large", volts(14.4)) == &tables.breaking_capacities[2]);
    CHECK(find_breaking_capacity(tables, "large", volts(58)) == &tables.breaking_capacities[0]);
    CHECK_FALSE(find_breaking_capacity(tables, "large", volts(60)));
    CHECK_FALSE(find_breaking_capacity(tables, "small", volts(12)));
}

TEST_CASE("a limit in a short is that of the material, and of the rating where the material has no rows") {
    const std::array<ShortCircuitLimitRow, 4> rows{{
        {"", celsius(90), celsius(160), kelvins(50), invented},
        {"", celsius(125), celsius(200), kelvins(50), invented},
        {"rubber", celsius(60), celsius(210), kelvins(50), invented},
        {"rubber", celsius(85), celsius(220), kelvins(50), invented},
    }};
    Tables own{};
    own.short_circuit_limits = rows;
    CHECK(find_short_circuit_limit(own, celsius(60)) == &rows[0]);
    CHECK(find_short_circuit_limit(own, celsius(90)) == &rows[0]);
    CHECK(find_short_circuit_limit(own, celsius(91)) == &rows[1]);
    CHECK(find_short_circuit_limit(own, celsius(300)) == &rows[1]);
    CHECK(find_short_circuit_limit(own, celsius(60), "rubber") == &rows[2]);
    CHECK(find_short_circuit_limit(own, celsius(75), "rubber") == &rows[3]);
    CHECK(find_short_circuit_limit(own, celsius(105), "rubber") == &rows[3]);
    CHECK(find_short_circuit_limit(own, celsius(105), "hemp") == &rows[1]);
}

TEST_CASE("a share for pulses is that of as many or the next more") {
    const std::array<PulseShareRow, 2> rows{{{10, ratio(0.5), invented}, {1000, ratio(0.25), invented}}};
    Tables own{};
    own.pulse_shares = rows;
    CHECK(find_pulse_share(own, 1) == &rows[0]);
    CHECK(find_pulse_share(own, 10) == &rows[0]);
    CHECK(find_pulse_share(own, 11) == &rows[1]);
    CHECK_FALSE(find_pulse_share(own, 1001));
}

TEST_CASE("every figure of practice has one row, which says that it has no source, or which") {
    const Tables& tables = built_in_tables();
    const auto check = [&](const auto& rows, auto last) {
        CHECK(rows.size() == static_cast<std::size_t>(last) + 1);
        for (const auto& row : rows) {
            CHECK(practice(tables, row.what).value == row.value);
            CHECK(in_practice(row.what) == row.value);
            const Source& source = practice(tables, row.what).source;
            const bool has_none = source.cite.find("no source") != std::string_view::npos;
            CHECK(has_none == (source.standing == Standing::common_practice));
        }
    };
    check(tables.practice_voltages, PracticeVoltage::hot_idle);
    check(tables.practice_shares, PracticeShare::worn_capacity);
    check(tables.practice_lengths, PracticeLength::main_lead);
    CHECK_THROWS_AS(practice(Tables{}, PracticeVoltage::input_margin), std::logic_error);
}

TEST_CASE("empty tables answer that there is no such row") {
    const Tables none{};
    CHECK_FALSE(find_short_circuit_limit(none, celsius(105)));
    CHECK_FALSE(find_short_circuit_limit(none, celsius(105), "pvc"));
    CHECK_FALSE(find_pulse_share(none, 1));
    CHECK_FALSE(find_conductor(none, awg(8)));
    CHECK_FALSE(find_trade_size(none, trade(6)));
    CHECK_FALSE(find_ampacity_basis(none, "us-33-cfr-183"));
    CHECK_FALSE(find_joint(none, "lug", square_millimetres(6)));
    CHECK_FALSE(find_surroundings(none, "cabin"));
    CHECK_FALSE(find_chemistry(none, "agm"));
    CHECK_FALSE(find_printed_table(none, "joints"));
}

}  // namespace voltwright
