// 30 CFR 75.601-3, underground coal mines: ampacity of trailing cables, and the largest dual-element fuse for each. Read in a
// public mirror of the regulation. Every one of its 23 fuses is the smallest standard rating not below the ampacity, so the
// table tests how the next size up is found. The series of ratings is NEC 240.6, read in a reprint.

#include "testing.hpp"
#include "voltwright/sizing/fuse.hpp"
#include "voltwright/units/literals.hpp"

#include <vector>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

constexpr Source invented{"invented", "made up for this test"};

/// One family of every standard rating from 15 to 350 A, which carries its whole rating at any temperature.
struct StandardRatings {
    FuseFamilyRow family{"dual", "NEC 240.6", FuseForm::bolted, {}, {}, {}, {}, milliohms(1), PerKelvin{}, invented};
    BreakingCapacityRow breaking{"dual", 32_V, 20000_A, invented};
    std::vector<FuseRow> fuses;
    Tables tables = built_in_tables();

    StandardRatings() {
        for (const double rating :
             {15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350})
            fuses.push_back({"dual", amperes(rating), milliohms(1), invented});
        tables.fuse_families = {&family, 1};
        tables.breaking_capacities = {&breaking, 1};
        tables.fuses = fuses;
    }
    StandardRatings(const StandardRatings&) = delete;
    StandardRatings& operator=(const StandardRatings&) = delete;

    /// The smallest that carries so much.
    [[nodiscard]] std::optional<Current> chosen_for(Current current) const {
        const FuseEnd end{place_named("starter"), 25_degC, 12.7_V, 14.4_V, {5_mOhm, 5_mOhm, 5_mOhm, invented, false}};
        const FuseWish wish{.end = end,
                            .design = current,
                            .ampacity = 350_A,
                            .conductor = square_millimetres(6),
                            .parts = {},
                            .appliance = {},
                            .lead = 1_mOhm};
        Rules rules;
        rules.fuse_use = percent(100);
        const auto fit = choose_fuse(wish, rules, tables);
        return fit ? std::optional(fit->rating) : std::nullopt;
    }
};

struct Cable {
    const char* size;
    double ampacity, fuse;
};

void check_cables(const std::vector<Cable>& cables) {
    const StandardRatings standard;
    for (const Cable& cable : cables) {
        CAPTURE(cable.size);
        const auto chosen = standard.chosen_for(amperes(cable.ampacity));
        REQUIRE(chosen);
        CHECK(*chosen == near(amperes(cable.fuse), 1e-9_A));
    }
}

}  // namespace

TEST_CASE("30 CFR 75.601-3, two-conductor cables: the next standard rating is the printed fuse (read in a mirror)") {
    check_cables({{"14 AWG", 15, 15},
                  {"12 AWG", 20, 20},
                  {"10 AWG", 25, 25},
                  {"8 AWG", 50, 50},
                  {"6 AWG", 65, 70},
                  {"4 AWG", 90, 90},
                  {"3 AWG", 105, 110},
                  {"2 AWG", 120, 125},
                  {"1 AWG", 140, 150},
                  {"1/0 AWG", 170, 175},
                  {"2/0 AWG", 195, 200},
                  {"3/0 AWG", 225, 225},
                  {"4/0 AWG", 260, 300}});
}

TEST_CASE("30 CFR 75.601-3, single conductors: the next standard rating is the printed fuse (read in a mirror)") {
    check_cables({{"8 AWG", 60, 60},
                  {"6 AWG", 85, 90},
                  {"4 AWG", 110, 110},
                  {"3 AWG", 130, 150},
                  {"2 AWG", 150, 150},
                  {"1 AWG", 170, 175},
                  {"1/0 AWG", 200, 200},
                  {"2/0 AWG", 235, 250},
                  {"3/0 AWG", 275, 300},
                  {"4/0 AWG", 315, 350}});
}

TEST_CASE("no standard rating of 30 CFR 75.601-3 is left for more than 350 A") {
    const StandardRatings standard;
    CHECK(standard.chosen_for(350_A) == 350_A);
    CHECK_FALSE(standard.chosen_for(351_A));
}
