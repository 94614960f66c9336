// The choice of a fuse, alone: which family, which rating, and which rule allowed it.

#include "testing.hpp"

#include "voltwright/sizing/fuse.hpp"
#include "voltwright/units/literals.hpp"

#include <optional>
#include <string>
#include <vector>

using namespace voltwright;
using namespace voltwright::literals;

namespace {

/// A battery of so many milliohms, and a fuse right at it: 12.8 V over the battery, 1 mOhm of lead, link and holder.
struct Battery {
    FuseEnd end;

    explicit Battery(double inside, const std::string& at = "battery")
        : end{place_named(at),
              25_degC,
              12.8_V,
              14.4_V,
              {milliohms(inside), milliohms(inside), milliohms(inside), {"a test", "given"}, false}} {}

    [[nodiscard]] FuseWish wish(Current design, Current ampacity) const {
        return {.end = end,
                .design = design,
                .ampacity = ampacity,
                .conductor = square_millimetres(16),
                .parts = {},
                .appliance = {},
                .lead = 1_mOhm};
    }
};

std::optional<FuseFit> chosen(const FuseWish& wish, std::vector<FuseOfRating> shelf = {}) {
    Rules rules;
    if (!shelf.empty()) rules.shelf = std::move(shelf);
    return choose_fuse(wish, rules, built_in_tables());
}

std::string named(const std::optional<FuseFit>& fuse) {
    return fuse ? std::to_string(static_cast<int>(in_amperes(fuse->rating))) + " A " + fuse->family : "none";
}

}  // namespace

// 12.8 V over 3.5 mOhm, 1 mOhm of lead and 6.8 mOhm of a 15 A blade and its holder are 1.13 kA: more than the 1 kA of a blade;
// through a 30 A SF30 with 2.3 mOhm it is 1.88 kA, less than its 2 kA.
TEST_CASE("a small load keeps its blade before a strong battery, and is known to want a fuse in front") {
    const Battery strong(3.5);
    FuseWish lamp = strong.wish(4_A, 40_A);
    lamp.for_one_appliance = true;
    const auto fuse = chosen(lamp);
    REQUIRE(fuse);
    CHECK(fuse->family == "blade");
    FuseWish pump = strong.wish(11_A, 40_A);
    pump.for_one_appliance = true;
    const auto blade = chosen(pump);
    CHECK(named(blade) == "15 A blade");
    CHECK_FALSE(breaks_enough(*blade));
    // What leads to several things, or to a charger, takes the stronger family.
    CHECK(named(chosen(strong.wish(11_A, 40_A))) == "30 A SF30");
    // And where the next rating that is made is of that family, the appliance takes it too: 25 A and 30 A.
    FuseWish oven = strong.wish(19_A, 40_A);
    oven.for_one_appliance = true;
    CHECK(named(chosen(oven)) == "30 A SF30");
}

TEST_CASE("the first family that breaks the expected fault is taken: blade, SF30, post, class T") {
    // 12.8 V over 20, 6, 4 and 0.3 mOhm besides 1 mOhm of lead and what the fuse itself has.
    CHECK(named(chosen(Battery(20).wish(12_A, 60_A))) == "15 A blade");
    CHECK(named(chosen(Battery(6).wish(32_A, 60_A))) == "40 A SF30");
    CHECK(named(chosen(Battery(3).wish(32_A, 60_A))) == "40 A post");
    CHECK(named(chosen(Battery(0.1).wish(32_A, 60_A))) == "40 A class T");
    // A fuse for a battery's post sits on none but that.
    CHECK(named(chosen(Battery(3, "block").wish(32_A, 60_A))) == "40 A class T");
    // Nobody takes a class T fuse because 45 A is made of it: it is there for what it breaks.
    CHECK(named(chosen(Battery(20).wish(33_A, 49_A))) == "none");
}

// Ratings of 25, 30, 40 A and the like in manuals of chargers: a 25 A charger with 40 A draws some 32 A at worst, and 80 % of
// 40 A are 32 A only where it is cool.
TEST_CASE("the manual's largest fuse wins over the share of its rating, and not over the current itself") {
    const Battery starter(8);
    FuseWish charger = starter.wish(33_A, 80_A);
    CHECK(named(chosen(charger)) == "50 A SF30");
    charger.appliance = 40_A;
    const auto fuse = chosen(charger);
    CHECK(named(fuse) == "40 A SF30");
    CHECK(fuse->by_manual());
    CHECK(fuse->in_window);
    charger.appliance = 30_A;
    CHECK(named(chosen(charger)) == "none");
    charger.appliance = 60_A;
    CHECK(named(chosen(charger)) == "50 A SF30");
    CHECK_FALSE(chosen(charger)->by_manual());
}

// 33 CFR 183.455(c)(1): up to 150 % of Table 5; E-11.10.2.3: only where no made rating equals the ampacity. 3000 W at 10.5 V
// and 85 % draw 336 A; 80 % of 425 A; 4/0 in Table 5 445 A.
TEST_CASE(
    "the next made rating above the ampacity is allowed up to 150 %, where none is made below and nothing else does") {
    const Battery bank(2);
    FuseWish inverter = bank.wish(340_A, 445_A);
    CHECK(named(chosen(inverter)) == "none");
    inverter.next_made = true;
    const auto fuse = chosen(inverter);
    REQUIRE(fuse);
    CHECK(in_amperes(fuse->rating) == near(450, 1e-9));
    CHECK(fuse->above_ampacity());
    CHECK(fuse->in_window);
    // 400 A would do: nothing above the ampacity.
    FuseWish smaller = bank.wish(310_A, 445_A);
    smaller.next_made = true;
    CHECK(in_amperes(chosen(smaller)->rating) == near(400, 1e-9));
    // 450 A are more than 150 % of 290 A.
    FuseWish thin = bank.wish(340_A, 290_A);
    thin.next_made = true;
    CHECK(named(chosen(thin)) == "none");
    // An owned one is judged by the same rule: 450 A is right there, 500 A is not the next.
    const Rules rules;
    CHECK(judge_fuse({450_A, "SF51"}, inverter, rules, built_in_tables())->in_window);
    CHECK_FALSE(judge_fuse({500_A, "SF51"}, inverter, rules, built_in_tables())->in_window);
    CHECK_FALSE(judge_fuse({450_A, "SF51"}, smaller, rules, built_in_tables())->in_window);
    // What a part behind it allows is never passed.
    inverter.parts = 400_A;
    CHECK(named(chosen(inverter)) == "none");
}

TEST_CASE("what a shop lacks is no reason for a fuse above the ampacity") {
    const Battery starter(8);
    FuseWish charger = starter.wish(33_A, 60_A);
    charger.next_made = true;
    CHECK(named(chosen(charger, {{80_A, "SF30"}, {30_A, "SF30"}})) == "none");
    CHECK(named(chosen(charger, {{80_A, "SF30"}, {60_A, "SF30"}})) == "60 A SF30");
}

TEST_CASE("what is printed on an owned fuse counts more than its family's figure") {
    const Battery starter(2);
    const FuseWish feed = starter.wish(60_A, 120_A);
    const Rules rules;
    const auto unknown = judge_fuse({100_A, "ANL"}, feed, rules, built_in_tables());
    const auto printed = judge_fuse({100_A, "ANL", 6000_A}, feed, rules, built_in_tables());
    REQUIRE(unknown);
    REQUIRE(printed);
    CHECK_FALSE(breaks_enough(*unknown));
    CHECK(breaks_enough(*printed));
    CHECK(in_amperes(printed->fault.breaking_capacity.value) == near(6000, 1e-9));
}
