// Joints, switches and the body of a vehicle: no publication gives them, makers' sheets do. All from memory but for the
// crimps of a plug; typed here once more as the parts that are recalled, of which the rows of data/ are made.

#include "testing.hpp"

#include "voltwright/sizing/part_rating.hpp"
#include "voltwright/tables/tables.hpp"

namespace voltwright {

namespace {

struct Range {
    double low, high;  // mohm

    [[nodiscard]] double middle() const { return (low + high) / 2; }
    friend Range operator+(Range a, Range b) { return {a.low + b.low, a.high + b.high}; }
    friend Range operator*(int n, Range a) { return {n * a.low, n * a.high}; }
};

template <class Row>
void hold(const Row& row, Range recalled) {
    CHECK(in_milliohms(row.low) == near(recalled.low, 0.005));
    CHECK(in_milliohms(row.high) == near(recalled.high, 0.005));
}

const JointRow& joint(std::string_view name, double area) {
    const JointRow* row = find_joint(built_in_tables(), name, square_millimetres(area));
    REQUIRE(row);
    return *row;
}

constexpr Range stud{0.02, 0.1};
constexpr Range thin_crimp{0.1, 0.5};    // 4 to 10 mm2
constexpr Range thick_crimp{0.02, 0.1};  // 16 to 50 mm2

}  // namespace

TEST_CASE("a lug is a crimp and a clean stud (from memory)") {
    for (const double area : {4.0, 6.0, 8.37}) hold(joint("lug", area), thin_crimp + stud);
    for (const double area : {16.0, 25.0, 50.0}) hold(joint("lug", area), thick_crimp + stud);
    // Between the two the usual one is still near 0.1 to 0.2 mohm, and the range that of the thinner.
    for (const double area : {10.0, 13.3}) {
        hold(joint("lug", area), thin_crimp + stud);
        CHECK(in_milliohms(joint("lug", area).usual) == near(0.15, 0.05 + 1e-9));
    }
    for (const double area : {16.0, 25.0, 50.0})
        CHECK(in_milliohms(joint("lug", area).usual) == near(0.15, 0.05 + 1e-9));
}

// A crimp of the 175 A size is accepted up to 0.036 mohm on 6 to 1 AWG: a plug maker's crimp specification, read.
TEST_CASE("a two-pole plug is two mated contacts and at most four crimps (contacts from memory, crimps read)") {
    struct Recalled {
        std::string_view name;
        double contact;
    };
    for (const Recalled& plug :
         {Recalled{"two-pole plug 50 A", 0.2}, {"two-pole plug 120 A", 0.1}, {"two-pole plug 175 A", 0.075}}) {
        CAPTURE(plug.name);
        hold(joint(plug.name, 16), 2 * Range{plug.contact, plug.contact} + 4 * Range{0, 0.036});
    }
}

TEST_CASE("clamps, switches, relays, breakers and sockets have these resistances (from memory)") {
    struct Recalled {
        std::string_view name;
        Range range;
    };
    for (const Recalled& part : {Recalled{"battery clamp", {0.1, 0.5}},
                                 {"isolator switch", {0.1, 0.5}},
                                 {"relay", {0.5, 2}},
                                 {"circuit breaker 50 A", {1.5, 3}},
                                 {"lighter socket", {10, 50}}}) {
        CAPTURE(part.name);
        hold(joint(part.name, 16), part.range);
    }
}

// A plug maker's data book, text beside its derating chart: read.
TEST_CASE("a 50 A plug carries its maker's chart at 75 degC by the size of its cable, and 50 A at most (read)") {
    struct Printed {
        int number;
        double amperes;
    };
    for (const Printed& printed :
         {Printed{6, 50}, {8, 46}, {10, 37}, {12, 31}}) {  // the chart's 58 A on 6 AWG: the print
        CAPTURE(printed.number);
        const ConductorRow* conductor = find_conductor(built_in_tables(), awg(printed.number));
        REQUIRE(conductor);
        const JointRow& row = joint("two-pole plug 50 A", in_square_millimetres(conductor->area));
        const auto hot = part_rating(row, conductor->area, celsius(75));
        REQUIRE(hot);
        CHECK(in_amperes(hot->rating) == near(printed.amperes, 0.05));
        CHECK(in_amperes(part_rating(row, conductor->area, celsius(25))->rating) == near(50, 1e-9));
        CHECK(in_amperes(part_rating(row, conductor->area, celsius(105))->rating) == near(0, 1e-9));
    }
}

TEST_CASE("a vehicle's body with an earth stud at each end has these resistances (from memory)") {
    const Range earth_stud{0.1, 1};
    REQUIRE(built_in_tables().body_returns.size() == 2);
    for (const BodyReturnRow& row : built_in_tables().body_returns) {
        CAPTURE(row.body);
        hold(row, row.body == "spot-welded body" ? Range{0.5, 3} + 2 * earth_stud : Range{5, 50});
    }
}

TEST_CASE("no drop is flattered: what is known only as a range is taken in its upper half") {
    for (const JointRow& row : built_in_tables().joints) {
        CAPTURE(row.name);
        if (row.name == "lug" && row.from == square_millimetres(9)) continue;  // says so itself
        CHECK(in_milliohms(row.usual) > Range{in_milliohms(row.low), in_milliohms(row.high)}.middle());
    }
    for (const BodyReturnRow& row : built_in_tables().body_returns) {
        CAPTURE(row.body);
        CHECK(in_milliohms(row.usual) > Range{in_milliohms(row.low), in_milliohms(row.high)}.middle());
    }
}

// Outside diameters, all from memory: the largest of H05V-K 300/500 V to 1 mm2 and of H07V-K 450/750 V above, and about
// those of marine tinned cable.
TEST_CASE("single cores have these outside diameters (from memory)") {
    struct Recalled {
        Gauge gauge;
        double millimetres;
    };
    const Recalled rows[] = {
        {metric(1.5), 3.4}, {metric(2.5), 4.1}, {metric(4), 4.8},   {metric(6), 5.3},    {metric(10), 6.8},
        {metric(16), 8.1},  {metric(25), 10.2}, {metric(35), 11.7}, {metric(50), 13.9},  {metric(70), 16.0},
        {metric(95), 18.2}, {awg(16), 2.8},     {awg(14), 3.3},     {awg(12), 3.9},      {awg(10), 4.7},
        {awg(8), 6.6},      {awg(6), 7.9},      {awg(4), 9.4},      {awg(2), 11.4},      {awg(0), 14.5},
        {awg(-1), 16.0},    {awg(-3), 19.6},    {metric(0.5), 2.5}, {metric(0.75), 2.7}, {metric(1), 2.8},
        {awg(18), 2.4},
    };
    std::size_t known = 0;
    for (const ConductorRow& row : built_in_tables().conductors) known += row.outside.has_value();
    CHECK(known == std::size(rows));
    for (const Recalled& recalled : rows) {
        CAPTURE(recalled.gauge.number);
        const ConductorRow* row = find_conductor(built_in_tables(), recalled.gauge);
        REQUIRE(row);
        REQUIRE(row->outside);
        CHECK(in_millimetres(*row->outside) == near(recalled.millimetres, 1e-9));
        // It holds its copper: even 7 round strands fill no more than 7/9 of the circle around them.
        CHECK(row->area < 7.0 / 9.0 * 3.14159265358979 / 4 * *row->outside * *row->outside);
    }
}

}  // namespace voltwright
