#pragma once

#include "voltwright/shopping/part.hpp"
#include "voltwright/shopping/parts_note.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace voltwright {

struct PartsList {
    std::string title = {};
    Ratio allowance;  ///< added to every length
    std::vector<Part> parts;
    std::string currency = {};        ///< empty: no prices were given
    int decimals = 2;                 ///< of the currency
    std::optional<Money> total = {};  ///< of what has a price
    std::optional<Money> budget = {};
    std::vector<std::string> assumed = {};   ///< runs that the profile does not describe
    std::vector<PartsNote> owned = {};       ///< what is there already and not bought
    std::vector<std::size_t> unpriced = {};  ///< what has no price, by its place in `parts`
    std::vector<PartsNote> to_look = {};     ///< what has to be looked at before buying
    std::vector<PartsNote> not_listed = {};  ///< what no list can know

    /// Empty where there is nothing to judge: no budget, no sum, or a sum below it to which what has no price comes.
    [[nodiscard]] std::optional<bool> within_budget() const;
};

/// Adds to the line of the same thing, or begins one, for a run. Lengths as laid: the allowance comes last.
Part& add(PartsList& list, Part part, const std::string& run);

/// A run named on a line that it shares with others.
void name_once(std::vector<std::string>& names, const std::string& name);

}  // namespace voltwright
