#include "voltwright/report/diagnose_text.hpp"

#include "voltwright/messages/anomalies.hpp"
#include "voltwright/messages/fault_candidates.hpp"
#include "voltwright/messages/meter_figures.hpp"
#include "voltwright/messages/readings.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// As likely as the first, and not identified.
bool is_rival(const FaultCandidate& one) { return !one.identified && one.odds > about_as_likely; }

/// "in one of 3 places; one more reading tells them apart."
std::string one_of_places(const Diagnosis& diagnosis, std::ptrdiff_t places) {
    const auto& all = diagnosis.candidates;
    // A reading that was noted wrongly is no place.
    const auto wrong = std::find_if(all.begin(), all.end(), [](const FaultCandidate& one) {
        return is_rival(one) && one.kind == FaultKind::gross_error;
    });
    return "in one of " + std::to_string(places) + " places" +
           (diagnosis.next ? "; one more reading tells them apart." : ".") +
           (wrong == all.end()
                ? ""
                : " A reading may be noted wrongly: number " + std::to_string(*wrong->measurement + 1) + ".");
}

std::string line_of_several(const Diagnosis& diagnosis, const std::string& urgent) {
    const auto& all = diagnosis.candidates;
    const auto found = std::find_if(all.begin(), all.end(), [](const FaultCandidate& one) { return one.identified; });
    const auto open = std::find_if(all.begin(), all.end(), [](const FaultCandidate& one) { return !one.identified; });
    const auto places = std::count_if(all.begin(), all.end(), [](const FaultCandidate& one) {
        return is_rival(one) && one.kind != FaultKind::gross_error;
    });
    const std::string line = found == all.end()
                                 ? urgent + "SOMETHING IS WRONG, most likely "
                                 : urgent + "FOUND: " + show(*found) + ". SOMETHING MORE IS WRONG, most likely ";
    if (places > 1) return line + one_of_places(diagnosis, places);
    return line + (open == all.end() ? "elsewhere." : show(*open) + ".");
}

std::string line_of_contradiction(const Diagnosis& diagnosis, const std::string& urgent) {
    const auto& all = diagnosis.candidates;
    if (all.empty() || !all.front().identified || all.front().kind == FaultKind::gross_error)
        return "THE READINGS CONTRADICT each other.";
    return urgent + "FOUND: " + show(all.front()) + ". Beside that the readings contradict each other.";
}

std::string line_of_nothing(const Diagnosis& diagnosis) {
    const auto& all = diagnosis.anomalies;
    return std::any_of(all.begin(), all.end(),
                       [](const Anomaly& one) { return one.kind == Anomaly::Kind::not_understood; })
               ? "NOTHING WRONG in what could be used of it; see the remarks."
               : "NOTHING WRONG in what was measured.";
}

/// Without what is told by single readings.
std::string line_of_the_rest(const Diagnosis& diagnosis) {
    const auto& all = diagnosis.candidates;
    const std::string urgent =
        std::any_of(all.begin(), all.end(), is_melting) || one_melts(all) ? "STOP USING IT. " : "";
    switch (diagnosis.verdict) {
        case Verdict::too_little:
            return diagnosis.anomalies.empty() ? "TOO LITTLE MEASURED to tell."
                                               : "See the remarks; nothing more can be told.";
        case Verdict::nothing_wrong: return line_of_nothing(diagnosis);
        case Verdict::told_by_one: return "";
        case Verdict::found: return urgent + "FOUND: " + show(all.front()) + ".";
        case Verdict::several: return line_of_several(diagnosis, urgent);
        case Verdict::contradiction: return line_of_contradiction(diagnosis, urgent);
    }
    return "";
}

// ---- the page --------------------------------------------------------------------------------------------------------

std::string safe(std::string_view words, const Style& style) { return printable(spelled(words, style), style); }

std::string candidates_section(const Diagnosis& diagnosis, bool identified, std::string_view title,
                               const Style& style) {
    std::string section, remedy;
    std::size_t number = 0;
    const auto put = [&](const std::string& words, const std::string& before) {
        section += wrap(safe(words, style), style, padded(before, 5), 5);
    };
    for (const FaultCandidate& candidate : diagnosis.candidates) {
        if (candidate.identified != identified) continue;
        if (number++ == 0) section += heading(title, style);
        put(show(candidate) + ".", "  " + std::to_string(number));
        if (is_melting(candidate))
            put("Stop using it and pull its fuse now: this much heat melts it. A whole fuse proves nothing: no fuse "
                "blows "
                "for a bad joint.",
                "");
        // The same advice for the next of its kind is not said again.
        if (remedy_of(candidate) == remedy) continue;
        remedy = remedy_of(candidate);
        put(remedy, "");
    }
    return section;
}

std::string anomalies_section(const Diagnosis& diagnosis, bool grave, std::string_view title, const Style& style) {
    std::string section;
    for (const Anomaly& anomaly : diagnosis.anomalies) {
        if (anomaly.grave() != grave) continue;
        if (section.empty()) section += heading(title, style);
        section += wrap(safe(show(anomaly) + ".", style), style, "  ", 4);
    }
    return section;
}

/// Is a way open, or may one be?
bool tells_of_a_break(const Anomaly& anomaly) {
    return anomaly.kind <= Anomaly::Kind::nothing_flows && anomaly.kind != Anomaly::Kind::poles_swapped;
}

std::string_view why_next(const Diagnosis& diagnosis) {
    const bool open = std::any_of(diagnosis.anomalies.begin(), diagnosis.anomalies.end(), tells_of_a_break);
    if (!open)
        return diagnosis.candidates.empty() ? "With the current known, a drop tells how much resistance there is."
                                            : "It tells the first of these apart.";
    if (diagnosis.next->across.size() == 1 && diagnosis.next->proves != Proves::joint)
        return "With its voltage there the way to it is whole; without, the break lies before it.";
    return "If nearly the whole voltage stands there, the break lies between the two leads; if next to none, it does "
           "not.";
}

std::string next_section(const Diagnosis& diagnosis, const Style& style) {
    if (!diagnosis.next) return "";
    const ReadingWords words = words_of(*diagnosis.next);
    return heading("Measure next", style) +
           wrap(safe(words.where + (words.with.empty() ? "" : "; " + words.with) + ". " +
                         std::string(why_next(diagnosis)) + " As it should be: " + words.expected + ".",
                     style),
                style, "  ", 2);
}

std::string comparisons_section(const Diagnosis& diagnosis, const Style& style) {
    if (diagnosis.comparisons.empty()) return "";
    std::string section = heading("The readings", style) + "  " + padded("reading", 9) + padded("shown", 12) +
                          padded("as it should be", 25) + "explained\n";
    for (const Comparison& one : diagnosis.comparisons) {
        const std::string expected = with_tolerance(one.expected, one.tolerance) + (one.as_it_should() ? "" : "  *");
        section += safe("  " + padded(std::to_string(one.measurement + 1), 9) + padded(show(one.shown), 12) +
                            padded(expected, 25) + show(one.explained),
                        style) +
                   "\n";
    }
    return section;
}

}  // namespace

std::string diagnosis_line(const Diagnosis& diagnosis) {
    const std::string first = headlines(diagnosis.anomalies), rest = line_of_the_rest(diagnosis);
    return first + (first.empty() || rest.empty() ? "" : " ") + rest;
}

std::string diagnosis_page(const Diagnosis& diagnosis, const Style& style) {
    std::string page = bold(wrap(safe(diagnosis_line(diagnosis), style), style), style);
    page += anomalies_section(diagnosis, true, "What single readings tell", style);
    page += candidates_section(diagnosis, true, "What is wrong", style);
    page += candidates_section(
        diagnosis, false, diagnosis.verdict == Verdict::found ? "Less likely" : "What explains it, the likeliest first",
        style);
    page += next_section(diagnosis, style);
    page += anomalies_section(diagnosis, false, "Remarks", style);
    page += comparisons_section(diagnosis, style);
    if (diagnosis.verdict == Verdict::too_little && diagnosis.anomalies.empty())
        page += wrap(
            "Write what the meter showed into the profile as [[reading]]; voltwright readings says what to measure and "
            "how it is called.",
            style, "  ", 2);
    return page;
}

}  // namespace voltwright
