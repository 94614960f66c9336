#include "voltwright/report/readings_text.hpp"

#include "voltwright/report/words.hpp"

#include <algorithm>

namespace voltwright {

std::string readings_line(const TestPlan& plan) {
    const auto doubtful = static_cast<std::size_t>(std::count_if(
        plan.readings.begin(), plan.readings.end(), [](const PlannedReading& reading) { return reading.in_doubt; }));
    return counted(plan.readings.size() - doubtful, "reading", "readings") + ", and " + std::to_string(doubtful) +
           " more across joints where one of them is not as it should be.";
}

namespace {

std::string reading_paragraph(const ReadingWords& reading, const Style& style) {
    const std::size_t indent = 7;
    const auto line = [&](std::string_view words, std::string_view first) {
        return wrap(printable(spelled(words, style), style), style, first, indent);
    };
    return line(reading.where + (reading.with.empty() ? "" : "; " + reading.with), padded("  " + reading.id, indent)) +
           line(reading.expected, padded("", indent)) +
           (reading.otherwise.empty() ? "" : line("otherwise " + reading.otherwise, padded("", indent)));
}

std::string stage_section(const ReadingStage& stage, const Style& style) {
    std::string section = heading(stage.title, style) + wrap(stage.about, style, "  ", 2);
    bool doubtful = false;
    for (const ReadingWords& reading : stage.readings) {
        if (reading.in_doubt && !doubtful)
            section +=
                wrap("Only where a drop is too large: one lead on the metal before the joint, one on the metal behind.",
                     style, "  ", 2);
        doubtful = doubtful || reading.in_doubt;
        section += reading_paragraph(reading, style);
    }
    return section;
}

}  // namespace

std::string readings_page(const TestPlan& plan, const Style& style) {
    std::string page = bold(headline(readings_line(plan), style), style);
    page += wrap(
        "Joints and cables are measured as volts while current flows: never as ohms, which no hand meter reads so "
        "small, and never without a load, when even a bad joint passes the full voltage. A whole fuse proves nothing: "
        "none blows for a bad joint or return. What is expected is for "
        "cables between 5 and 70 degC, within a tenth of the length that the profile gives.",
        style);
    for (const ReadingStage& stage : readings_in_words(plan)) page += stage_section(stage, style);
    if (!plan.not_measured.empty()) {
        page += heading("Not measured", style);
        for (const NotMeasured& one : plan.not_measured) page += wrap(printable(words_of(one), style), style, "  ", 4);
    }
    page += heading("What was shown", style);
    page += wrap(
        plan.relay
            ? "Write what was read with the engine off into the profile as [[reading]], and voltwright diagnose says "
              "which joint it is. Such as across = [\"battery +\", \"fridge +\"], with = \"fridge\", voltage = "
              "\"0.15 V\"."
            : "Write it into the profile as [[reading]], and voltwright diagnose says which joint it is. Such as "
              "across = "
              "[\"starter +\", \"charger +\"], engine = \"driving\", voltage = \"0.31 V\"; and with it through = "
              "\"feed\", "
              "engine "
              "= \"driving\", current = \"27 A\". Beside what was read while the charger was switched off stands "
              "charger = "
              "\"off\".",
        style, "  ", 2);
    page += heading("Take care", style);
    page += wrap(
        "Rings and watches off, one hand where you can, leads away from fan and belts, gear in neutral and the brake "
        "on. Never a "
        "meter set to amperes across a battery. Stop at smoke, smell or heat. Local codes and a licensed person "
        "decide.",
        style, "  ", 2);
    return page;
}

}  // namespace voltwright
