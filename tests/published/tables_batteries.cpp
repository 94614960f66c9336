#include "testing.hpp"

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

// Two memories of internal resistance that differ, a whole battery of 100 Ah: lead 2.5 to 8 and 3 to 6 mohm; lithium 4 to
// 15 and 5 to 30 mohm with its switch. The row spans both.
TEST_CASE("chemistries: internal resistance spans the sources where they differ") {
    struct Recalled {
        std::string_view chemistry;
        double least, most;  // mohm at 100 Ah
    };
    for (const Recalled& battery : {Recalled{"flooded", 2.5, 8.0}, Recalled{"agm", 2.5, 6.0}, Recalled{"gel", 3.0, 7.0},
                                    Recalled{"lfp", 4.0, 30.0}}) {
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
