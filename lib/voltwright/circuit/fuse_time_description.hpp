#pragma once

#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/provenance/formula.hpp"

#include <tuple>

namespace voltwright {

template <>
struct Described<FuseTime> {
    static constexpr Equation equation{"t = t1·(I/I1)^(ln(t2/t1)/ln(I2/I1)), or t1·(I1/I)² beyond the last",
                                       "straight lines on logarithmic paper, then constant I²t"};
    static constexpr auto result = &FuseTime::at_most;
    static constexpr auto fields = std::tuple{
        field(&FuseTime::rating, "", "rating"),
        field(&FuseTime::current, "I", "current"),
        field(&FuseTime::at_least, "", "clears no sooner than after"),
        field(&FuseTime::at_most, "t", "clears at the latest after"),
        field(&FuseTime::printed_current, "I1", "current of the printed point below"),
        field(&FuseTime::printed_time, "t1", "its latest time"),
        field(&FuseTime::next_current, "I2", "current of the printed point above"),
        field(&FuseTime::next_time, "t2", "its latest time"),
    };
};

template <>
struct Described<PulseEndurance> {
    static constexpr Equation equation{"Wmelt = Wp/s", "a fuse maker's guide to selection"};
    static constexpr auto result = &PulseEndurance::melting;
    static constexpr auto fields = std::tuple{
        field(&PulseEndurance::pulse, "Wp", "heating effect of one pulse"),
        field(&PulseEndurance::pulses, "", "pulses"),
        field(&PulseEndurance::share, "s", "share of the melting effect that each may have"),
        field(&PulseEndurance::melting, "Wmelt", "heating effect that is to melt it, at least"),
    };
};

}  // namespace voltwright
