#include "voltwright/report/readings_text.hpp"

#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace voltwright {

namespace {

std::string title(std::string_view words, const Style& style) { return "\n" + bold(words, style) + "\n"; }

std::string listed(const std::vector<std::string>& names, std::string_view last) {
    std::string words;
    for (std::size_t i = 0; i < names.size(); ++i)
        words += (i == 0 ? "" : i + 1 == names.size() ? std::string(last) : std::string(", ")) + names[i];
    return words;
}

/// As a meter shows it: two decimals of a volt, whole millivolts where it is on that range.
std::string figure(const Measure& measure, MeterRange range) {
    if (const auto* voltage = std::get_if<Voltage>(&measure)) {
        if (range != MeterRange::millivolts) return fmt::format("{:.2f} V", in_volts(*voltage));
        const double count = in_millivolts(*voltage);
        return fmt::format("{:.{}f} mV", count, count < 9.95 ? 1 : 0);
    }
    if (const auto* current = std::get_if<Current>(&measure)) {
        const double count = in_amperes(*current);
        return fmt::format("{:.{}f} A", count, count < 9.95 ? 1 : 0);
    }
    return show(measure);
}

std::string where_words(const PlannedReading& reading) {
    if (!reading.through.empty()) return "clamp around one cable of the run " + reading.through;
    // Against the other conductor, and against the body that it may chafe on.
    if (reading.proves == Proves::isolation)
        return "red lead on " + reading.across[0] + ", black on " + reading.across[1] +
               " and then on bare metal of the body";
    if (reading.across.size() == 2) return "red lead on " + reading.across[0] + ", black on " + reading.across[1];
    if (reading.proves == Proves::joint) return "across the " + reading.across[0];
    return "red lead on " + reading.across[0] + " +, black on " + reading.across[0] + " -";
}

std::string state_words(const PlannedReading& reading) {
    switch (reading.proves) {
        case Proves::isolation:
            return "meter on ohms, its highest range; every fuse out, nothing connected at either end";
        case Proves::dead: return "battery connected, the fuse of the run " + reading.run + " out";
        case Proves::polarity: return "its fuse in, nothing connected at the far end yet";
        case Proves::rest: return "at rest for some hours, nothing on";
        case Proves::wake: return "engine off for five minutes";
        default: break;
    }
    if (reading.in_doubt) return reading.with.empty() ? "" : listed(reading.with, " and ") + " on";
    if (!reading.with.empty()) return listed(reading.with, " and ") + " on, everything else off";
    if (reading.proves == Proves::off) return "everything on this run switched off";
    return "";
}

std::string expected_words(const PlannedReading& reading) {
    if (reading.proves == Proves::isolation) return "no way through (OL)";
    const auto say = [&](const Measure& measure) { return figure(measure, reading.range); };
    switch (reading.proves) {
        case Proves::dead:
        case Proves::wake:
        case Proves::off: return "nothing: under " + say(*reading.most);
        case Proves::polarity: return "plus " + say(*reading.least) + " or more, no minus sign";
        case Proves::output: return say(*reading.least) + " to " + say(*reading.most) + ", rising";
        case Proves::charging:
            return "about " + say(*reading.expected) + "; " + say(*reading.least) + " to " + say(*reading.most);
        case Proves::rest: return "about " + say(*reading.expected) + " when full; at least " + say(*reading.least);
        case Proves::input:
        case Proves::load: return "about " + say(*reading.expected) + ", at least " + say(*reading.least);
        case Proves::plus_side:
        case Proves::minus_side:
        case Proves::joint:
            return say(*reading.expected) + ", at most " + say(*reading.most) +
                   (reading.at && !reading.in_doubt ? ", at " + figure(*reading.at, MeterRange::amperes) : "");
        default: break;
    }
    return say(*reading.expected) + " ± " + say(*reading.tolerance);
}

std::string otherwise_words(const PlannedReading& reading) {
    const std::string then = reading.next.empty() ? "" : "; measure " + reading.next;
    switch (reading.proves) {
        case Proves::isolation: return "there is a way round: find the chafed or pinched place before any fuse goes in";
        case Proves::dead: return "the fuse is not where it must be, or another way feeds this end: find it first";
        case Proves::polarity:
            return "a minus sign: the poles are swapped, change them now; nothing: a break or a fuse out";
        case Proves::rest: return "charge it before going on: a low battery spoils every other reading";
        case Proves::wake:
            return "the charger does not sleep and empties the starter battery: look at its wake setting";
        case Proves::charging:
            return "lower: belt, alternator or regulator; higher: the regulator. Nothing behind it can be judged until "
                   "that is right";
        case Proves::input: return "too much is lost in the feed" + then;
        case Proves::current: return "note it: the drops that follow go up and down with it";
        case Proves::plus_side: return "more: a joint of the way out" + then;
        case Proves::minus_side: return "more: a joint of the way back" + then;
        case Proves::joint:
            return std::string("more: this is the joint, make it again") +
                   (reading.next.empty() ? "" : "; measure " + reading.next + " if it is right");
        case Proves::output:
            return "lower and not rising: the charger gives nothing; higher: its charging profile is wrong";
        case Proves::load: return "too much is lost on the way" + then;
        case Proves::off: return "it draws while off, all night: ask whether it may";
    }
    return "";
}

std::string_view title_of(Stage stage) {
    switch (stage) {
        case Stage::before_connecting: return "Before anything is connected";
        case Stage::engine_off: return "Engine off";
        case Stage::idling: return "Engine idling";
        case Stage::driving: return "Driving, or the engine at a fast idle";
    }
    return "";
}

std::string_view about(Stage stage) {
    switch (stage) {
        case Stage::before_connecting:
            return "cables laid, loads and charger not connected yet; the fuses go in one at a time, as the readings "
                   "say";
        case Stage::engine_off: return "everything connected; wait until the charger has gone to sleep";
        case Stage::idling: return "lights and blower on: the least that the alternator gives";
        case Stage::driving:
            return "the house battery not full, so that the charger gives all it can; a helper reads, nobody reads "
                   "while driving";
    }
    return "";
}

}  // namespace

ReadingWords words_of(const PlannedReading& reading) {
    return {.id = reading.id,
            .where = where_words(reading),
            .with = state_words(reading),
            .expected = expected_words(reading),
            .otherwise = otherwise_words(reading),
            .in_doubt = reading.in_doubt};
}

std::vector<ReadingStage> readings_in_words(const TestPlan& plan) {
    std::vector<ReadingStage> stages;
    for (const Stage stage : {Stage::before_connecting, Stage::engine_off, Stage::idling, Stage::driving}) {
        ReadingStage one{.title = std::string(title_of(stage)), .about = std::string(about(stage)), .readings = {}};
        // What it means when it is not so is said once a stage; after that, where to go on.
        std::vector<std::string> said;
        for (const bool in_doubt : {false, true})
            for (const PlannedReading& reading : plan.readings) {
                if (reading.stage != stage || reading.in_doubt != in_doubt) continue;
                ReadingWords words = words_of(reading);
                const std::size_t go_on = words.otherwise.rfind("; measure ");
                const std::string meaning = words.otherwise.substr(0, go_on);
                if (std::find(said.begin(), said.end(), meaning) != said.end())
                    words.otherwise = go_on == std::string::npos ? "" : words.otherwise.substr(go_on + 2);
                else
                    said.push_back(meaning);
                one.readings.push_back(std::move(words));
            }
        if (!one.readings.empty()) stages.push_back(std::move(one));
    }
    return stages;
}

std::string readings_line(const TestPlan& plan) {
    const auto doubtful = static_cast<std::size_t>(std::count_if(
        plan.readings.begin(), plan.readings.end(), [](const PlannedReading& reading) { return reading.in_doubt; }));
    return counted(plan.readings.size() - doubtful, "reading", "readings") + ", and " + std::to_string(doubtful) +
           " more across joints where one of them is not as it should be.";
}

std::string readings_page(const TestPlan& plan, const Style& style) {
    std::string page = bold(headline(readings_line(plan), style), style);
    page += wrap(
        "Joints and cables are measured as volts while current flows: never as ohms, which no hand meter reads so "
        "small, and never without a load, when even a bad joint passes the full voltage. What is expected is for "
        "cables between 5 and 70 degC, within a tenth of the length that the profile gives.",
        style);
    const auto put = [&](const ReadingWords& reading) {
        const std::size_t indent = 7;
        const auto line = [&](std::string_view words, std::string_view first) {
            page += wrap(printable(spelled(words, style), style), style, first, indent);
        };
        line(reading.where + (reading.with.empty() ? "" : "; " + reading.with), padded("  " + reading.id, indent));
        line(reading.expected, padded("", indent));
        if (!reading.otherwise.empty()) line("otherwise " + reading.otherwise, padded("", indent));
    };
    for (const ReadingStage& stage : readings_in_words(plan)) {
        page += title(stage.title, style);
        page += wrap(stage.about, style, "  ", 2);
        bool doubtful = false;
        for (const ReadingWords& reading : stage.readings) {
            if (reading.in_doubt && !doubtful)
                page += wrap(
                    "Only where a drop is too large: one lead on the metal before the joint, one on the metal behind.",
                    style, "  ", 2);
            doubtful = doubtful || reading.in_doubt;
            put(reading);
        }
    }
    if (!plan.not_measured.empty()) {
        page += title("Not measured", style);
        for (const std::string& words : plan.not_measured) page += wrap(printable(words, style), style, "  ", 4);
    }
    page += title("What was shown", style);
    page += wrap(
        "Write it into the profile as [[reading]], and voltwright diagnose says which joint it is. Such as across = "
        "[\"starter +\", \"charger +\"], engine = \"driving\", voltage = \"0.31 V\"; and with it through = \"feed\", "
        "engine "
        "= \"driving\", current = \"27 A\". Beside what was read while the charger was switched off stands charger = "
        "\"off\".",
        style, "  ", 2);
    page += title("Take care", style);
    page += wrap(
        "Rings and watches off, one hand where you can, leads away from fan and belts, gear in neutral and the brake "
        "on. Never a "
        "meter set to amperes across a battery. Stop at smoke, smell or heat. Local codes and a licensed person "
        "decide.",
        style, "  ", 2);
    return page;
}

}  // namespace voltwright
