#include "testing.hpp"

#include "voltwright/sizing/choice.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

/// What the choice of a cable must do whatever the numbers of the tables are.

namespace voltwright {

namespace {

const std::vector<Gauge> ladder = {awg(18), awg(16), awg(14), awg(12), awg(10), awg(8),  awg(6),
                                   awg(4),  awg(2),  awg(1),  awg(0),  awg(-1), awg(-2), awg(-3)};

Choice choose(Length length, RunLoad load, Ratio limit = percent(6), Ladder extent = Ladder::whole,
              std::optional<std::vector<FuseOfRating>> shelf = {}) {
    CableRun run{.name = std::string("feed"), .length = length};
    run.fused_at = {{place_named("starter"),
                     celsius(61),
                     volts(12.7),
                     volts(14.4),
                     {milliohms(3), milliohms(8), milliohms(5.5), {"a test", "given"}, true}}};
    Rules rules;
    rules.sizes = ladder;
    rules.shelf = std::move(shelf);
    return choose_cable(run, load, {volts(14.2), volts(13.8), limit}, rules, built_in_tables(), extent);
}

const RunLoad charger = ConverterLoad{.output = amperes(25)};
const RunLoad steady = SteadyLoad{.current = amperes(20)};
const RunLoad appliance = PowerLoad{.power = watts(120)};
const RunLoad heater = ResistiveLoad{.resistance = ohms(0.6), .highest = volts(14.4)};

bool fails(const Candidate& candidate, Criterion criterion) {
    return std::find(candidate.fails.begin(), candidate.fails.end(), criterion) != candidate.fails.end();
}

/// The fuse that a steady current gets on one size, where it sits so hot; an owned blade where a rating is given. The battery
/// is so weak that any fuse breaks what it can push into a short.
std::optional<FuseFit> fuse_on(Gauge size, Current current, Temperature around, std::optional<Current> owned = {}) {
    CableRun run{.name = std::string("heater"), .length = metres(1)};
    run.fused_at = {{place_named("battery"),
                     around,
                     volts(12.7),
                     volts(14.4),
                     {milliohms(20), milliohms(40), milliohms(30), {"a test", "given"}, true}}};
    if (owned) run.given_fuses = {{{}, FuseOfRating{*owned, "blade"}}};
    Rules rules;
    rules.sizes = {size};
    const Choice choice = choose_cable(run, SteadyLoad{.current = current}, {volts(14.2), volts(13.8), percent(6)},
                                       rules, built_in_tables());
    const auto& fuses = choice.ladder.front().fuses;
    return fuses.empty() ? std::nullopt : std::optional(fuses.front());
}

}  // namespace

TEST_CASE("more copper never loses more volts, whatever hangs on the run") {
    // A heater draws less through a thin cable, yet loses more in it all the same.
    for (const RunLoad& load : {charger, steady, appliance, heater})
        for (int metres_out = 1; metres_out <= 15; ++metres_out) {
            CAPTURE(metres_out);
            const Choice choice = choose(metres(metres_out), load);
            for (std::size_t i = 1; i < choice.ladder.size(); ++i) {
                const Candidate& thin = choice.ladder[i - 1];
                const Candidate& thick = choice.ladder[i];
                CHECK(thin.area < thick.area);
                // The fuse adds resistance of its own, so the cable is what is compared.
                if (thin.drop) {
                    REQUIRE(thick.drop);
                    CHECK(thick.drop->cable_drop <= thin.drop->cable_drop);
                    if (thin.fuses.size() == thick.fuses.size()) CHECK(thick.drop->drop <= thin.drop->drop);
                }
            }
        }
}

TEST_CASE("a longer run never takes a thinner cable") {
    for (const RunLoad& load : {charger, steady, appliance, heater}) {
        Area before{};
        for (int metres_out = 1; metres_out <= 15; ++metres_out) {
            CAPTURE(metres_out);
            const Choice choice = choose(metres(metres_out), load);
            REQUIRE(choice.chosen());
            CHECK(choice.chosen()->area >= before);
            before = choice.chosen()->area;
        }
        CHECK(before > choose(metres(1), load).chosen()->area);
    }
}

TEST_CASE("what is taken fits, every thinner size fails something, and the next thinner one says what decided") {
    for (int metres_out = 1; metres_out <= 15; metres_out += 2) {
        CAPTURE(metres_out);
        const Choice choice = choose(metres(metres_out), charger);
        REQUIRE(choice.taken);
        CHECK(choice.chosen()->fits());
        CHECK(choice.chosen() == choice.least_that_fits());
        for (std::size_t i = 0; i < *choice.taken; ++i) CHECK_FALSE(choice.ladder[i].fits());
        REQUIRE(choice.thinner());
        CHECK(choice.decided_by == choice.thinner()->fails.front());
    }
}

// P = V*I through a resistance: no more than V^2/4R ever arrives (maximum power transfer).
TEST_CASE("power that cannot arrive through so much resistance fails as power delivery, and nothing is not a number") {
    const Choice choice = choose(metres(100), ConverterLoad{.output = amperes(300)}, percent(50));
    bool any = false;
    for (const Candidate& candidate : choice.ladder) {
        CAPTURE(show(candidate.size));
        if (!candidate.drop) {
            any = true;
            CHECK(fails(candidate, Criterion::delivery));
            CHECK(show(Criterion::delivery) == "power delivery");
            CHECK_FALSE(candidate.lowest);
        } else {
            CHECK_FALSE(fails(candidate, Criterion::delivery));
            CHECK(std::isfinite(in_volts(candidate.drop->drop)));
            CHECK(std::isfinite(in_amperes(candidate.drop->current)));
            // The upper root: never less than half of the source is left.
            CHECK(candidate.drop->far_end >= volts(7.1));
        }
        if (candidate.temperature) CHECK(std::isfinite(in_celsius(candidate.temperature->temperature)));
    }
    CHECK(any);
    CHECK(choice.nothing_fits());
    CHECK_FALSE(choice.decided_by);
}

// Close to the longest run that still delivers, current and temperature drive each other up for many steps.
TEST_CASE("what is said to be delivered has settled, even at the edge of what can be delivered") {
    CableRun run{.name = std::string("feed"), .length = metres(1)};
    run.fused_at = {{place_named("starter"),
                     celsius(61),
                     volts(12.7),
                     volts(14.4),
                     {milliohms(3), milliohms(8), milliohms(5.5), {"a test", "given"}, true}}};
    run.given_fuses = {{{}, std::nullopt}};  // none there: its resistance is not what is asked
    Rules rules;
    rules.sizes = {awg(18)};
    for (int step = 0; step <= 600; ++step) {
        const double length = 5.4054 + step * 1e-6;
        CAPTURE(length);
        run.length = metres(length);
        const Choice choice =
            choose_cable(run, ConverterLoad{.output = amperes(10)}, {volts(14.2), volts(13.8), percent(6)}, rules);
        const Candidate& candidate = choice.ladder.front();
        if (!candidate.drop) continue;
        const Power arrives = candidate.drop->input->power;
        CHECK(volts(14.2) * candidate.drop->current == near(arrives + candidate.drop->heat, watts(0.001)));
        // All of the run lies at one temperature, so the page's conductor temperature is the one its resistance is for.
        REQUIRE(candidate.temperature);
        CHECK(candidate.drop->resistance.out.temperature == near(candidate.temperature->temperature, kelvins(0.001)));
    }
}

TEST_CASE("the power that leaves the source is the power that arrives and the heat of the run") {
    const Choice choice = choose(metres(6), charger);
    for (const Candidate& candidate : choice.ladder) {
        if (!candidate.drop || !candidate.drop->input) continue;
        CAPTURE(show(candidate.size));
        const DropCheck& drop = *candidate.drop;
        CHECK(volts(14.2) * drop.current == near(drop.input->power + drop.heat, watts(0.001)));
    }
}

TEST_CASE("a fuse is never larger than the ampacity nor smaller than the current needs") {
    for (int metres_out = 1; metres_out <= 15; ++metres_out)
        for (const Candidate& candidate : choose(metres(metres_out), charger).ladder)
            for (const FuseFit& fuse : candidate.fuses) {
                CAPTURE(show(candidate.size));
                REQUIRE(candidate.ampacity);
                CHECK(fuse.rating <= candidate.ampacity->current);
                const double kept = 1.0 - 36.0 * fuse.window.rerating_per_kelvin.value();
                // 25 A at 14.4 V with 90 % out of 12.7 V is 31.5 A.
                CHECK(fuse.rating * 0.8 * kept >= amperes(31.49));
            }
}

TEST_CASE("the short ladder answers what the whole one answers, and holds no more than it needs") {
    for (const RunLoad& load : {charger, steady, appliance, heater})
        for (double metres_out = 0.3; metres_out < 60.0; metres_out *= 1.15)
            for (const double limit : {1.0, 3.0, 10.0}) {
                CAPTURE(metres_out);
                CAPTURE(limit);
                const Choice whole = choose(metres(metres_out), load, percent(limit));
                const Choice brief = choose(metres(metres_out), load, percent(limit), Ladder::needed);
                CHECK(whole.ladder.size() == ladder.size());
                CHECK(brief.decided_by == whole.decided_by);
                REQUIRE(brief.taken.has_value() == whole.taken.has_value());
                CHECK(brief.nothing_fits() == whole.nothing_fits());
                if (whole.nothing_fits()) {
                    CHECK(brief.taken == whole.taken);
                    CHECK(brief.ladder.size() == ladder.size());
                    continue;
                }
                CHECK(brief.ladder.size() == (whole.thinner() ? 2 : 1));
                CHECK(brief.chosen()->size == whole.chosen()->size);
                CHECK(brief.chosen()->drop->drop == whole.chosen()->drop->drop);
                CHECK(brief.chosen()->fuses.size() == whole.chosen()->fuses.size());
                REQUIRE((brief.thinner() == nullptr) == (whole.thinner() == nullptr));
                if (whole.thinner()) CHECK(brief.thinner()->fails == whole.thinner()->fails);
            }
}

TEST_CASE(
    "a cable is held against the short that its fuse lets most through, not only against the nearest and the "
    "farthest") {
    // Along some metres of the run a short is 3.5 times the rating of an SF51 fuse, where its limits let through most.
    int between = 0;
    for (int metres_out = 1; metres_out <= 40; metres_out += 3)
        for (const Candidate& candidate : choose(metres(metres_out), SteadyLoad{.current = amperes(110)}, percent(20),
                                                 Ladder::whole, {{{amperes(150), "SF51"}}})
                                              .ladder)
            for (const Protection& one : candidate.protection) {
                if (!one.at_worst) continue;
                CAPTURE(metres_out);
                // What is not cleared within 5 s is judged with the heat that it gives off.
                if (one.at_far) CHECK(one.at_worst->let_through >= one.at_far->let_through);
                CHECK(one.at_far.has_value() != one.lasting.has_value());
                CHECK(one.at_worst->fault >= one.lowest.current);
                const FuseFit& fuse = candidate.fuses.front();
                CHECK(one.at_worst->fault <= fuse.fault.highest.current);
                if (one.at_worst->fault > one.lowest.current && one.at_worst->fault < fuse.fault.highest.current) {
                    ++between;
                    CHECK(one.at_worst->fault / fuse.rating == doctest::Approx(3.5));
                }
            }
    CHECK(between > 0);
}

TEST_CASE("what insulation is made of counts in a short, where it is known") {
    const auto limit_of = [](std::string material) {
        CableRun run{.name = std::string("feed"), .length = metres(4)};
        run.insulation_material = std::move(material);
        run.fused_at = {{place_named("starter"),
                         celsius(61),
                         volts(12.7),
                         volts(14.4),
                         {milliohms(3), milliohms(8), milliohms(5.5), {"a test", "given"}, true}}};
        Rules rules;
        rules.sizes = {awg(4)};
        const Choice choice = choose_cable(run, SteadyLoad{.current = amperes(30)},
                                           {volts(14.2), volts(13.8), percent(6)}, rules, built_in_tables());
        REQUIRE(choice.ladder.front().protection.size() == 1);
        REQUIRE(choice.ladder.front().protection.front().at_far);
        return choice.ladder.front().protection.front().at_far->limit;
    };
    // Polyvinyl chloride 160 degC and cross-linked polyethylene 250 degC: IEC 60364-5-54, as reprinted (read, weak).
    CHECK(limit_of("pvc") == near(celsius(160), kelvins(0.01)));
    CHECK(limit_of("xlpe") == near(celsius(250), kelvins(0.01)));
    CHECK(limit_of("") < limit_of("xlpe"));
}

// 20 A on 12 AWG at 25 degC and a housing that stands 105 degC, all from memory: 20 A·√(44/80) = 14.8 A in an engine bay,
// 20 A·√(75/80) = 19.4 A in a cabin, and there on 14 AWG of 2.08 mm2 19.4 A·√(2.08/3.31) = 15.3 A.
TEST_CASE(
    "a blade fuse is chosen where its holder in the cable may carry the current, by heat and cable; from memory") {
    const Temperature engine_bay = celsius(61), cabin = celsius(30);
    const auto family = [](Gauge size, Current current, Temperature around) {
        const auto fuse = fuse_on(size, current, around);
        REQUIRE(fuse);
        return fuse->family;
    };
    CHECK(family(awg(12), amperes(16), cabin) == "blade");
    CHECK(family(awg(12), amperes(16), engine_bay) == "SF30");
    CHECK(family(awg(8), amperes(16), engine_bay) == "SF30");  // more copper than its own leads is no help
    CHECK(family(awg(12), amperes(14.7), engine_bay) == "blade");
    CHECK(family(awg(12), amperes(14.9), engine_bay) == "SF30");
    CHECK(family(awg(14), amperes(15.2), cabin) == "blade");
    CHECK(family(awg(14), amperes(15.5), cabin) == "SF30");
    CHECK(family(awg(10), amperes(20.1), celsius(0)) == "SF30");
    // One that is there is judged by the same figure; what is bolted down has no such limit.
    const auto owned = fuse_on(awg(12), amperes(16), engine_bay, amperes(25));
    REQUIRE(owned);
    REQUIRE(owned->in_line);
    CHECK(owned->in_line->rating == near(amperes(14.83), amperes(0.005)));
    CHECK_FALSE(fuse_on(awg(12), amperes(16), engine_bay)->in_line);
}

}  // namespace voltwright
