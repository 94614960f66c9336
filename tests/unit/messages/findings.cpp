#include "voltwright/messages/findings.hpp"
#include "voltwright/messages/assumptions.hpp"

#include "voltwright/messages/remedies.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstddef>
#include <set>
#include <string>
#include <string_view>

using namespace voltwright;

namespace {

constexpr auto last_code = static_cast<std::size_t>(FindingCode::withstand);
constexpr auto last_assumption = static_cast<std::size_t>(AssumptionCode::starter_capacity_assumed);
constexpr auto last_remedy = static_cast<std::size_t>(RemedyCode::larger_inverter);

/// What the schema of a plan holds a code to: words of small letters with one dash between them.
bool well_formed(std::string_view code) {
    return !code.empty() && code.front() != '-' && code.back() != '-' && code.find("--") == std::string_view::npos &&
           std::all_of(code.begin(), code.end(), [](char sign) { return sign == '-' || (sign >= 'a' && sign <= 'z'); });
}

}  // namespace

TEST_CASE("each code has a name of its own, of the form that the schema promises") {
    std::set<std::string_view> names;
    for (std::size_t i = 0; i <= last_code; ++i) {
        const std::string_view name = show(static_cast<FindingCode>(i));
        CAPTURE(std::string(name));
        CHECK(well_formed(name));
        CHECK(names.insert(name).second);
    }
    std::set<std::string_view> remedies;
    for (std::size_t i = 0; i <= last_remedy; ++i) {
        const std::string_view name = show(static_cast<RemedyCode>(i));
        CAPTURE(std::string(name));
        CHECK(well_formed(name));
        CHECK(remedies.insert(name).second);
    }
    names.clear();
    for (std::size_t i = 0; i <= last_assumption; ++i) {
        const std::string_view name = show(static_cast<AssumptionCode>(i));
        CAPTURE(std::string(name));
        CHECK(well_formed(name));
        CHECK(names.insert(name).second);
    }
}

TEST_CASE("a finding is said with both numbers, and its steps follow each other") {
    const Finding one{.level = Level::stop,
                      .code = FindingCode::fuse_too_large,
                      .about = {FindingSubject::Kind::run, {"feed"}},
                      .found = amperes(80),
                      .allowed = amperes(50),
                      .arguments = {{"fuse", NamedFuse{amperes(80), "SF30", the(PlaceKind::starter_battery)}}},
                      .remedy = {{{RemedyCode::no_fuse_does, {}},
                                  {RemedyCode::take_cable, {{"cable", NamedCable{awg(4), celsius(105)}}}}},
                                 {{"run.feed.size", "4 AWG"}}},
                      .source = {.id = "test", .cite = "test"}};
    CHECK(show(one) ==
          "feed: the 80 A SF30 fuse at the starter battery is too large: the cable may carry 50 A where it runs, and "
          "would melt before the fuse blows.");
    CHECK(remedy_in_words(one) ==
          "No fuse both carries the current and protects what is behind it. A cable of 4 AWG, 105 degC would do.");
}

TEST_CASE("what a finding's code always asks for is said where it brings no step of its own") {
    const Finding one{.level = Level::warn,
                      .code = FindingCode::assumed_runs,
                      .about = {FindingSubject::Kind::run, {"fridge", "pump"}},
                      .found = metres(7),
                      .source = {.id = "test", .cite = "test"}};
    CHECK(show(one) ==
          "The profile does not describe these runs: fridge, pump. They were assumed, 7 m of cable in all.");
    CHECK(remedy_in_words(one) == "Measure their way and describe each with a [[run]].");
}
