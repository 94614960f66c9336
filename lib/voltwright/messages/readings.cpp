#include "voltwright/messages/readings.hpp"

#include "voltwright/messages/meter_figures.hpp"

#include <algorithm>
#include <string_view>

namespace voltwright {

namespace {

std::string joined_names(const std::vector<std::string>& names) {
    std::string words;
    for (std::size_t i = 0; i < names.size(); ++i)
        words += (i == 0 ? "" : i + 1 == names.size() ? " and " : ", ") + names[i];
    return words;
}

std::string where_words(const PlannedReading& reading) {
    if (!reading.through.empty()) return "clamp around one cable of the run " + reading.through;
    // Against the other conductor, and against the body that it may chafe on.
    if (reading.proves == Proves::isolation)
        return "red lead on " + reading.across[0] + ", black on " + reading.across[1] +
               " and then on bare metal of the body";
    if (reading.across.size() == 2) return "red lead on " + reading.across[0] + ", black on " + reading.across[1];
    if (reading.proves == Proves::joint || reading.proves == Proves::closes) return "across the " + reading.across[0];
    return "red lead on " + reading.across[0] + " +, black on " + reading.across[0] + " -";
}

std::string loads_words(const PlannedReading& reading) {
    if (reading.in_doubt) return reading.with.empty() ? "" : joined_names(reading.with) + " on";
    if (!reading.with.empty()) return joined_names(reading.with) + " on, everything else off";
    return reading.proves == Proves::off ? "everything on this run switched off" : "";
}

std::string state_words(const PlannedReading& reading) {
    switch (reading.proves) {
        case Proves::isolation:
            return "meter on ohms, its highest range; every fuse out, nothing connected at either end";
        case Proves::dead: return "battery connected, the fuse of the run " + reading.run + " out";
        case Proves::polarity: return "its fuse in, nothing connected at the far end yet";
        case Proves::rest: return "at rest for some hours, nothing on";
        case Proves::wake: return "engine off for five minutes";
        case Proves::opens: return "engine off; after a drive it may take an hour";
        case Proves::closes: return "both its main terminals, engine running";
        default: return loads_words(reading);
    }
}

std::string expected_words(const PlannedReading& reading) {
    const auto say = [&](const std::optional<Measure>& measure) { return figure(*measure, reading.range); };
    switch (reading.proves) {
        case Proves::isolation: return "no way through (OL)";
        case Proves::dead:
        case Proves::wake:
        case Proves::opens:
        case Proves::off: return "nothing: under " + say(reading.most);
        case Proves::polarity: return "plus " + say(reading.least) + " or more, no minus sign";
        case Proves::closes: return "at most " + say(reading.most);
        case Proves::output:
        case Proves::linked: return say(reading.least) + " to " + say(reading.most) + ", rising";
        case Proves::charging:
            return "about " + say(reading.expected) + "; " + say(reading.least) + " to " + say(reading.most);
        case Proves::rest: return "about " + say(reading.expected) + " when full; at least " + say(reading.least);
        case Proves::input:
        case Proves::load: return "about " + say(reading.expected) + ", at least " + say(reading.least);
        case Proves::plus_side:
        case Proves::minus_side:
        case Proves::joint:
            return say(reading.expected) + ", at most " + say(reading.most) +
                   (reading.at && !reading.in_doubt ? ", at " + figure(*reading.at, MeterRange::amperes) : "");
        case Proves::current: break;
    }
    return say(reading.expected) + " ± " + say(reading.tolerance);
}

/// What it means when a reading is not as it should be.
std::string_view meaning_of(Proves proves) {
    switch (proves) {
        case Proves::isolation: return "there is a way round: find the chafed or pinched place before any fuse goes in";
        case Proves::dead: return "the fuse is not where it must be, or another way feeds this end: find it first";
        case Proves::polarity:
            return "a minus sign: the poles are swapped, change them now; nothing: a break or a fuse out";
        case Proves::rest: return "charge it before going on: a low battery spoils every other reading";
        case Proves::wake:
            return "the charger does not sleep and empties the starter battery: look at its wake setting";
        case Proves::opens: return "the relay does not open, and the loads empty the starter battery too";
        case Proves::closes: return "a volt or more: it is open; less: its contacts, take another";
        case Proves::linked: return "lower and not rising: the relay is open, or a fuse has blown";
        case Proves::charging:
            return "lower: belt, alternator or regulator; higher: the regulator. Nothing behind it can be judged until "
                   "that is right";
        case Proves::input: return "too much is lost in the feed";
        case Proves::current: return "note it: the drops that follow go up and down with it";
        case Proves::plus_side: return "more: a joint of the way out";
        case Proves::minus_side: return "more: a joint of the way back";
        case Proves::joint: return "more: this is the joint, make it again";
        case Proves::output:
            return "lower and not rising: the charger gives nothing; higher: its charging profile is wrong";
        case Proves::load: return "too much is lost on the way";
        case Proves::off: return "it draws while off, all night: ask whether it may";
    }
    return "";
}

/// And where to go on.
std::string way_on_words(const PlannedReading& reading) {
    if (reading.next.empty()) return "";
    return "measure " + reading.next + (reading.proves == Proves::joint ? " if it is right" : "");
}

std::string in_one_sentence(std::string_view meaning, const std::string& way_on) {
    return std::string(meaning) + (meaning.empty() || way_on.empty() ? "" : "; ") + way_on;
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

/// Of a vehicle with a relay in the charger's place.
std::string_view about_with_relay(Stage stage) {
    switch (stage) {
        case Stage::before_connecting:
            return "cables laid, loads and relay not connected yet; the fuses go in one at a time, as the readings say";
        case Stage::engine_off: return "everything connected; wait until the relay has opened";
        case Stage::idling: break;
        case Stage::driving: return "the house battery not full; a helper reads, nobody reads while driving";
    }
    return "";
}

std::string_view about(Stage stage) {
    switch (stage) {
        case Stage::before_connecting:
            return "cables laid, loads and charger not connected yet; the fuses go in one at a time, as the readings "
                   "say";
        case Stage::engine_off:
            return "everything connected, and nothing charges: a charger has gone to sleep, a panel is covered";
        case Stage::idling: return "lights and blower on: the least that the alternator gives";
        case Stage::driving:
            return "the house battery not full, so that the charger gives all it can; a helper reads, nobody reads "
                   "while driving";
    }
    return "";
}

/// Those that are always taken, then those across joints that may be in doubt.
ReadingStage stage_in_words(const TestPlan& plan, Stage stage) {
    ReadingStage answer{.title = std::string(title_of(stage)),
                        .about = std::string(plan.relay ? about_with_relay(stage) : about(stage)),
                        .readings = {}};
    std::vector<Proves> said;
    for (const bool in_doubt : {false, true})
        for (const PlannedReading& reading : plan.readings) {
            if (reading.stage != stage || reading.in_doubt != in_doubt) continue;
            ReadingWords words = words_of(reading);
            if (std::find(said.begin(), said.end(), reading.proves) != said.end())
                words.otherwise = way_on_words(reading);
            else
                said.push_back(reading.proves);
            answer.readings.push_back(std::move(words));
        }
    return answer;
}

}  // namespace

ReadingWords words_of(const PlannedReading& reading) {
    return {.id = reading.id,
            .where = where_words(reading),
            .with = state_words(reading),
            .expected = expected_words(reading),
            .otherwise = in_one_sentence(meaning_of(reading.proves), way_on_words(reading)),
            .in_doubt = reading.in_doubt};
}

std::vector<ReadingStage> readings_in_words(const TestPlan& plan) {
    std::vector<ReadingStage> stages;
    for (const Stage stage : {Stage::before_connecting, Stage::engine_off, Stage::idling, Stage::driving})
        if (ReadingStage one = stage_in_words(plan, stage); !one.readings.empty()) stages.push_back(std::move(one));
    return stages;
}

std::string words_of(const NotMeasured& left_out) {
    switch (left_out.reason) {
        case NotMeasured::Reason::no_size_fits: return "the run to " + left_out.subject + ": no size fits it";
        case NotMeasured::Reason::by_the_sun:
            return "the run to " + left_out.subject + ": it carries what the sun gives";
        case NotMeasured::Reason::nothing_draws:
            return "the run to " + left_out.subject + ": nothing in the profile draws through it";
        case NotMeasured::Reason::no_run: return left_out.subject + ": no run leads to it";
    }
    return "";
}

Faults refused_behind_relay(const std::vector<std::size_t>& readings) {
    Faults faults;
    for (const std::size_t i : readings)
        faults.push_back({"reading[" + std::to_string(i) + "].engine",
                          "behind a relay no reading with the engine running is judged yet: what flows follows from "
                          "the state of the battery",
                          "hold it against voltwright readings, and take it out here"});
    return faults;
}

}  // namespace voltwright
