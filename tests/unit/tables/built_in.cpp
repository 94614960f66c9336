// What the tables of data/ have to keep among themselves.

#include "testing.hpp"

#include "voltwright/tables/tables.hpp"

#include <set>
#include <string>
#include <vector>

namespace voltwright {

namespace {

const Tables& tables = built_in_tables();

std::vector<const JointRow*> rows_of(std::string_view joint) {
    std::vector<const JointRow*> rows;
    for (const JointRow& row : tables.joints)
        if (row.name == joint) rows.push_back(&row);
    return rows;
}

}  // namespace

TEST_CASE("no kind of table is empty") {
    CHECK_FALSE(tables.conductors.empty());
    CHECK_FALSE(tables.trade_sizes.empty());
    CHECK_FALSE(tables.ampacity_bases.empty());
    CHECK_FALSE(tables.ampacities.empty());
    CHECK_FALSE(tables.groupings.empty());
    CHECK_FALSE(tables.engine_spaces.empty());
    CHECK_FALSE(tables.joints.empty());
    CHECK_FALSE(tables.body_returns.empty());
    CHECK_FALSE(tables.fuse_families.empty());
    CHECK_FALSE(tables.breaking_capacities.empty());
    CHECK_FALSE(tables.fuses.empty());
    CHECK_FALSE(tables.time_limits.empty());
    CHECK_FALSE(tables.pulse_shares.empty());
    CHECK_FALSE(tables.short_circuit_limits.empty());
    CHECK_FALSE(tables.surroundings.empty());
    CHECK_FALSE(tables.chemistries.empty());
    CHECK_FALSE(tables.rest_voltages.empty());
    CHECK_FALSE(tables.cell_size_factors.empty());
    CHECK_FALSE(tables.capacity_shares.empty());
    CHECK_FALSE(tables.cold_charge_limits.empty());
    CHECK_FALSE(tables.battery_heaters.empty());
    CHECK_FALSE(tables.panels.empty());
    CHECK_FALSE(tables.dull_days.empty());
    CHECK_FALSE(tables.panel_plates.empty());
    CHECK_FALSE(tables.regulators.empty());
    CHECK_FALSE(tables.cranking.empty());
    CHECK_FALSE(tables.starter_uses.empty());
    CHECK_FALSE(tables.fills.empty());
    CHECK_FALSE(tables.tubes.empty());
    CHECK_FALSE(tables.support_spacings.empty());
    CHECK_FALSE(tables.studs.empty());
    CHECK_FALSE(tables.lugs.empty());
    CHECK_FALSE(tables.shrink_tubes.empty());
    CHECK_FALSE(tables.cable_masses.empty());
    CHECK_FALSE(tables.practice_voltages.empty());
    CHECK_FALSE(tables.practice_shares.empty());
    CHECK_FALSE(tables.practice_lengths.empty());
}

TEST_CASE("every printed table has a title, a source, a unit for each column and a cell for each place") {
    std::set<std::string_view> names;
    for (const PrintedTable& table : tables.printed) {
        CAPTURE(table.name);
        CHECK(names.insert(table.name).second);
        CHECK_FALSE(table.title.empty());
        CHECK_FALSE(table.applies.empty());
        CHECK_FALSE(table.source.cite.empty());
        CHECK_FALSE(table.terms.empty());
        CHECK_FALSE(table.entered.empty());
        REQUIRE_FALSE(table.columns.empty());
        CHECK(table.cells.size() % table.columns.size() == 0);
        CHECK(table.notes.size() == table.cells.size() / table.columns.size());
        CHECK(find_printed_table(tables, table.name) == &table);
    }
}

TEST_CASE("a printed table keeps the digits of its source") {
    const PrintedTable* table = find_printed_table(tables, "conductors/metric");
    REQUIRE(table);
    bool found = false;
    for (const std::string_view cell : table->cells) found = found || cell == "0.780";  // not 0.78
    CHECK(found);
}

TEST_CASE("every row says where its figure comes from, by table and line") {
    const auto check = [](const auto& rows) {
        for (const auto& row : rows) {
            CAPTURE(row.source.table);
            CAPTURE(row.source.line);
            CHECK_FALSE(row.source.id.empty());
            CHECK_FALSE(row.source.cite.empty());
            CHECK(row.source.line > 0);
            CHECK(find_printed_table(tables, row.source.table));
        }
    };
    check(tables.conductors);
    check(tables.trade_sizes);
    check(tables.ampacity_bases);
    check(tables.ampacities);
    check(tables.groupings);
    check(tables.engine_spaces);
    check(tables.joints);
    check(tables.body_returns);
    check(tables.fuse_families);
    check(tables.breaking_capacities);
    check(tables.fuses);
    check(tables.time_limits);
    check(tables.pulse_shares);
    check(tables.short_circuit_limits);
    check(tables.insulation_marks);
    check(tables.surroundings);
    check(tables.chemistries);
    check(tables.rest_voltages);
    check(tables.cell_size_factors);
    check(tables.capacity_shares);
    check(tables.cold_charge_limits);
    check(tables.battery_heaters);
    check(tables.panels);
    check(tables.dull_days);
    check(tables.panel_plates);
    check(tables.regulators);
    check(tables.cranking);
    check(tables.starter_uses);
    check(tables.practice_voltages);
    check(tables.practice_shares);
    check(tables.practice_lengths);
}

TEST_CASE("a row's own standing overrides its table's") {
    const GroupingRow* read = find_grouping(tables, "us-33-cfr-183", 4);
    const GroupingRow* recalled = find_grouping(tables, "iso-13297", 4);
    REQUIRE(read);
    REQUIRE(recalled);
    CHECK(read->source.standing == Standing::read_weak);
    CHECK(recalled->source.standing == Standing::memory);
    for (const EngineSpaceRow& row : tables.engine_spaces)
        CHECK(
            row.source.standing ==
            (row.basis == "us-33-cfr-183" && row.insulation == celsius(105) ? Standing::read_weak : Standing::memory));
}

TEST_CASE("the copper of a table brings its coefficient and where that comes from") {
    for (const ConductorRow& row : tables.conductors) {
        CHECK(row.coefficient == near(per_kelvin(0.00393), per_kelvin(1e-12)));
        CHECK(row.coefficient_source.standing == Standing::memory);
        CHECK_FALSE(row.coefficient_source.cite.empty());
    }
}

TEST_CASE("every size with an ampacity is a size with a resistance") {
    for (const AmpacityRow& row : tables.ampacities) {
        CAPTURE(row.gauge.number);
        CHECK(find_conductor(tables, row.gauge));
        CHECK(find_ampacity_basis(tables, row.basis));
    }
}

TEST_CASE("every fuse is of a family, and every family has fuses and a breaking capacity at 12 V") {
    for (const FuseRow& row : tables.fuses) CHECK(find_fuse_family(tables, row.family));
    for (const FuseFamilyRow& family : tables.fuse_families) {
        CAPTURE(family.family);
        CHECK(find_breaking_capacity(tables, family.family, volts(13.6)));
        bool has_fuses = false;
        for (const FuseRow& row : tables.fuses) has_fuses = has_fuses || row.family == family.family;
        CHECK(has_fuses);
    }
}

TEST_CASE("the families of fuses are tried from the blade to the battery post and class T") {
    std::vector<std::string_view> order;
    for (const FuseFamilyRow& row : tables.fuse_families) order.push_back(row.family);
    CHECK(order == std::vector<std::string_view>{"blade", "blade F", "blade E", "SF30", "SF51", "post", "ANL",
                                                 "breaker", "push-pull breaker", "surface breaker", "class T"});
    for (const FuseFamilyRow& row : tables.fuse_families) {
        CAPTURE(row.family);
        CHECK((row.form == FuseForm::blade) == row.in_line_limit.has_value());
        CHECK(row.in_line_limit.has_value() == row.in_line_area.has_value());
        CHECK(row.usual == (row.family == "blade" || row.family == "SF30" || row.family == "SF51" ||
                            row.family == "post" || row.family == "class T"));
        CHECK(row.only_to_break == (row.family == "class T"));
    }
}

TEST_CASE("midi, mega and terminal are understood as families of fuses") {
    for (const auto& [typed, printed] : {std::pair{"midi", "SF30"}, {"mega", "SF51"}, {"terminal", "post"}}) {
        CAPTURE(typed);
        const FuseFamilyRow* row = find_fuse_family(tables, typed);
        REQUIRE(row);
        CHECK(row->family == printed);
    }
}

TEST_CASE("a lug is known for every conductor from 0.5 to 300 mm2, without a gap or an overlap") {
    const auto lugs = rows_of("lug");
    REQUIRE(lugs.size() >= 2);
    CHECK(lugs.front()->from == near(square_millimetres(0.5), square_millimetres(1e-9)));
    CHECK(lugs.back()->to == near(square_millimetres(300), square_millimetres(1e-9)));
    for (std::size_t i = 1; i < lugs.size(); ++i) {
        CHECK(lugs[i]->from == lugs[i - 1]->to);
        CHECK(lugs[i]->usual < lugs[i - 1]->usual);
    }
    // No conductor of the tables stands on a boundary, where two rows meet.
    for (const ConductorRow& conductor : tables.conductors)
        for (std::size_t i = 1; i < lugs.size(); ++i) CHECK(conductor.area != lugs[i]->from);
}

TEST_CASE("a joint and a body give their least, usual and most resistance in that order") {
    for (const JointRow& row : tables.joints) {
        CAPTURE(row.name);
        CHECK(row.low <= row.usual);
        CHECK(row.usual <= row.high);
        CHECK(row.from < row.to);
    }
    for (const BodyReturnRow& row : tables.body_returns) {
        CAPTURE(row.body);
        CHECK(row.low < row.usual);
        CHECK(row.usual < row.high);
    }
}

TEST_CASE("a plug or breaker named by a current is rated at it") {
    for (const auto& [name, rating] : {std::pair{"two-pole plug 50 A", 50.0},
                                       {"two-pole plug 120 A", 120.0},
                                       {"two-pole plug 175 A", 175.0},
                                       {"circuit breaker 50 A", 50.0}}) {
        CAPTURE(name);
        const JointRow* row = find_joint(tables, name, square_millimetres(10));
        REQUIRE(row);
        REQUIRE(row->rating);
        CHECK(*row->rating == near(amperes(rating), amperes(1e-9)));
    }
}

TEST_CASE("there is a row for every place and every chemistry that a profile may name") {
    for (const std::string_view place : {"engine bay", "canopy", "cabin", "closed vehicle", "chassis rail", "shade"}) {
        CAPTURE(place);
        CHECK(find_surroundings(tables, place));
    }
    for (const std::string_view chemistry : {"flooded", "agm", "gel", "lfp"}) {
        CAPTURE(chemistry);
        CHECK(find_chemistry(tables, chemistry));
    }
}

TEST_CASE("lead falls with the temperature in its charge voltage, lithium does not and is not charged in frost") {
    for (const ChemistryRow& row : tables.chemistries) {
        CAPTURE(row.chemistry);
        const bool lithium = row.chemistry == "lfp";
        CHECK((row.compensation < VoltagePerKelvin{}) == !lithium);
        CHECK(row.charge_above.has_value() == lithium);
        CHECK((row.fixed_low > Resistance{}) == lithium);
        CHECK(row.absorption_low < row.absorption);
        CHECK(row.absorption < row.absorption_high);
        CHECK(row.full < row.absorption_low);
    }
    CHECK(*find_chemistry(tables, "lfp")->charge_above == near(celsius(0), kelvins(1e-9)));
}

}  // namespace voltwright
