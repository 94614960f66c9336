// Charts and tables of cables that others printed: what they take for a current and a length, what fuse they put before it,
// what they let it carry. None of them is a basis of ours; each bounds it from one side.

#include "testing.hpp"

#include "voltwright/circuit/run.hpp"
#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/tables/tables.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <vector>

namespace voltwright {

namespace {

constexpr std::string_view basis = "us-33-cfr-183";

/// A printed cell holds these in the order of their copper.
const int shelf[] = {18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3};

Voltage lost(int gauge, double loop_feet, double amperes_carried) {
    const ConductorResistance conductor =
        conductor_resistance(*find_conductor(built_in_tables(), awg(gauge)), Coating::plain, celsius(20));
    return run_resistance(feet(loop_feet / 2.0), conductor, conductor, {}, {}).loop * amperes(amperes_carried);
}

/// Where in the shelf the thinnest size stands that loses no more than this.
std::ptrdiff_t thinnest(double loop_feet, double amperes_carried, Voltage allowed) {
    return std::find_if(std::begin(shelf), std::end(shelf),
                        [&](int gauge) { return lost(gauge, loop_feet, amperes_carried) <= allowed; }) -
           std::begin(shelf);
}

std::ptrdiff_t place_of(int gauge) { return std::find(std::begin(shelf), std::end(shelf), gauge) - std::begin(shelf); }

Current carries(Gauge size, double insulation, double around) {
    const auto found = ampacity(built_in_tables(), basis, *find_conductor(built_in_tables(), size), celsius(insulation),
                                celsius(around), 2, volts(12));
    REQUIRE(found);
    return found->current;
}

}  // namespace

// An engineers' page, read weak: wire sizes for 12 V at 3 % (0.36 V), the length out and back.
TEST_CASE("an engineers' chart of sizes for 3 % of 12 V, read weak") {
    const double printed_amperes[] = {5, 10, 15, 20, 25, 30, 40, 50, 60, 70};
    struct Row {
        double loop_feet;
        int sizes[10];
    };
    const Row rows[] = {
        {15, {16, 12, 10, 10, 8, 8, 6, 6, 4, 4}}, {20, {14, 12, 10, 8, 8, 6, 6, 4, 4, 4}},
        {25, {14, 10, 8, 8, 6, 6, 4, 4, 2, 2}},   {30, {12, 10, 8, 6, 6, 4, 4, 2, 2, 2}},
        {40, {12, 8, 6, 6, 4, 4, 2, 2, 1, 0}},    {50, {10, 8, 6, 4, 4, 2, 2, 1, 0, 0}},
        {60, {10, 6, 6, 4, 2, 2, 1, 0, -1, -1}},  {70, {10, 6, 4, 2, 2, 2, 0, -1, -1, -2}},
        {80, {8, 6, 4, 2, 2, 1, 0, -1, -2, -2}},  {90, {8, 4, 4, 2, 1, 0, -1, -2, -2, -3}},
    };
    int cells = 0, same = 0, thinner = 0;
    for (const Row& row : rows)
        for (int column = 0; column < 10; ++column) {
            CAPTURE(row.loop_feet);
            CAPTURE(printed_amperes[column]);
            const std::ptrdiff_t ours = thinnest(row.loop_feet, printed_amperes[column], millivolts(360));
            const std::ptrdiff_t theirs = place_of(row.sizes[column]);
            CHECK(std::abs(ours - theirs) <= 1);
            ++cells;
            same += ours == theirs;
            thinner += theirs < ours;
        }
    CHECK(cells == 100);
    CHECK(same == 92);
    CHECK(thinner == 1);  // 60 ft, 15 A, 6 AWG: 0.363 V
}

// A chandler's catalogue, read: its bilge pump of 10 A, 11 ft out and 10 ft back, is 16 AWG at 10 %.
TEST_CASE("a chandler's bilge pump: 10 A over 21 ft of loop take 16 AWG at 10 %, read") {
    CHECK(shelf[thinnest(21, 10, millivolts(1200))] == 16);
}

// A body-builder manual of a vehicle maker (2015), read: greatest lasting current at 40 degC around, by mm2, its wire rated
// 85 degC. It is far below any table of single cables in air, for it counts bundles: a lower guard.
TEST_CASE("a vehicle maker's lasting currents at 40 degC are never more than the plan allows, read") {
    struct Row {
        double lasting, square_millimetres;
    };
    const std::vector<Row> rows = {{10.5, 1.25}, {14, 2},  {17.5, 3}, {21, 5},  {28, 8},    {35, 10},  {42, 15},
                                   {49, 20},     {56, 20}, {63, 30},  {70, 30}, {87.5, 40}, {105, 60}, {140, 85}};
    for (const Row& row : rows) {
        CAPTURE(row.square_millimetres);
        std::optional<Gauge> size;
        for (const ConductorRow& made : built_in_tables().conductors)
            if (made.gauge.system == GaugeSystem::metric && made.gauge.number <= row.square_millimetres)
                size = made.gauge;
        REQUIRE(size);
        CHECK(carries(*size, 80, 40) >= amperes(row.lasting));
    }
}

// A charger maker's manual after the boats' voluntary standard, read: the largest fuse by size of wire. The NEC's rule for
// buildings has the first three.
TEST_CASE("the usual largest fuses of 14 to 1 AWG are never more than 75 degC cable carries, read") {
    struct Row {
        int gauge;
        double fuse;
    };
    for (const Row& row :
         {Row{14, 15}, Row{12, 20}, Row{10, 30}, Row{8, 50}, Row{6, 80}, Row{4, 100}, Row{2, 125}, Row{1, 150}}) {
        CAPTURE(row.gauge);
        CHECK(carries(awg(row.gauge), 75, 30) >= amperes(row.fuse));
    }
}

// A motor-caravan page in German, read weak: single cores, lasting current and fuse by mm2.
TEST_CASE("a motor-caravan page lets metric cable carry less than the plan allows 75 degC cable, read weak") {
    struct Row {
        double square_millimetres, lasting, fuse;
    };
    for (const Row& row : {Row{1.5, 12, 10}, Row{2.5, 17, 16}, Row{4, 23, 20}, Row{6, 30, 25}, Row{10, 41, 36},
                           Row{16, 54, 50}, Row{25, 71, 63}, Row{35, 86, 80}}) {
        CAPTURE(row.square_millimetres);
        const Current allowed = carries(metric(row.square_millimetres), 75, 30);
        CHECK(allowed >= amperes(row.lasting));
        CHECK(allowed >= amperes(row.fuse));
    }
}

// DIN VDE 0298-4 by a cable maker's table, read: single cores open in air at 30 degC, PVC 70 degC. No cable of 60 degC may be
// let carry more than theirs of 70 in free air by more than a fifth.
TEST_CASE("60 degC cable carries no more than DIN VDE 0298-4 gives single cores in air, within a fifth, read") {
    struct Row {
        double square_millimetres, lasting;
    };
    for (const Row& row : {Row{1, 19}, Row{1.5, 24}, Row{2.5, 32}, Row{4, 42}, Row{6, 54}, Row{10, 73}, Row{16, 98},
                           Row{25, 129}, Row{35, 158}, Row{50, 198}, Row{70, 245}, Row{95, 292}, Row{120, 344}}) {
        CAPTURE(row.square_millimetres);
        CHECK(carries(metric(row.square_millimetres), 60, 30) <= amperes(row.lasting * 1.2));
    }
}

// BS 638 welding cable, a handbook's appendix, read: volts lost by 100 A in 10 m at 20, 60 and 85 degC. Their ratio is copper's
// law of temperature.
TEST_CASE("welding cable loses more when it is hot as copper's coefficient says, BS 638, read") {
    struct Row {
        double square_millimetres, at_20, at_60, at_85;
    };
    for (const Row& row :
         {Row{16, 1.24, 1.43, 1.56}, Row{25, 0.80, 0.92, 1.00}, Row{35, 0.57, 0.65, 0.71}, Row{50, 0.39, 0.46, 0.49},
          Row{70, 0.28, 0.32, 0.35}, Row{95, 0.21, 0.24, 0.26}, Row{120, 0.16, 0.19, 0.21}}) {
        CAPTURE(row.square_millimetres);
        const ConductorRow& made = *find_conductor(built_in_tables(), metric(row.square_millimetres));
        const auto at = [&](double degrees) {
            const ConductorResistance conductor = conductor_resistance(made, Coating::plain, celsius(degrees));
            return in_volts(conductor.per_length * metres(10) * amperes(100));
        };
        CHECK(at(20) == near(row.at_20, 0.005 + 0.03 * row.at_20));
        CHECK(at(60) == near(row.at_60, 0.005 + 0.03 * row.at_60));
        CHECK(at(85) == near(row.at_85, 0.005 + 0.03 * row.at_85));
    }
}

// Where a thing stands: under the bonnet in traffic 28 K (a trade paper) and 35 K (an owner's log) above the air outside (read weak); engine spaces
// in 33 CFR 183.425, note 1, 50 degC (read weak).
TEST_CASE("an engine bay is as warm as was measured, read weak") {
    const SurroundingsRow& bay = *find_surroundings(built_in_tables(), "engine bay");
    CHECK(bay.always + bay.driving >= kelvins(28));
    CHECK(bay.always + bay.driving <= kelvins(35));
    REQUIRE(bay.floor);
    CHECK(*bay.floor >= celsius(50));
}

}  // namespace voltwright
