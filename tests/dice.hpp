#pragma once

/// The same draws on every platform, which the distributions of the standard library do not promise.

#include <cstddef>
#include <random>
#include <vector>

namespace voltwright::testing {

class Dice {
public:
    explicit Dice(unsigned seed) : engine_(seed) {}

    /// Both ends included.
    int whole(int from, int to) { return from + static_cast<int>(engine_() % static_cast<unsigned>(to - from + 1)); }
    double even(double low, double high) { return low + (high - low) * static_cast<double>(engine_()) / 4294967295.0; }
    /// Nearly normal, of deviation 1: the sum of twelve, by Irwin and Hall.
    double normal() {
        double sum = -6.0;
        for (int i = 0; i < 12; ++i) sum += even(0.0, 1.0);
        return sum;
    }
    template <class T>
    const T& one_of(const std::vector<T>& all) {
        return all[static_cast<std::size_t>(whole(0, static_cast<int>(all.size()) - 1))];
    }

private:
    std::mt19937 engine_;
};

}  // namespace voltwright::testing
