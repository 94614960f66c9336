#include "voltwright/messages/fault_candidates.hpp"

#include "voltwright/units/show.hpp"

#include <fmt/format.h>

namespace voltwright {

std::string_view show(FaultKind kind) {
    switch (kind) {
        case FaultKind::joint: return "joint";
        case FaultKind::cable: return "cable";
        case FaultKind::gauge: return "gauge";
        case FaultKind::body: return "body";
        case FaultKind::gross_error: return "slip";
    }
    return "";
}

namespace {

/// So much in one joint melts its plastic (common practice, no source).
constexpr Power melts = watts(5);
/// Less heat is not worth a word.
constexpr Power worth_a_word = watts(0.05);

/// Two figures that matter, of both the value and what it may be off by.
std::string plus_or_minus(Resistance value, Resistance off) {
    const double count = in_milliohms(value), by = in_milliohms(off);
    const int decimals = by < 0.95 ? 2 : by < 9.5 ? 1 : 0;
    return fmt::format("{:.{}f} ± {:.{}f} mOhm", count, decimals, by, decimals);
}

/// How much it has is known to a half, and not only that it has.
bool is_sure(const FaultCandidate& candidate) {
    return candidate.extra && candidate.uncertainty && *candidate.uncertainty < 0.5 * *candidate.extra;
}

std::string heat_words(const FaultCandidate& candidate) {
    if (!is_sure(candidate) || !candidate.heat || !candidate.at || *candidate.heat < worth_a_word) return "";
    return ": at " + show(*candidate.at) + " that heats " + show(*candidate.heat) + " into it";
}

bool would_melt(const FaultCandidate& candidate) {
    return candidate.kind == FaultKind::joint && is_sure(candidate) && candidate.heat && *candidate.heat >= melts;
}

}  // namespace

bool is_melting(const FaultCandidate& candidate) { return candidate.identified && would_melt(candidate); }

bool one_melts(const std::vector<FaultCandidate>& candidates) {
    bool any = false;
    for (const FaultCandidate& one : candidates) {
        if (one.identified || one.odds <= about_as_likely || one.kind == FaultKind::gross_error) continue;
        if (!would_melt(one)) return false;
        any = true;
    }
    return any;
}

std::string remedy_of(const FaultCandidate& candidate) {
    switch (candidate.kind) {
        case FaultKind::joint:
            if (candidate.fuse)
                return "With the battery disconnected, clean and tighten the holder and put in a new fuse of the same "
                       "rating; a holder that has browned is replaced. Measure it again.";
            return "Take it apart with the fuse out, clean it, crimp or tighten it anew, and measure it again.";
        case FaultKind::cable: return "Look along it for a crushed, corroded or patched place; measure its length.";
        case FaultKind::gauge:
            return "Read the print on the cable; its fuse may be too large for it: see to that first.";
        case FaultKind::body:
            return "Clean both earth points to bare metal, or run a cable back. A whole fuse proves nothing of it.";
        case FaultKind::gross_error:
            return candidate.too_little
                       ? "Cable and joints alone lose more than that: was everything running, and both "
                         "leads on bare metal? Take it again."
                       : "Take that reading again.";
    }
    return "";
}

std::string show(const FaultCandidate& candidate) {
    if (candidate.kind == FaultKind::gross_error)
        return "reading " + std::to_string(*candidate.measurement + 1) + " fits none of the others";
    const std::string more = is_sure(candidate)
                                 ? plus_or_minus(*candidate.extra, *candidate.uncertainty) + " more than it should"
                                 : "more resistance than it should; clamp the cable to know how much";
    if (candidate.kind == FaultKind::gauge)
        return "both cables of the run " + candidate.run + " together have " + more +
               (candidate.looks_like ? ", as if they were " + show(*candidate.looks_like) : "") + heat_words(candidate);
    if (candidate.kind == FaultKind::body)
        return "the way of " + candidate.run + " back through the body has " + more + heat_words(candidate);
    return "the " + candidate.element + " has " + more + heat_words(candidate);
}

}  // namespace voltwright
