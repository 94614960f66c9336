#pragma once

#include "voltwright/sizing/candidate.hpp"
#include "voltwright/sizing/parts_in_run.hpp"

#include <cstddef>
#include <optional>
#include <vector>

/// The choice of a cable and its fuse: the smallest size that passes, what each thinner one fails, and why.
namespace voltwright {

/// The ladder of a run, and what was taken.
struct Choice {
    DesignCurrent design;
    std::vector<Candidate> ladder = {};     ///< rising area; a given size among them
    std::optional<std::size_t> taken = {};  ///< where nothing fits, the one that fails least; empty: no size was judged
    std::optional<Criterion> decided_by =
        {};              ///< what the next thinner size fails first; empty: the thinnest there is fits
    bool given = false;  ///< the size is the profile's: judged, not chosen

    [[nodiscard]] const Candidate* chosen() const { return taken ? &ladder[*taken] : nullptr; }
    /// The next thinner size of the ladder, or nullptr.
    [[nodiscard]] const Candidate* thinner() const { return taken && *taken > 0 ? &ladder[*taken - 1] : nullptr; }
    /// The smallest size that fits, taken or not; nullptr when none does.
    [[nodiscard]] const Candidate* least_that_fits() const;
    /// No size passes, and none is given: what was taken only shows by how much.
    [[nodiscard]] bool nothing_fits() const { return !given && !(taken && ladder[*taken].fits()); }
};

/// Which sizes a ladder holds.
enum class Ladder {
    whole,   ///< every size of the rules
    needed,  ///< the one taken and the one below it; all where none fits or one is given
    first,   ///< the one taken alone; none where none fits, a given one whatever it fails
};

/// Judges the sizes of the rules and takes the smallest that fits, or the given one whatever it fails. Where none fits,
/// the one that fails least: the size that would do if only a part in the run were another, else of those that fail the
/// fewest criteria the thickest, or the thinnest where it is too thick for a terminal or a lug.
/// Throws std::invalid_argument, with the name of the field, when the run has neither an end with a fuse nor a source with a
/// limit, or an amount is none: a
/// length, voltage or resistive load not above 0, a current, power or resistance below 0, a share outside 0 to 1, fewer than
/// one cable in a bundle, anything infinite or not a number. Throws std::logic_error when a size or the basis is not in
/// the tables. resolve() has seen to all of these.
Choice choose_cable(const CableRun& run, const RunLoad& load, const Supply& supply, const Rules& rules,
                    const Tables& tables = built_in_tables(), Ladder ladder = Ladder::whole);

}  // namespace voltwright
