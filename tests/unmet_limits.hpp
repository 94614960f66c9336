#pragma once

#include "voltwright/sizing/least_cost.hpp"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

/// Which limits cannot be kept whatever is chosen: the thickest size of every run on the way already loses more.
namespace voltwright::testing {

struct UnmetLimit {
    std::size_t run;
    Voltage least;  ///< lost from the source to its far end when each run on the way has the option that loses least
};

/// In the order of the runs. Of runs behind one without options nothing is known. A picovolt of slack, as sums of voltages round.
inline std::vector<UnmetLimit> unmet_limits(const std::vector<FedRun>& runs) {
    const auto least_to = [&](auto&& self, std::size_t i) -> std::optional<double> {
        if (runs[i].options.empty()) return {};
        double own = std::numeric_limits<double>::infinity();
        for (const SizeOption& option : runs[i].options) own = std::min(own, in_volts(option.lost));
        if (!runs[i].fed_by) return own;
        const std::optional<double> before = self(self, *runs[i].fed_by);
        return before ? std::optional(*before + own) : std::nullopt;
    };
    std::vector<UnmetLimit> unmet;
    for (std::size_t i = 0; i < runs.size(); ++i)
        if (const auto least = least_to(least_to, i); least && runs[i].limit && *least > in_volts(*runs[i].limit) + 1e-12)
            unmet.push_back({i, volts(*least)});
    return unmet;
}

}  // namespace voltwright::testing
