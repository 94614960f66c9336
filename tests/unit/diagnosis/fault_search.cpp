// The search for faults and the choice of the next reading, each alone, on two joints of 1 mΩ before a lamp of 10 A. What is
// expected follows from Ohm's law, beside each case.

#include "voltwright/diagnosis/fault_search.hpp"
#include "testing.hpp"
#include "two_joints.hpp"
#include "voltwright/diagnosis/next_reading.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

using namespace testing;

namespace {

const Meter meter{{percent(0.5), volts(0.02)}, {percent(0.5), millivolts(0.2)}, {percent(2), amperes(0.1)}};

const CircuitFault first{FaultKind::joint, 0}, second{FaultKind::joint, 1};

const Measurement current = measured(0, Probe{Probe::Through{0}}, amperes(10), amperes(0.05));

Measurement across(std::size_t number, std::size_t element, Voltage value) {
    return measured(number, Probe{Probe::Over{element}}, value, millivolts(1));
}

Measurement across_both(Voltage value) {
    const Probe::Point near{Probe::Point::At::house, 0, true}, far{Probe::Point::At::branch, 0, true};
    return measured(1, Probe{Probe::Between{near, far}}, value, millivolts(1));
}

}  // namespace

TEST_CASE("a circuit as it should be has no faults to be found") {
    const CircuitModel circuit = two_joints();
    const auto found =
        search_faults(model_of(circuit, {current, across(1, 0, millivolts(10)), across(2, 1, millivolts(10))}));
    REQUIRE(found);
    CHECK(found->best.faults.empty());
    CHECK(found->alternatives.empty());
    CHECK_FALSE(found->open);
}

// 310 mV at 10 A are 31 mΩ, 30 more than there should be. The clamp is off by 0.5 %, 0.155 mΩ of them; the voltmeter by 1 mV,
// 0.1 mΩ; the joint itself by 0.1 mΩ: together 0.21 mΩ.
TEST_CASE("a joint that was measured by itself is identified, with its extra resistance and how sure that is") {
    const CircuitModel circuit = two_joints();
    const auto found =
        search_faults(model_of(circuit, {current, across(1, 0, millivolts(310)), across(2, 1, millivolts(10))}));
    REQUIRE(found);
    REQUIRE(found->best.faults == std::vector<CircuitFault>{first});
    CHECK(found->identified == std::vector<bool>{true});
    CHECK(found->best.estimate().magnitudes[0] == near(30.0, 0.05));
    CHECK(std::sqrt(found->best.fit.covariance(0, 0)) == near(0.21, 0.01));
    CHECK_FALSE(found->open);
}

// 320 mV across both: 30 mΩ too much in the one or in the other.
TEST_CASE("what two joints explain alike is left open, with both in it") {
    const CircuitModel circuit = two_joints();
    const auto found = search_faults(model_of(circuit, {current, across_both(millivolts(320))}));
    REQUIRE(found);
    REQUIRE(found->best.faults.size() == 1);
    CHECK(found->identified == std::vector<bool>{false});
    CHECK(found->best.estimate().magnitudes[0] == near(30.0, 0.1));
    REQUIRE(found->open);
    for (const CircuitFault& joint : {first, second})
        CHECK(std::any_of(found->open->begin(), found->open->end(), [&](const RankedFit& one) {
            return one.fit.has(joint) && one.log_weight > found->open->front().log_weight - 0.1;
        }));
}

// Across each joint stand 10 mV as they should: the reading across both, 300 mV, cannot be.
TEST_CASE("a reading that no joint explains is a gross error") {
    const CircuitModel circuit = two_joints();
    const auto found = search_faults(model_of(
        circuit, {current, across_both(millivolts(300)), across(2, 0, millivolts(10)), across(3, 1, millivolts(10))}));
    REQUIRE(found);
    CHECK(found->best.faults == std::vector<CircuitFault>{{FaultKind::gross_error, 1}});
    CHECK(found->best.estimate().magnitudes[0] == near(0.28, 0.002));
}

// Either joint has 30 mΩ too much: the current is 10 A with both, the drop of the first 310 mV with one and 10 mV with the
// other.
TEST_CASE("of two things to measure next the one is taken that tells two explanations apart") {
    const auto candidate = [](Probe probe, std::vector<MeterValue> predicted) {
        return NextCandidate{PlannedReading{}, probe, lamp_on, std::move(predicted)};
    };
    const NextCandidate clamp = candidate(Probe{Probe::Through{0}}, {amperes(10), amperes(10)});
    const NextCandidate drop = candidate(Probe{Probe::Over{0}}, {millivolts(310), millivolts(10)});
    const std::vector<double> alike = {0.0, 0.0};
    CHECK(most_telling(std::vector{clamp, drop}, alike, meter) == std::size_t{1});
    CHECK(most_telling(std::vector{drop, clamp}, alike, meter) == std::size_t{0});
    CHECK_FALSE(most_telling(std::vector{clamp}, alike, meter));
    // A rival a thousand times less likely is not worth a reading: 50/1000.
    CHECK_FALSE(most_telling(std::vector{drop}, std::vector{0.0, std::log(1e-3)}, meter));
}

// The meter is off by 0.5 % of 310 mV and 0.2 mV at most: 1.75 mV, a standard uncertainty of 1.01 mV. A difference of 2.02 mV
// is two of them: 2² for a rival that is as likely, half of that for one half as likely.
TEST_CASE("how well a reading tells is counted in uncertainties of the meter, and bounded") {
    const MeterValue uncertainty = meter.uncertainty(millivolts(310));
    CHECK(uncertainty.voltage() == near(millivolts(1.01), millivolts(0.005)));
    const std::vector<MeterValue> two = {millivolts(310), millivolts(312.0207)};
    CHECK(discrimination(two, std::vector{0.0, 0.0}, uncertainty) == near(4.0, 0.01));
    CHECK(discrimination(two, std::vector{0.0, std::log(0.5)}, uncertainty) == near(2.0, 0.01));
    const std::vector<MeterValue> far = {millivolts(310), volts(12)};
    CHECK(discrimination(far, std::vector{0.0, 0.0}, uncertainty) == near(50.0, 1e-9));
}

}  // namespace voltwright
