#pragma once

#include "voltwright/planning/findings/run_context.hpp"

#include <optional>
#include <string>
#include <vector>

/// What cures a run: each was chosen again as it would be with the change, so that nobody is sent from one fault to the
/// next.
namespace voltwright {

/// The run as it would be chosen with a change; empty where it would still fail something.
std::optional<Candidate> would_do(const RunContext& of, const CableRun& changed, const Rules& rules);
std::optional<Candidate> would_do(const RunContext& of, const CableRun& changed);

/// A key of this run and its value. None for a run that the profile does not describe: there is no key to change.
std::vector<Change> change_of(const RunContext& of, std::string_view key, std::string value);
/// A fuse as the profile writes it: "50 A SF30".
std::string as_written(Current rating, std::string_view family);
/// A size of its cable.
std::vector<Change> size_change(const RunContext& of, Gauge size);
/// The fuse at the end where one is due.
std::vector<Change> fuse_change(const RunContext& of, Current rating, std::string_view family);
std::vector<Change> fuse_change(const RunContext& of, const std::vector<NamedFuse>& fuses);

/// As they are to be bought.
std::vector<NamedFuse> named_fuses_of(const Candidate& candidate);

/// The fuses that a cable of this size would get if none were given, where it then fails nothing but what it fails now; none
/// where nothing does.
std::vector<NamedFuse> fuses_that_fit(const RunContext& of, Gauge size, const Rules& rules);
std::vector<NamedFuse> fuses_that_fit(const RunContext& of, Gauge size);

/// Another cable, or what to do when none does.
Remedy size_that_fits(const RunContext& of);
/// Another cable for a fuse that is wrong or missing: with its fuse, where the given one stays wrong.
Remedy cable_for_a_fuse(const RunContext& of);
/// Cable and fuse as they would be chosen if neither were given; empty where nothing does.
std::optional<Remedy> cable_and_fuse(const RunContext& of);
/// A cable back in place of the body; empty where that would not do.
std::optional<Remedy> cable_back(const RunContext& of);

// ---- ways_out.cpp -----------------------------------------------------------------------------------------------------
/// The run as long as would do, to the tenth of a metre, and not below half a metre: that is no run any more.
std::optional<Remedy> shorter_run(const RunContext& of);

/// Where no size of the shop passes: a cable back in the place of the body, a size that the rules leave out, a shorter run,
/// or that with a cable back, the first that does.
std::optional<Remedy> way_out(const RunContext& of);

}  // namespace voltwright
