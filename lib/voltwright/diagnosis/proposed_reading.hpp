#pragma once

#include "voltwright/diagnosis/planned_reading.hpp"
#include "voltwright/diagnosis/probe.hpp"
#include "voltwright/diagnosis/test_condition.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// Where to put the leads next, and in what condition.
struct ProposedReading {
    Probe probe;
    TestCondition condition;
    std::vector<std::string> across = {};
    std::string through = {};
    std::string run;
    Proves proves;
};

}  // namespace voltwright
