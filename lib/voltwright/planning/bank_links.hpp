#pragma once

#include "voltwright/planning/run_plan.hpp"

#include <optional>
#include <vector>

namespace voltwright {

/// The cables between equal batteries in parallel, and the fuse on the post of each.
///
///     I_link = m·I/n        I = max(ΣI_in, ΣI_out)
///
/// n   batteries       m   what the best of them gives over its even share: data/practice/shares.toml (bank_uneven)
/// I   design currents of the runs that end at the bank, and of those that begin there
///
/// Two batteries are linked post to post, and everything begins and ends at the plus of one and the minus of the other: the
/// link carries what one of them gives. Of more in a row the last link would carry (n − 1)/n of all, and its fuses no longer
/// protect it: each has a lead of its own, all alike, to two bus bars, and again carries one battery's share.
///
/// The fuse of a battery breaks what the others drive into it, R_i/(n − 1). Source: a fuse for each battery's positive lead
/// and leads of one length are builders' notes, read second hand; no regulation's figure was found.
struct BankLinks {
    int count;      ///< batteries
    Current most;   ///< into the bank or out of it
    Current share;  ///< of that, what one battery may give
    CableRun link;  ///< one cable, out and back
    Choice choice;

    [[nodiscard]] bool bus_bars() const { return count > 2; }
    /// Pairs of cables, red and black.
    [[nodiscard]] int pairs() const { return bus_bars() ? count : 1; }
    /// What can be bought and laid; nullptr when no size and fuse do.
    [[nodiscard]] const Candidate* to_lay() const;
};

/// Empty for a single battery.
std::optional<BankLinks> bank_links(const System& system, const std::vector<RunPlan>& runs, const Tables& tables);

}  // namespace voltwright
