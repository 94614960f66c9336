#pragma once

#include "voltwright/planning/findings/run_context.hpp"

#include <optional>

/// What there is to say of one run, a function for each concern: each adds what it finds.
namespace voltwright {

// ---- run_parts.cpp: what sits in the run beside cable and fuse --------------------------------------------------------
/// A part that would melt, with the size that was taken or the thickest there is.
void find_overloaded_parts(const RunContext& of, Findings& found);
/// What is not rated here, and what has to be read on it before it is bought.
void find_unrated_parts(const RunContext& of, Findings& found);
/// A joint that glows before any fuse acts.
void find_hot_joints(const RunContext& of, Findings& found);
/// A return by the body that nobody measured, where the cable does not do at the upper end of its range.
void find_body_return(const RunContext& of, Findings& found);
/// Whether the cable that is laid fails at the upper end of that range, or none is laid.
bool body_decides(const RunContext& of);
/// No lug of this size has a hole for a stud at an end: the first such stud is told.
void find_missing_lug(const RunContext& of, const Candidate& size, Findings& found);

// ---- run_cable.cpp: the size ------------------------------------------------------------------------------------------
void find_hot_surroundings(const RunContext& of, Findings& found);
/// A size that is named by its outside.
void find_trade_size(const RunContext& of, Findings& found);
/// What is lost on a way that the run shares with others.
void find_way_drop(const RunContext& of, Findings& found);
/// What the taken size fails, each criterion.
void find_failings(const RunContext& of, const Candidate& taken, Findings& found);
/// Where no size passes: the criterion that stands most in the way.
void find_why_nothing_fits(const RunContext& of, Findings& found);

// ---- run_fuses.cpp: the fuse ------------------------------------------------------------------------------------------
/// A fuse outside the window of its run: a given one, or one that the manual alone allows.
void find_unfit_fuse(const RunContext& of, const FuseFit& fuse, Findings& found);
/// A holder in the cable that melts before its fuse blows.
void find_in_line_holder(const RunContext& of, const FuseFit& fuse, Findings& found);
/// A short time that a given fuse may not stand.
void find_blown_in_use(const RunContext& of, const FuseFit& fuse, Findings& found);
/// A start that a given fuse may not stand: a fuse that is chosen lets it pass.
void find_blown_on_start(const RunContext& of, const FuseFit& fuse, Findings& found);
/// No rating lies between what carries the current and what protects; or one does, and a start would blow it.
void find_no_fuse(const RunContext& of, const FuseWindow& window, Findings& found);
/// A rating of this family that would do in the place of the fuse, its own among them: none that a start would blow, and no fuse for a
/// battery's post anywhere else.
std::optional<Current> rating_in_place_of(const RunContext& of, const FuseFit& fuse, const FuseFamilyRow& family);

// ---- run_bare_ends.cpp: where a fuse is due, and where it sits --------------------------------------------------------
/// A fuse before this run that protects it as well: no larger than what this run bears, and quick enough in a short at
/// its far end. nullptr when there is none.
const FuseFit* protecting_fuse_before(const RunContext& of, const FuseEnd& end);
/// Ends from which a source feeds the run, without a fuse and without one before it that protects it.
void find_bare_ends(const RunContext& of, Findings& found);
/// Fuses at ends from which no source feeds the run.
void find_fuses_elsewhere(const RunContext& of, Findings& found);

// ---- run_shorts.cpp: a short at the far end ---------------------------------------------------------------------------
/// A short that burns on, or that burns the cable; or a start that does. `criterion`: clearing or withstand.
void find_shorts(const RunContext& of, const Candidate& taken, Criterion criterion, Findings& found);
/// A short so small that even a slow fuse of a family with known times need not clear it, behind one whose times nobody
/// printed.
void find_unknown_times(const RunContext& of, const Candidate& taken, Findings& found);
/// A size that a short decides, and with it a figure that nobody gave.
void find_assumed_battery(const RunContext& of, const Candidate& taken, Findings& found);

}  // namespace voltwright
