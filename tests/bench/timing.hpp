#pragma once

/// How the benchmarks measure: the least time of many, because everything that disturbs a measurement makes it longer.

#include <algorithm>
#include <chrono>
#include <limits>

namespace bench {

/// In seconds.
template <class Work>
double least(int rounds, Work&& work) {
    using Clock = std::chrono::steady_clock;
    double best = std::numeric_limits<double>::infinity();
    for (int i = 0; i < rounds; ++i) {
        const auto start = Clock::now();
        work();
        best = std::min(best, std::chrono::duration<double>(Clock::now() - start).count());
    }
    return best;
}

}  // namespace bench
