#include "voltwright/report/sheet.hpp"

#include "voltwright/messages/plan.hpp"
#include "voltwright/report/energy_text.hpp"
#include "voltwright/report/markup.hpp"
#include "voltwright/report/phrases.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/sheet_markup.hpp"
#include "voltwright/report/sheet_sections.hpp"
#include "voltwright/report/sheet_style.hpp"
#include "voltwright/report/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

using sheet::check, sheet::paragraph, sheet::words;

constexpr std::string_view beginning_of_page =
    "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
constexpr std::string_view generator = "<meta name=\"generator\" content=\"voltwright ";

/// More rows than these may go over to the next sheet of paper.
constexpr std::size_t most_runs_kept_together = 10;

std::string verdict(const Plan& plan) {
    std::string html =
        fmt::format("<p class=\"verdict{}\">{}</p>\n", plan.holds() ? "" : " fails", words(verdict_line(plan)));
    const auto stop = std::find_if(plan.findings.begin(), plan.findings.end(),
                                   [](const Finding& finding) { return finding.level == Level::stop; });
    if (stop != plan.findings.end())
        html += "<div class=\"first\">\n" + paragraph(show(*stop)) + paragraph(remedy_in_words(*stop)) + "</div>\n";
    return html;
}

std::string settings(const Plan& plan) {
    std::string html;
    for (const SettingWords& setting : settings_in_words(plan.energy))
        html += check("<b>" + words(capitalised(setting.what)) + ":</b> " + words(setting.value + "; " + setting.why) +
                      ".");
    return html.empty() ? html : "<ul class=\"checks\">\n" + html + "</ul>\n";
}

std::string energy(const Plan& plan) {
    std::string pairs, sentences;
    for (const EnergyWords& line : energy_in_words(plan)) {
        if (line.what.empty())
            sentences += paragraph(capitalised(line.words) + ".");
        else
            pairs += "<dt>" + words(capitalised(line.what)) + "</dt><dd>" + words(capitalised(line.words)) + ".</dd>\n";
    }
    return (pairs.empty() ? "" : "<dl>\n" + pairs + "</dl>\n") + sentences;
}

std::string findings(const Plan& plan) {
    constexpr std::pair<Level, std::string_view> levels[] = {
        {Level::stop, "Stop"}, {Level::warn, "Warning"}, {Level::note, "Note"}};
    std::string items;
    for (const auto& [level, name] : levels)
        for (const Finding& finding : plan.findings)
            if (finding.level == level)
                items += fmt::format("<li><span class=\"level {}\">{}</span>{} {}</li>\n", show(level), name,
                                     words(show(finding)), words(remedy_in_words(finding)));
    return items.empty() ? items : "<ol>\n" + items + "</ol>\n";
}

std::vector<std::string> assumed(const Plan& plan) {
    std::vector<std::string> lines;
    for (const Assumption& one : plan.assumptions) lines.push_back(show(one));
    return lines;
}

}  // namespace

std::string sheet_html(const Plan& plan, const System& system, const std::vector<ReadingStage>& readings,
                       const SheetParts& parts, const SheetNote& note) {
    using namespace sheet;
    const std::string title = plan.title.empty() ? "The second battery, on one sheet" : plan.title;
    std::string html(beginning_of_page);
    html += std::string(generator) + escaped(note.version) + "\">\n";
    html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    html +=
        "<title>" + escaped(cut(title, 120)) + "</title>\n<style>" + std::string(sheet_style) + "</style>\n</head>\n";
    html += "<body>\n<header>\n<h1><bdi>" + escaped(title) + "</bdi></h1>\n</header>\n<main>\n";
    html += verdict(plan);
    html += section("the-wiring", "Wiring", wiring(plan, system));
    html += side_by_side(section("state-of-charge", "State of charge over the trip", charge_chart(plan), true),
                         section("along-the-feed", "Voltage along the feed", feed_chart(plan), true));
    html += section("cables", "Cables and fuses", cables(plan), plan.runs.size() <= most_runs_kept_together);
    html += side_by_side(section("settings", "Set these", settings(plan), true),
                         section("night", "The night in figures", energy(plan), true));
    html += section("parts", "Parts", parts_table(parts));
    html += section("readings", "Readings", readings_tables(readings));
    html += section("checks", "Checks that prevent fires", checks(plan, system));
    html += section("findings", "Findings", findings(plan));
    html += section("assumed", "Assumed", list_of(assumed(plan)));
    const std::vector<std::string> not_judged = each_shown(plan.not_judged);
    html += side_by_side(section("not-judged", "Not judged", list_of(not_judged), true),
                         section("cautions", "Before you begin", list_of(caution_words()), true));
    html += section("sources", "Sources", list_of(sources(plan), "sources"));
    html += "</main>\n<footer>\n<p>Made by voltwright " + escaped(note.version);
    if (!note.profile.empty()) html += " from <bdi>" + escaped(note.profile) + "</bdi>";
    html += ". Local codes and licensed people decide; this sheet does not.</p>\n</footer>\n</body>\n</html>\n";
    return html;
}

bool is_sheet(std::string_view beginning) {
    const std::string_view first = beginning.substr(0, 512);
    return first.starts_with(beginning_of_page) && first.find(generator) != std::string_view::npos;
}

}  // namespace voltwright
