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

/// "12.38 V ± 0.09 V": both in the unit of the value.
std::string with_tolerance(double value, double tolerance, bool clamp) {
    const std::string words = volts_or_amperes(value, clamp);
    if (clamp || std::abs(value) < 0.4) return words + " ± " + volts_or_amperes(tolerance, clamp);
    return words + fmt::format(" ± {:.2f} V", tolerance);
}

/// So much in one joint melts its plastic (common practice, no source).
constexpr Power melts = watts(5);

/// How much it has is known to a half, and not only that it has.
bool is_sure(const Suspicion& suspicion) {
    return suspicion.extra && suspicion.uncertainty && *suspicion.uncertainty < 0.5 * *suspicion.extra;
}

std::string heat_words(const Suspicion& suspicion) {
    if (!is_sure(suspicion) || !suspicion.heat || !suspicion.at || *suspicion.heat < watts(0.05)) return "";
    return ": at " + show(*suspicion.at) + " that heats " + show(*suspicion.heat) + " into it";
}

bool would_melt(const Suspicion& suspicion) {
    return suspicion.kind == Suspicion::Kind::joint && is_sure(suspicion) && suspicion.heat && *suspicion.heat >= melts;
}

bool melting(const Suspicion& suspicion) { return suspicion.accused && would_melt(suspicion); }

/// So many times less likely than the first and still as good an explanation.
constexpr double about_as_likely = 0.3;

/// One of them melts, whichever it is.
bool one_melts(const std::vector<Suspicion>& suspects) {
    bool any = false;
    for (const Suspicion& one : suspects) {
        if (one.accused || one.odds <= about_as_likely || one.kind == Suspicion::Kind::slip) continue;
        if (!would_melt(one)) return false;
        any = true;
    }
    return any;
}

std::string remedy_of(const Suspicion& suspicion) {
    switch (suspicion.kind) {
        case Suspicion::Kind::joint:
            if (suspicion.fuse)
                return "With the battery disconnected, clean and tighten the holder and put in a new fuse of the same "
                       "rating; a holder that has browned is replaced. Measure it again.";
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
    const std::string more = is_sure(suspicion)
                                 ? plus_or_minus(*suspicion.extra, *suspicion.uncertainty) + " more than it should"
                                 : "more resistance than it should; clamp the cable to know how much";
    if (suspicion.kind == Suspicion::Kind::gauge)
        return "both cables of the run " + suspicion.run + " together have " + more +
               (suspicion.looks_like ? ", as if they were " + show(*suspicion.looks_like) : "") + heat_words(suspicion);
    if (suspicion.kind == Suspicion::Kind::body)
        return "the way of " + suspicion.run + " back through the body has " + more + heat_words(suspicion);
    return "the " + suspicion.element + " has " + more + heat_words(suspicion);
}

namespace {

/// Where it lies, the likeliest first.
std::string places_of(const Remark& remark) {
    constexpr std::size_t most = 4;
    const std::size_t count = remark.among.size(), named = count > most ? most - 1 : count;
    std::string words;
    for (std::size_t i = 0; i < named; ++i)
        words += (i == 0 ? "the " : i + 1 == count ? " or the " : ", the ") + remark.among[i];
    return words + (named < count ? " or one of " + std::to_string(count - named) + " more" : "");
}

/// Both in the unit that suits them: millivolts where neither is a volt.
std::pair<std::string, std::string> in_one_unit(const Measure& found, const Measure& limit) {
    if (const auto* current = std::get_if<Current>(&found)) {
        const auto words = [](Current one) { return fmt::format("{:.1f} A", in_amperes(one)); };
        return {words(*current), words(std::get<Current>(limit))};
    }
    const Voltage a = std::get<Voltage>(found), b = std::get<Voltage>(limit);
    const bool fine = a < volts(1) && b < volts(1);
    const auto words = [&](Voltage one) {
        const double count = in_millivolts(one);
        return fine ? fmt::format("{:.{}f} mV", count, count < 9.95 ? 1 : 0) : fmt::format("{:.2f} V", in_volts(one));
    };
    return {words(a), words(b)};
}

std::string at_current(const Remark& remark) {
    return remark.at && *remark.at > Current{}
               ? fmt::format(" at {:.{}f} A", in_amperes(*remark.at), *remark.at < amperes(9.95) ? 1 : 0)
               : "";
}

/// Where the leads or the clamp were.
std::string where_read(const Remark& remark) {
    if (remark.among.size() == 2) return "from " + remark.among[0] + " to " + remark.among[1];
    if (remark.found && std::holds_alternative<Current>(*remark.found)) return "through the run " + remark.about;
    return (remark.in_way ? "across the " : "at ") + remark.among.at(0);
}

/// "750 mV from starter + to charger +; at most 327 mV at 28 A"
std::string beyond_words(const Remark& remark) {
    const auto [found, limit] = in_one_unit(*remark.found, *remark.limit);
    return found + " " + where_read(remark) + "; " + (remark.above ? "at most " : "at least ") + limit +
           at_current(remark);
}

/// What to do about a reading that is beyond its limit.
std::string after_beyond(const Remark& remark) {
    const bool current = std::holds_alternative<Current>(*remark.found);
    if (current && remark.above)
        return remark.nothing_on ? "Something draws while it is off: find out what"
                                 : "More is drawn than the profile says: see what is on, and read its label";
    if (current)
        return remark.charging
                   ? "The charger holds back, or the battery is nearly full: read it again with a battery half full"
                   : "Less is drawn than the profile says: see whether all that was noted is running";
    if (remark.in_way) {
        const std::string what = remark.among.size() == 2 ? "Something in that way" : "It";
        if (!remark.flows)
            return what + " has too much resistance, or more current flows: clamp the cable and add the current";
        const double times = in_ratio(*remark.flows / *remark.at);
        const Voltage scaled = times * std::get<Voltage>(*remark.limit);
        return std::get<Voltage>(*remark.found) < scaled
                   ? "The current does it: " + show(*remark.flows) + " flows there. See what draws it"
                   : what + " has too much resistance: measure across its joints one by one";
    }
    const std::string post = remark.charging || remark.above ? "battery that feeds it" : "battery";
    return remark.above ? "That is more than its battery should have: read the battery in the same state"
                        : "Too much is lost on the way, or the " + post + " is low: read it in the same state";
}

std::string upper(std::string words) {
    std::transform(words.begin(), words.end(), words.begin(),
                   [](char one) { return one >= 'a' && one <= 'z' ? static_cast<char>(one - 'a' + 'A') : one; });
    return words;
}

/// "the feed", "the run fridge".
std::string the_run(const std::string& name) { return name == "feed" ? "the feed" : "the run " + name; }

/// What the first line says of a grave one.
std::string headline(const Remark& remark) {
    switch (remark.kind) {
        case Remark::Kind::poles_swapped: return "POLES SWAPPED at " + remark.about + ", or the meter's leads.";
        case Remark::Kind::open:
            if (remark.among.size() == 1)
                return "OPEN: the " + remark.among[0] + (remark.fuse ? ", blown or without contact." : ".");
            return "OPEN: " + remark.about + ", most likely the " + remark.among[0] + ".";
        case Remark::Kind::nothing_arrives: return "NOTHING ARRIVES at " + remark.about + ".";
        case Remark::Kind::nothing_flows: return "NOTHING FLOWS through the run " + remark.about + ".";
        case Remark::Kind::overcharged: return "TOO MANY VOLTS at the " + remark.about + " while it is charged.";
        case Remark::Kind::not_charged: return "THE ALTERNATOR DOES NOT CHARGE.";
        case Remark::Kind::charger_awake: return "THE CHARGER DOES NOT SLEEP.";
        case Remark::Kind::charger_idle: return "THE CHARGER DOES NOTHING.";
        case Remark::Kind::low_battery: return "THE BATTERY IS LOW (" + remark.about + "): charge it first.";
        case Remark::Kind::other_voltage: return "THIS IS A 24 V VEHICLE.";
        case Remark::Kind::cannot_carry: {
            const auto [lost, most] = in_one_unit(*remark.found, *remark.limit);
            if (remark.gives_up)
                return upper(the_run(remark.about)) + " CANNOT CARRY: it drops " + lost + " under load.";
            return "TOO MUCH IS LOST in " + the_run(remark.about) + ": " + lost + "; at most " + most +
                   at_current(remark) + ".";
        }
        case Remark::Kind::beyond: return remark.explained ? "" : "OUT OF LIMITS: " + beyond_words(remark) + ".";
        case Remark::Kind::with_missing: return "SOMETHING FLOWS where all was noted as off.";
        case Remark::Kind::impossible: return "NO 12 V SYSTEM HAS " + show(*remark.found) + ".";
        case Remark::Kind::low_charging:
        case Remark::Kind::leads_swapped:
        case Remark::Kind::no_current:
        case Remark::Kind::not_understood: break;
    }
    return "";
}

/// Of all grave ones, each once.
std::string headlines(const Diagnosis& diagnosis) {
    std::vector<std::string> said;
    std::string line;
    const auto beyond = std::count_if(diagnosis.remarks.begin(), diagnosis.remarks.end(), [](const Remark& one) {
        return one.kind == Remark::Kind::beyond && !one.explained;
    });
    bool limit_said = false;
    for (const Remark& remark : diagnosis.remarks) {
        if (!remark.grave()) continue;
        std::string words = headline(remark);
        if (words.empty()) continue;
        // The worst of those beyond their limits stands for all.
        if (remark.kind == Remark::Kind::beyond) {
            if (limit_said) continue;
            limit_said = true;
            if (beyond > 1)
                words +=
                    " " + std::to_string(beyond - 1) +
                    (beyond == 2 ? " more reading is out of its limits." : " more readings are out of their limits.");
        }
        if (std::find(said.begin(), said.end(), words) != said.end()) continue;
        line += (line.empty() ? "" : " ") + words;
        said.push_back(std::move(words));
    }
    return line;
}

}  // namespace

std::string_view show(Remark::Kind kind) {
    switch (kind) {
        case Remark::Kind::poles_swapped: return "poles swapped";
        case Remark::Kind::open: return "open";
        case Remark::Kind::nothing_arrives: return "nothing arrives";
        case Remark::Kind::nothing_flows: return "nothing flows";
        case Remark::Kind::overcharged: return "overcharged";
        case Remark::Kind::not_charged: return "not charged";
        case Remark::Kind::charger_awake: return "charger awake";
        case Remark::Kind::charger_idle: return "charger idle";
        case Remark::Kind::low_battery: return "low battery";
        case Remark::Kind::other_voltage: return "other voltage";
        case Remark::Kind::cannot_carry: return "cannot carry";
        case Remark::Kind::beyond: return "beyond";
        case Remark::Kind::low_charging: return "low charging";
        case Remark::Kind::leads_swapped: return "leads swapped";
        case Remark::Kind::no_current: return "no current";
        case Remark::Kind::with_missing: return "with missing";
        case Remark::Kind::impossible: return "impossible";
        case Remark::Kind::not_understood: return "not understood";
    }
    return "";
}

std::string show(const Remark& remark) {
    const std::string number = "reading " + std::to_string(remark.reading + 1) + ": ";
    const std::string found = remark.found ? show(*remark.found) : "";
    const std::string blown =
        "; if a fuse has blown, find out why before a new one goes in: a short burns the next one too";
    switch (remark.kind) {
        case Remark::Kind::poles_swapped:
            return number + found + " at " + remark.about +
                   ": plus and minus are swapped there, or the meter's leads were; pull the fuse and switch nothing on "
                   "until that is right";
        case Remark::Kind::open:
            if (remark.among.size() == 1)
                return number + found + " and no current: there is no way through the " + remark.among[0] +
                       (remark.fuse ? blown : "; with the fuse out, take it apart and make it anew");
            return number + found + " and no current: " + remark.about + " is open, at " + places_of(remark) +
                   (remark.fuse ? blown : "");
        case Remark::Kind::nothing_flows:
            return number + "only " + found + " through the run " + remark.about +
                   " with its load on: does it run, or wait for its thermostat? If it should run, a fuse has blown, a "
                   "plug is open or there is a break";
        case Remark::Kind::overcharged:
            return number + found + " at the " + remark.about + " while it is charged: " +
                   (remark.about == "starter" ? "the alternator's regulator has failed; stop the engine"
                                              : "the charging profile is wrong for it; switch the charger off until it "
                                                "is set right");
        case Remark::Kind::not_charged:
            return number + "only " + found +
                   " at the starter battery while the engine runs: the alternator does not charge; belt, alternator or "
                   "regulator";
        case Remark::Kind::low_battery:
            return number + "only " + found + " at rest at the " + remark.about +
                   ": charge it first, a low battery spoils every other reading";
        case Remark::Kind::with_missing:
            return number + found +
                   " where nothing is on as it was noted: is with = missing beside it, or a load in it? "
                   "If not, something draws while it is switched off. What was read in that state is not used";
        case Remark::Kind::impossible:
            return number + found + " is more than any 12 V system has: it was read or noted wrongly and is not used";
        case Remark::Kind::leads_swapped:
            return number + "below zero, so the leads were the other way round; taken without its sign";
        case Remark::Kind::no_current:
            return number + "no current flows there with these things on, so it tells nothing of joints";
        case Remark::Kind::nothing_arrives:
            return number + "only " + found + " at " + remark.about +
                   ": a fuse that has blown, a plug that is open or a break before it; look along the way from the "
                   "battery for the place behind which the voltage is gone" +
                   (remark.fuse ? blown : "");
        case Remark::Kind::charger_idle: {
            std::string words = number + "the engine runs and " +
                                (remark.found ? "only " + found + " flows through the " + remark.about
                                              : "the voltages show no current in the " + remark.about) +
                                ": the charger does nothing. See whether its wake wire is live, whether its input "
                                "reaches the voltage at which it starts, and whether the battery is simply full";
            // Off load even a bad joint passes all volts; the charger gives up behind it.
            if (remark.limit)
                words +=
                    ". A bad joint shows only under load: hang a 55 W lamp on the charger's end of the feed. Between "
                    "the starter battery and that end at most " +
                    in_one_unit(*remark.limit, *remark.limit).first + " may then be lost" + at_current(remark) +
                    ". Or read the volts there while the charger tries to start";
            return words;
        }
        case Remark::Kind::other_voltage:
            return number + found + " at " + remark.about +
                   ": this is a 24 V vehicle. All that is planned here is for 12 V: connect nothing of it";
        case Remark::Kind::cannot_carry: {
            const auto [lost, most] = in_one_unit(*remark.found, *remark.limit);
            std::string words = number + the_run(remark.about) +
                                (remark.gives_up ? " cannot carry: it drops " : " drops ") + lost +
                                " under load; at most " + most + at_current(remark);
            if (remark.flows) {
                const Resistance loop = std::get<Voltage>(*remark.found) / *remark.flows;
                const Resistance planned = std::get<Voltage>(*remark.limit) / *remark.at;
                words += fmt::format(". With {:.1f} A that is {:.0f} mOhm out and back; at most {:.0f} mOhm",
                                     in_amperes(*remark.flows), in_milliohms(loop), in_milliohms(planned));
            } else {
                words += ". Clamp the cable and add the current: then its resistance is known";
            }
            return words;
        }
        case Remark::Kind::beyond: {
            const bool said = remark.explained && (remark.in_way ? remark.flows.has_value() : remark.source_known);
            return number + beyond_words(remark) + (said ? "" : ". " + after_beyond(remark));
        }
        case Remark::Kind::low_charging:
            return number + found +
                   " at the starter battery is low, but it charges: a warm regulator or many loads do that. Read it "
                   "again at a fast idle with lights and blower off";
        case Remark::Kind::charger_awake:
            return number + "the engine is off and " + found + " flows through the " + remark.about +
                   ": the charger does not sleep and empties the starter battery";
        case Remark::Kind::not_understood:
            return number + "cannot be used: nothing was read there, or its two leads are on circuits of two batteries";
    }
    return "";
}

namespace {

/// Without what is told by single readings.
std::string line_of_the_rest(const Diagnosis& diagnosis) {
    const std::string urgent =
        std::any_of(diagnosis.suspects.begin(), diagnosis.suspects.end(), melting) || one_melts(diagnosis.suspects)
            ? "STOP USING IT. "
            : "";
    switch (diagnosis.verdict) {
        case Verdict::too_little:
            return diagnosis.remarks.empty() ? "TOO LITTLE MEASURED to tell."
                                             : "See the remarks; nothing more can be told.";
        case Verdict::nothing_wrong:
            return std::any_of(diagnosis.remarks.begin(), diagnosis.remarks.end(),
                               [](const Remark& one) { return one.kind == Remark::Kind::not_understood; })
                       ? "NOTHING WRONG in what could be used of it; see the remarks."
                       : "NOTHING WRONG in what was measured.";
        case Verdict::plain: return "";
        case Verdict::found: return urgent + "FOUND: " + show(diagnosis.suspects.front()) + ".";
        case Verdict::several: {
            const auto found = std::find_if(diagnosis.suspects.begin(), diagnosis.suspects.end(),
                                            [](const Suspicion& one) { return one.accused; });
            const auto open = std::find_if(diagnosis.suspects.begin(), diagnosis.suspects.end(),
                                           [](const Suspicion& one) { return !one.accused; });
            // A reading that was noted wrongly is no place.
            const auto slip = std::find_if(open, diagnosis.suspects.end(), [](const Suspicion& one) {
                return !one.accused && one.odds > about_as_likely && one.kind == Suspicion::Kind::slip;
            });
            const auto alike = std::count_if(open, diagnosis.suspects.end(), [](const Suspicion& one) {
                return !one.accused && one.odds > about_as_likely && one.kind != Suspicion::Kind::slip;
            });
            std::string line = found == diagnosis.suspects.end()
                                   ? urgent + "SOMETHING IS WRONG, most likely "
                                   : urgent + "FOUND: " + show(*found) + ". SOMETHING MORE IS WRONG, most likely ";
            if (alike <= 1) return line + (open == diagnosis.suspects.end() ? "elsewhere." : show(*open) + ".");
            line += "in one of " + std::to_string(alike) + " places";
            line += diagnosis.next ? "; one more reading tells them apart." : ".";
            return line + (slip == diagnosis.suspects.end()
                               ? ""
                               : " A reading may be noted wrongly: number " + std::to_string(*slip->reading + 1) + ".");
        }
        case Verdict::contradiction:
            if (!diagnosis.suspects.empty() && diagnosis.suspects.front().accused &&
                diagnosis.suspects.front().kind != Suspicion::Kind::slip)
                return urgent + "FOUND: " + show(diagnosis.suspects.front()) +
                       ". Beside that the readings contradict each other.";
            return "THE READINGS CONTRADICT each other.";
    }
    return "";
}

}  // namespace

std::string diagnosis_line(const Diagnosis& diagnosis) {
    const std::string first = headlines(diagnosis), rest = line_of_the_rest(diagnosis);
    return first + (first.empty() || rest.empty() ? "" : " ") + rest;
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
            if (melting(suspicion))
                page += wrap(safe("Stop using it and pull its fuse now: this much heat melts it."), style,
                             padded("", 5), 5);
            if (remedy_of(suspicion) == remedy) continue;
            remedy = remedy_of(suspicion);
            page += wrap(safe(remedy), style, padded("", 5), 5);
        }
    };
    const auto remarks = [&](bool grave, std::string_view heading) {
        bool any = false;
        for (const Remark& remark : diagnosis.remarks) {
            if (remark.grave() != grave) continue;
            if (!any) page += title(heading, style);
            any = true;
            page += wrap(safe(show(remark) + "."), style, "  ", 4);
        }
    };
    remarks(true, "What single readings tell");
    list([](const Suspicion& one) { return one.accused; }, "What is wrong");
    list([](const Suspicion& one) { return !one.accused; },
         diagnosis.verdict == Verdict::found ? "Less likely" : "What explains it, the likeliest first");
    if (diagnosis.next) {
        const ReadingWords words = words_of(*diagnosis.next);
        const bool open = std::any_of(diagnosis.remarks.begin(), diagnosis.remarks.end(), [](const Remark& one) {
            return one.kind <= Remark::Kind::nothing_flows && one.kind != Remark::Kind::poles_swapped;
        });
        const std::string why =
            diagnosis.suspects.empty() && !open ? "With the current known, a drop tells how much resistance there is."
            : !open                             ? "It tells the first of these apart."
            : diagnosis.next->across.size() == 1 && diagnosis.next->proves != Proves::joint
                ? "With its voltage there the way to it is whole; without, the break lies before it."
                : "If nearly the whole voltage stands there, the break lies between the two leads; if next to none, it "
                  "does not.";
        page += title("Measure next", style);
        page += wrap(safe(words.where + (words.with.empty() ? "" : "; " + words.with) + ". " + why +
                          " As it should be: " + words.expected + "."),
                     style, "  ", 2);
    }
    remarks(false, "Remarks");
    if (!diagnosis.compared.empty()) {
        page += title("The readings", style);
        page += "  " + padded("reading", 9) + padded("shown", 12) + padded("as it should be", 25) + "explained\n";
        for (const Compared& one : diagnosis.compared)
            page +=
                safe("  " + padded(std::to_string(one.number + 1), 9) +
                     padded(volts_or_amperes(one.shown, one.clamp), 12) +
                     padded(with_tolerance(one.expected, one.tolerance, one.clamp) + (one.as_it_should() ? "" : "  *"),
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
