#include "voltwright/report/diagnose_text.hpp"

#include "voltwright/report/readings_text.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

std::string title(std::string_view words, const Style& style) { return "\n" + bold(words, style) + "\n"; }

/// Two figures that matter, of both the value and what it may be off by.
std::string plus_or_minus(Resistance value, Resistance off) {
    const double count = in_milliohms(value), by = in_milliohms(off);
    const int decimals = by < 0.95 ? 2 : by < 9.5 ? 1 : 0;
    return fmt::format("{:.{}f} ± {:.{}f} mOhm", count, decimals, by, decimals);
}

std::string volts_or_amperes(double value, bool clamp) {
    if (clamp) return fmt::format("{:.{}f} A", value, std::abs(value) < 9.95 ? 1 : 0);
    if (std::abs(value) < 0.4) return fmt::format("{:.{}f} mV", 1e3 * value, std::abs(value) < 0.00995 ? 1 : 0);
    return fmt::format("{:.2f} V", value);
}

std::string heat_words(const Suspicion& suspicion) {
    if (!suspicion.heat || !suspicion.at || *suspicion.heat < watts(0.05)) return "";
    return ": at " + show(*suspicion.at) + " that heats " + show(*suspicion.heat) + " into it";
}

std::string remedy_of(const Suspicion& suspicion) {
    switch (suspicion.kind) {
        case Suspicion::Kind::joint:
            return "Take it apart with the fuse out, clean it, crimp or tighten it anew, and measure it again.";
        case Suspicion::Kind::cable:
            return "Look along it for a crushed, corroded or patched place; measure its length.";
        case Suspicion::Kind::gauge:
            return "Read the print on the cable; its fuse may be too large for it: see to that first.";
        case Suspicion::Kind::body: return "Clean both earth points to bare metal, or run a cable back.";
        case Suspicion::Kind::slip:
            return suspicion.too_little
                       ? "Cable and joints alone lose more than that: was everything running, and both "
                         "leads on bare metal? Take it again."
                       : "Take that reading again.";
    }
    return "";
}

}  // namespace

std::string_view show(Suspicion::Kind kind) {
    switch (kind) {
        case Suspicion::Kind::joint: return "joint";
        case Suspicion::Kind::cable: return "cable";
        case Suspicion::Kind::gauge: return "gauge";
        case Suspicion::Kind::body: return "body";
        case Suspicion::Kind::slip: return "slip";
    }
    return "";
}

std::string show(const Suspicion& suspicion) {
    if (suspicion.kind == Suspicion::Kind::slip)
        return "reading " + std::to_string(*suspicion.reading + 1) + " fits none of the others";
    const std::string more = plus_or_minus(*suspicion.extra, *suspicion.uncertainty) + " more than it should";
    if (suspicion.kind == Suspicion::Kind::gauge)
        return "both cables of the run " + suspicion.run + " together have " + more +
               (suspicion.looks_like ? ", as if they were " + show(*suspicion.looks_like) : "") + heat_words(suspicion);
    if (suspicion.kind == Suspicion::Kind::body)
        return "the way of " + suspicion.run + " back through the body has " + more + heat_words(suspicion);
    return "the " + suspicion.element + " has " + more + heat_words(suspicion);
}

std::string show(const Remark& remark) {
    const std::string number = "reading " + std::to_string(remark.reading + 1) + ": ";
    const std::string found = remark.found ? show(*remark.found) : "";
    switch (remark.kind) {
        case Remark::Kind::leads_swapped:
            return number + "below zero, so the leads were the other way round; taken without its sign";
        case Remark::Kind::no_current:
            return number + "no current flows there with these things on, so it tells nothing of joints";
        case Remark::Kind::nothing_arrives:
            return number + "only " + found + " at " + remark.about +
                   ": a fuse that has blown, a plug that is open or a break before it; look along the way from the "
                   "battery "
                   "for the place behind which the voltage is gone";
        case Remark::Kind::charger_idle:
            return number + "the engine runs and only " + found + " flows through the " + remark.about +
                   ": the charger does nothing; is its wake wire live, does its input reach the voltage at which it "
                   "starts, "
                   "is the battery full?";
        case Remark::Kind::charger_awake:
            return number + "the engine is off and " + found + " flows through the " + remark.about +
                   ": the charger does not sleep and empties the starter battery";
        case Remark::Kind::not_understood:
            return number + "cannot be used: nothing was read there, or its two leads are on circuits of two batteries";
    }
    return "";
}

std::string diagnosis_line(const Diagnosis& diagnosis) {
    switch (diagnosis.verdict) {
        case Verdict::too_little:
            return diagnosis.remarks.empty() ? "TOO LITTLE MEASURED to tell."
                                             : "See the remarks; nothing more can be told.";
        case Verdict::nothing_wrong: return "NOTHING WRONG in what was measured.";
        case Verdict::found: return "FOUND: " + show(diagnosis.suspects.front()) + ".";
        case Verdict::several: {
            constexpr double about_as_likely = 0.3;
            const auto found = std::find_if(diagnosis.suspects.begin(), diagnosis.suspects.end(),
                                            [](const Suspicion& one) { return one.accused; });
            const auto open = std::find_if(diagnosis.suspects.begin(), diagnosis.suspects.end(),
                                           [](const Suspicion& one) { return !one.accused; });
            const auto alike = std::count_if(open, diagnosis.suspects.end(), [](const Suspicion& one) {
                return !one.accused && one.odds > about_as_likely;
            });
            std::string line = found == diagnosis.suspects.end()
                                   ? "SOMETHING IS WRONG, most likely "
                                   : "FOUND: " + show(*found) + ". SOMETHING MORE IS WRONG, most likely ";
            if (alike <= 1) return line + (open == diagnosis.suspects.end() ? "elsewhere." : show(*open) + ".");
            line += "in one of " + std::to_string(alike) + " places";
            return line + (diagnosis.next ? "; one more reading tells them apart." : ".");
        }
        case Verdict::contradiction:
            if (!diagnosis.suspects.empty() && diagnosis.suspects.front().accused &&
                diagnosis.suspects.front().kind != Suspicion::Kind::slip)
                return "FOUND: " + show(diagnosis.suspects.front()) +
                       ". Beside that the readings contradict each other.";
            return "THE READINGS CONTRADICT each other.";
    }
    return "";
}

std::string diagnosis_page(const Diagnosis& diagnosis, const Style& style) {
    const auto safe = [&](std::string_view words) { return printable(spelled(words, style), style); };
    std::string page = bold(wrap(safe(diagnosis_line(diagnosis)), style), style);
    const auto list = [&](const auto& accused, std::string_view heading) {
        std::size_t number = 0;
        std::string remedy;
        for (const Suspicion& suspicion : diagnosis.suspects) {
            if (!accused(suspicion)) continue;
            if (number++ == 0) page += title(heading, style);
            page += wrap(safe(show(suspicion) + "."), style, padded("  " + std::to_string(number), 5), 5);
            // The same advice for the next of its kind is not said again.
            if (remedy_of(suspicion) == remedy) continue;
            remedy = remedy_of(suspicion);
            page += wrap(safe(remedy), style, padded("", 5), 5);
        }
    };
    list([](const Suspicion& one) { return one.accused; }, "What is wrong");
    list([](const Suspicion& one) { return !one.accused; },
         diagnosis.verdict == Verdict::found ? "Less likely" : "What explains it, the likeliest first");
    if (diagnosis.next) {
        const ReadingWords words = words_of(*diagnosis.next);
        page += title("Measure next", style);
        page += wrap(safe(words.where + (words.with.empty() ? "" : "; " + words.with) +
                          ". It tells the first of these "
                          "apart. As it should be: " +
                          words.expected + "."),
                     style, "  ", 2);
    }
    if (!diagnosis.remarks.empty()) {
        page += title("Remarks", style);
        for (const Remark& remark : diagnosis.remarks) page += wrap(safe(show(remark) + "."), style, "  ", 4);
    }
    if (!diagnosis.compared.empty()) {
        page += title("The readings", style);
        page += "  " + padded("reading", 9) + padded("shown", 12) + padded("as it should be", 24) + "explained\n";
        for (const Compared& one : diagnosis.compared)
            page += safe("  " + padded(std::to_string(one.number + 1), 9) +
                         padded(volts_or_amperes(one.shown, one.clamp), 12) +
                         padded(volts_or_amperes(one.expected, one.clamp) + " ± " +
                                    volts_or_amperes(one.tolerance, one.clamp) + (one.as_it_should() ? "" : "  *"),
                                25) +
                         volts_or_amperes(one.explained, one.clamp)) +
                    "\n";
    }
    if (diagnosis.verdict == Verdict::too_little && diagnosis.remarks.empty()) {
        page += wrap(
            "Write what the meter showed into the profile as [[reading]]; voltwright readings says what to measure and "
            "how it is called.",
            style, "  ", 2);
    }
    return page;
}

}  // namespace voltwright
