#include "testing.hpp"

#include "voltwright/energy/internal_resistance.hpp"
#include "voltwright/sizing/protection.hpp"
#include "voltwright/tables/tables.hpp"

namespace voltwright {

// BCI, state of charge by rest voltage: 12.65 V full, flooded (read in a sheet marked with that source). A chart of common
// use for four lithium iron phosphate cells: 13.6 V full (read). Sealed lead: ranges from memory.
TEST_CASE("chemistries: rest voltage when full") {
    struct Printed {
        std::string_view chemistry;
        double low, high;
    };
    for (const Printed& row : {Printed{"flooded", 12.645, 12.655}, Printed{"agm", 12.80, 12.90},
                               Printed{"gel", 12.85, 12.95}, Printed{"lfp", 13.55, 13.65}}) {
        CAPTURE(row.chemistry);
        const ChemistryRow* found = find_chemistry(built_in_tables(), row.chemistry);
        REQUIRE(found);
        CHECK(in_volts(found->full) >= row.low);
        CHECK(in_volts(found->full) <= row.high);
    }
}

// Makers print -18 (3 mV a cell and K), -30.2 (2.8 mV a cell and degF) and -32.4 mV/K for six cells (all read, the first
// weakly): the table's value lies among them. Lithium has none.
TEST_CASE("chemistries: temperature compensation lies within what makers print for lead, and lithium has none") {
    for (const std::string_view lead : {"flooded", "agm", "gel"}) {
        CAPTURE(lead);
        const ChemistryRow* row = find_chemistry(built_in_tables(), lead);
        REQUIRE(row);
        CHECK(in_millivolts_per_kelvin(row->compensation) <= -18.0);
        CHECK(in_millivolts_per_kelvin(row->compensation) >= -32.4);
        CHECK_FALSE(row->charge_above);
    }
    const ChemistryRow* lithium = find_chemistry(built_in_tables(), "lfp");
    REQUIRE(lithium);
    CHECK(in_millivolts_per_kelvin(lithium->compensation) == near(0.0, 1e-12));
    // Not to be charged below 0 degC: the mechanism read, the limit from memory of data sheets.
    REQUIRE(lithium->charge_above);
    CHECK(*lithium->charge_above == near(celsius(0), kelvins(1e-9)));
}

// Two memories of internal resistance that differ, a whole battery of 100 Ah: lead 2.5 to 8 and 3 to 6 mohm. The row spans
// both.
TEST_CASE("chemistries: internal resistance spans the sources where they differ") {
    struct Recalled {
        std::string_view chemistry;
        double least, most;  // mohm at 100 Ah
    };
    for (const Recalled& battery :
         {Recalled{"flooded", 2.5, 8.0}, Recalled{"agm", 2.5, 6.0}, Recalled{"gel", 3.0, 7.0}}) {
        CAPTURE(battery.chemistry);
        const ChemistryRow* row = find_chemistry(built_in_tables(), battery.chemistry);
        REQUIRE(row);
        const auto whole = [](ResistanceTimesCharge share, Resistance fixed) {
            return in_ohm_ampere_hours(share) / 100.0 * 1e3 + in_milliohms(fixed);
        };
        CHECK(whole(row->resistance_low, row->fixed_low) == near(battery.least, 0.01));
        CHECK(whole(row->resistance_high, row->fixed_high) == near(battery.most, 0.01));
    }
}

// One maker's lithium batteries: at most 40 mohm at 30 Ah and 15 mohm at 300 Ah (1 kHz, half full; read), 20 mohm for half of
// one of 25.6 V and 50 Ah (read weakly). A limit is no lower end: half as much again for age covers the limits, and what is
// expected stays below them.
TEST_CASE(
    "chemistries: the resistance of lithium covers a maker's limits when aged, and is expected below them (read)") {
    const ChemistryRow& row = *find_chemistry(built_in_tables(), "lfp");
    const struct {
        Charge capacity;
        Resistance limit;
    } makers[] = {{ampere_hours(30), milliohms(40)}, {ampere_hours(300), milliohms(15)}};
    for (const auto& one : makers) {
        CAPTURE(show(one.capacity));
        const InternalResistance pack = internal_resistance(row, one.capacity, 1);
        CHECK(aged_resistance(pack) >= one.limit);
        CHECK(aged_resistance(pack) <= 1.05 * one.limit);
        CHECK(pack.expected < one.limit / 2.0);
    }
    CHECK(internal_resistance(row, ampere_hours(50), 1).expected < milliohms(20));
}

// Another maker's pulses, at 25 degC and ending at 9.2 V: 400 A for 3 s from 100 Ah, 1000 A for 1 s from 300 Ah (read). From
// 13.3 V at rest that leaves at most 10.3 and 4.1 mohm. A page's "no more than 5,000 A" for a short of 100 Ah (read weakly)
// wants at least 2.7 mohm; packs of 100 Ah are mostly near 5 to 15 mohm.
TEST_CASE(
    "chemistries: the resistance that is expected of lithium passes a maker's pulses, and its short a page (read)") {
    const ChemistryRow& row = *find_chemistry(built_in_tables(), "lfp");
    const InternalResistance small = internal_resistance(row, ampere_hours(100), 1);
    const InternalResistance large = internal_resistance(row, ampere_hours(300), 1);
    CHECK(volts(13.3) - amperes(400) * small.expected >= volts(9.2));
    CHECK(volts(13.3) - amperes(1000) * large.expected >= volts(9.2));
    CHECK(volts(13.6) / small.low <= amperes(5000));
    CHECK(small.expected >= milliohms(5));
    CHECK(small.high <= milliohms(15));
    CHECK(small.low < small.expected);
    CHECK(small.expected < small.high);
}

// SAE J537 (a service manual and the boat council's E-9 of 1990, read): 7.2 V, which is 1.2 V a cell, after 30 s at -18
// degC. A battery of 600 A then has 9.0 mohm in the test, one of 450 A 12.0 mohm, at 12.6 V before it.
TEST_CASE("cranking: the terminal voltage of SAE J537 and the resistance that follows") {
    REQUIRE(built_in_tables().cranking.size() == 1);
    const CrankingRow& row = built_in_tables().cranking.front();
    CHECK(in_volts(row.under_test) == near(7.2, 0.05));
    CHECK(in_milliohms((row.open - row.under_test) / amperes(600)) == near(9.0, 0.0005));
    CHECK(in_milliohms((row.open - row.under_test) / amperes(450)) == near(12.0, 0.0005));
    CHECK(in_ratio(row.warm_low) == near(0.4, 1e-9));
    CHECK(in_ratio(row.warm_high) == near(0.65, 1e-9));
}

}  // namespace voltwright
