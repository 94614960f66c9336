// AWG diameters and areas against printed wire tables.

#include "testing.hpp"
#include "voltwright/units/gauge.hpp"

using namespace voltwright;

// The definition of ASTM B258, from memory: 4/0 is 0.4600 in and 36 AWG is 0.0050 in, and the 39 steps between are equal
// ratios. The two ends are given, so they come out exactly.
TEST_CASE("the two given diameters of ASTM B258, from memory") {
    CHECK(awg_diameter(-3) == near(inches(0.4600), inches(1e-9)));
    CHECK(awg_diameter(36) == near(inches(0.0050), inches(1e-12)));
}

// Diameters in inches as ASTM B258 prints them to a tenth of a mil, from memory.
TEST_CASE("diameters of solid wire, ASTM B258, from memory") {
    struct Row {
        int number;
        double inches_printed;
    };
    for (const Row& row :
         {Row{-2, 0.4096}, Row{-1, 0.3648}, Row{0, 0.3249}, Row{1, 0.2893}, Row{2, 0.2576}, Row{3, 0.2294},
          Row{4, 0.2043}, Row{5, 0.1819}, Row{6, 0.1620}, Row{8, 0.1285}, Row{10, 0.1019}, Row{12, 0.0808},
          Row{14, 0.0641}, Row{16, 0.0508}, Row{18, 0.0403}, Row{20, 0.0320}}) {
        CAPTURE(row.number);
        CHECK(awg_diameter(row.number) == near(inches(row.inches_printed), inches(0.00005)));
    }
}

// Circular mils as printed in an open textbook, "Lessons In Electric Circuits", direct current, conductors and
// insulators, read. Four digits: half of the last is the tolerance.
TEST_CASE("areas of solid wire, Lessons In Electric Circuits, read") {
    struct Row {
        int number;
        double circular_mils_printed, half_digit;
    };
    for (const Row& row : {Row{-3, 211600, 50}, Row{-2, 167800, 50}, Row{-1, 133100, 50}, Row{0, 105500, 50},
                           Row{1, 83690, 5}, Row{2, 66370, 5}, Row{3, 52630, 5}, Row{4, 41740, 5}, Row{5, 33100, 5},
                           Row{6, 26250, 5}, Row{8, 16510, 5}, Row{10, 10380, 5}, Row{12, 6530, 0.5},
                           Row{14, 4107, 0.5}, Row{16, 2583, 0.5}, Row{18, 1624, 0.5}, Row{20, 1022, 0.5}}) {
        CAPTURE(row.number);
        CHECK(awg_area(row.number) == near(circular_mils(row.circular_mils_printed), circular_mils(row.half_digit)));
    }
}
