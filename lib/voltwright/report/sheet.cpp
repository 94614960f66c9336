#include "voltwright/report/sheet.hpp"

#include "voltwright/planning/topics.hpp"
#include "voltwright/report/chart.hpp"
#include "voltwright/report/diagram.hpp"
#include "voltwright/report/markup.hpp"
#include "voltwright/report/night_text.hpp"
#include "voltwright/report/part_words.hpp"
#include "voltwright/report/plan_text.hpp"
#include "voltwright/report/sheet_style.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/units/show.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

constexpr std::string_view beginning_of_page =
    "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
constexpr std::string_view generator = "<meta name=\"generator\" content=\"voltwright ";

/// A text of the plan's, safe and with its signs.
std::string words(std::string_view text) { return escaped(in_signs(text)); }

std::string paragraph(std::string_view text) { return "<p>" + words(text) + "</p>\n"; }

/// A section with its heading; nothing around nothing.
std::string section(std::string_view id, std::string_view heading, const std::string& body, bool whole = false) {
    if (body.empty()) return {};
    return fmt::format("<section{3} aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n{2}</section>\n", id,
                       words(heading), body, whole ? " class=\"whole\"" : "");
}

/// Two short sections that stand side by side on paper.
std::string side_by_side(const std::string& one, const std::string& other) {
    return one.empty() || other.empty() ? one + other : "<div class=\"pair\">\n" + one + other + "</div>\n";
}

/// More rows than these may go over to the next sheet of paper.
constexpr std::size_t most_runs_kept_together = 10;

std::string sentence(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(text[0] >= 'a' && text[0] <= 'z' ? text[0] - 'a' + 'A' : text[0]);
    return text;
}

/// A box to tick that works on a phone as well, and its words.
std::string check(const std::string& safe_words) {
    return "<li><label><input type=\"checkbox\">" + safe_words + "</label></li>\n";
}

std::string verdict(const Plan& plan) {
    std::string html =
        fmt::format("<p class=\"verdict{}\">{}</p>\n", plan.holds() ? "" : " fails", words(verdict_line(plan)));
    const auto stop = std::find_if(plan.findings.begin(), plan.findings.end(),
                                   [](const Finding& finding) { return finding.level == Level::stop; });
    if (stop != plan.findings.end())
        html += "<div class=\"first\">\n" + paragraph(show(*stop)) + paragraph(stop->remedy) + "</div>\n";
    return html;
}

std::string wiring(const Plan& plan, const System& system) {
    std::string html;
    for (const Room room : {Room::page, Room::phone}) {
        const bool page = room == Room::page;
        const std::vector<Drawing> drawings = wiring_diagram(plan, system, room, page ? "wiring" : "wiring-phone");
        for (std::size_t i = 0; i < drawings.size(); ++i) {
            const std::string title = drawings.size() == 1 ? "Wiring on one line"
                                                           : "Wiring on one line, part " + std::to_string(i + 1) +
                                                                 " of " + std::to_string(drawings.size());
            html +=
                "<figure class=\"" + std::string(page ? "page" : "phone") + "\">\n" +
                drawings[i].svg("wiring", title, i == 0 ? wiring_in_words(plan) : "Continued from the part before.") +
                "</figure>\n";
        }
    }
    return html +
           "<p class=\"soft\">One line stands for a cable out and its return, which is as thick unless another size is "
           "given. The small box on a line is a fuse, at that end of the cable. Lengths are one way.</p>\n";
}

/// The chart for each room with the words below it.
template <class Make>
std::string chart(const Plan& plan, Make make, const std::string& name, std::string_view title) {
    std::string html;
    std::string says;
    for (const Room room : {Room::page, Room::phone}) {
        const bool page = room == Room::page;
        const std::optional<Chart> drawn = make(plan, room, page ? name : name + "-phone");
        if (!drawn) return {};
        html += "<div class=\"" + std::string(page ? "page wide" : "phone small") + "\">\n" +
                drawn->drawing.svg("chart", title, in_signs(drawn->words)) + "</div>\n";
        says = drawn->words;
    }
    return "<figure>\n" + html + "<figcaption>" + words(says) + "</figcaption>\n</figure>\n";
}

std::string cables(const Plan& plan) {
    std::string rows;
    for (const RunPlan& run : plan.runs) {
        const SystemRun& task = run.task;
        const CableRun& cable = task.run;
        const Candidate* taken = run.taken();
        std::string head = "<b>" + words(*cable.name) + "</b>";
        head += "<br>" + words(place_in_words(task.from) + " to " + place_in_words(task.to) + ", " +
                               show(static_cast<const Length&>(cable.length)));
        if (task.assumed) head += "<br><b>assumed: measure it</b>";
        std::string size = size_words(run);
        size = "<b>" + words(size) + "</b>";
        if (cable.body)
            size += "<br>back by the body";
        else if (taken && cable.return_size)
            size += "<br>" + words(show_cable(*cable.return_size, cable.insulation)) + " back";
        if (run.choice.given) size += "<br>" + origin_of_cable(run);
        std::string fuses;
        if (taken)
            for (const FuseFit& fuse : taken->fuses)
                fuses += (fuses.empty() ? "" : "<br>") + ("<b>" + words(show(fuse.rating) + " " + fuse.family)) +
                         "</b> at the " + words(place_in_words(fuse.at)) + (fuse.given ? "<br>" + origin_of(fuse) : "");
        if (fuses.empty())
            fuses = !run.sized() ? "not judged" : run.to_lay() ? "<b>" + no_fuse_words(*taken) + "</b>" : "not chosen";
        std::string lost = "not known";
        if (run.figures) {
            const NetworkFigures& drop = *run.figures;
            const bool shared = run.way.has_value();
            const std::string allowed = show(*task.supply.drop_limit * nominal_voltage);
            lost = words(show(drop.drop) + (shared ? "" : " of " + allowed) + " at " + show(drop.current));
            if (shared && task.role != RunRole::trunk)
                lost += "<br>" + words("whole way " + show(drop.way_drop) + " of " + show(run.way->allowed));
        }
        rows += "<tr><th scope=\"row\">" + head + "</th><td>" + size + "</td><td>" + fuses + "</td><td>" + lost +
                "</td></tr>\n";
    }
    if (rows.empty()) return {};
    return "<table>\n<caption>What each run gets. Volts lost are those out and back, against what is "
           "allowed.</caption>\n<thead><tr><th scope=\"col\" class=\"w3\">Run</th><th scope=\"col\" "
           "class=\"w2\">Cable</th><th scope=\"col\">Fuse</th><th scope=\"col\">Volts "
           "lost</th></tr></thead>\n<tbody>\n" +
           rows + "</tbody>\n</table>\n";
}

std::string settings(const Plan& plan) {
    std::string html;
    for (const SettingWords& setting : settings_in_words(plan.night))
        html +=
            check("<b>" + words(sentence(setting.what)) + ":</b> " + words(setting.value + "; " + setting.why) + ".");
    return html.empty() ? html : "<ul class=\"checks\">\n" + html + "</ul>\n";
}

std::string night(const Plan& plan) {
    std::string pairs, sentences;
    for (const NightWords& line : night_in_words(plan)) {
        if (line.what.empty())
            sentences += paragraph(sentence(line.words) + ".");
        else
            pairs += "<dt>" + words(sentence(line.what)) + "</dt><dd>" + words(sentence(line.words)) + ".</dd>\n";
    }
    return (pairs.empty() ? "" : "<dl>\n" + pairs + "</dl>\n") + sentences;
}

std::string parts_table(const SheetParts& parts) {
    if (parts.lines.empty()) return {};
    const bool priced =
        std::any_of(parts.lines.begin(), parts.lines.end(), [](const PartWords& part) { return !part.cost.empty(); });
    std::string rows;
    for (const PartWords& part : parts.lines) {
        rows +=
            "<tr><td><input type=\"checkbox\" aria-label=\"have it: " + words(part.amount + " " + cut(part.what, 80)) +
            "\"></td><td><b>" + words(part.amount) + "</b></td><th scope=\"row\">" + words(part.what);
        if (!part.note.empty()) rows += " <span class=\"for\">(" + words(part.note) + ")</span>";
        rows += "</th>";
        if (priced) rows += "<td class=\"money\">" + words(part.cost) + "</td>";
        rows += "</tr>\n";
    }
    std::string html = "<table>\n<caption>Tick what you have.";
    if (!parts.allowance.empty()) html += " Every length has " + words(parts.allowance) + " to spare in it.";
    html +=
        "</caption>\n<thead><tr><th scope=\"col\" class=\"w1\">Have</th><th scope=\"col\" class=\"wf\">How "
        "much</th><th scope=\"col\">What, and what for</th>";
    if (priced) html += "<th scope=\"col\" class=\"wf money\">Cost</th>";
    html += "</tr></thead>\n<tbody>\n" + rows + "</tbody>\n</table>\n";
    if (!parts.total.empty()) html += "<p><b>In all:</b> " + words(parts.total) + "</p>\n";
    for (const std::string& line : parts.more) html += paragraph(line);
    return html;
}

std::string readings_tables(const std::vector<ReadingStage>& stages) {
    std::string html;
    for (const ReadingStage& stage : stages) {
        if (stage.readings.empty()) continue;
        constexpr std::string_view blank = "<span role=\"img\" aria-label=\"blank to fill in\">______</span>";
        std::string rows, doubtful;
        for (const ReadingWords& reading : stage.readings) {
            std::string measure = words(reading.where);
            if (!reading.with.empty()) measure += "; " + words(reading.with);
            if (reading.in_doubt) measure += ":";
            if (!reading.otherwise.empty() && !reading.in_doubt)
                measure += ". <span class=\"soft\">Otherwise " + words(reading.otherwise) + ".</span>";
            if (reading.in_doubt) {
                doubtful += "<li><b>" + words(reading.id) + "</b> " + measure + " <b>" + words(reading.expected) +
                            "</b> " + std::string(blank) + "</li>\n";
                continue;
            }
            rows += "<tr><th scope=\"row\"><b>" + words(reading.id) + "</b></th><td>" + measure + "</td><td><b>" +
                    words(reading.expected) + "</b></td><td class=\"fill\">" + std::string(blank) + "</td></tr>\n";
        }
        html += "<h3>" + words(stage.title) + "</h3>\n<table>\n<caption>" + words(stage.about) +
                "</caption>\n<thead><tr><th scope=\"col\" class=\"w1\">No.</th><th scope=\"col\">Where the leads "
                "go</th><th scope=\"col\" class=\"w2\">It should show</th><th scope=\"col\" class=\"wf fill\">It "
                "shows</th></tr></thead>\n<tbody>\n" +
                rows + "</tbody>\n</table>\n";
        if (!doubtful.empty())
            html +=
                "<p><b>Only where a drop is too large:</b> across one joint after the other. The one that shows more "
                "than "
                "it should is made again.</p>\n<ul class=\"joints\">\n" +
                doubtful + "</ul>\n";
    }
    return html;
}

std::string checks(const Plan& plan, const System& system) {
    std::string fuses;
    std::size_t count = 0;
    for (const RunPlan& run : plan.runs)
        if (run.taken())
            for (const FuseFit& fuse : run.taken()->fuses) {
                fuses += (fuses.empty() ? "" : "; ") + show(fuse) + " (" + *run.task.run.name + ")";
                ++count;
            }
    constexpr std::size_t most_in_a_sentence = 8;
    if (count > most_in_a_sentence) fuses = "all " + std::to_string(count) + " of the table of cables and fuses";
    const bool lithium = system.house.chemistry->group == "lithium";
    std::string html;
    html += check("Every fuse is out, and goes in last.");
    if (!fuses.empty())
        html += check(words(
            "Each end from which a battery can feed a cable has its fuse, close to that battery: " + fuses + "."));
    html += check("Each fuse pulled in turn: the far end of its cable goes dead.");
    html += check("A grommet in every hole, and no edge that can saw through a cable.");
    html += check(words("A clip " + clip_spacing() + "; nothing hangs, swings or rubs."));
    html += check("Every crimp tugged hard: it does not move. No strand stands out of a lug.");
    html += check("Nothing near hot or moving parts, steering, pedals, fuel or brake lines, or airbags.");
    html += check("Polarity read with the meter before the first connection.");
    html += lithium ? check("The lithium battery stands outside the living space, and cannot be charged frozen.")
                    : check("The battery is strapped down, and its gas is vented outside.");
    html += check(
        "After an hour of driving each fuse, plug and lug felt with the back of the hand: warm is well, too hot "
        "to hold is a bad joint.");
    return "<ul class=\"checks\">\n" + html + "</ul>\n";
}

std::string findings(const Plan& plan) {
    constexpr std::pair<Level, std::string_view> levels[] = {
        {Level::stop, "Stop"}, {Level::warn, "Warning"}, {Level::note, "Note"}};
    std::string items;
    for (const auto& [level, name] : levels)
        for (const Finding& finding : plan.findings)
            if (finding.level == level)
                items += fmt::format("<li><span class=\"level {}\">{}</span>{} {}</li>\n", show(level), name,
                                     words(show(finding)), words(finding.remedy));
    return items.empty() ? items : "<ol>\n" + items + "</ol>\n";
}

std::string list_of(const std::vector<std::string>& lines, std::string_view kind = {}) {
    std::string html;
    for (const std::string& line : lines) html += "<li>" + words(line) + "</li>\n";
    if (html.empty()) return html;
    return (kind.empty() ? "<ul>\n" : "<ul class=\"" + std::string(kind) + "\">\n") + html + "</ul>\n";
}

void gather_sources(const Explanation& node, std::vector<Source>& sources) {
    if (node.source && !node.source->table.empty() &&
        std::none_of(sources.begin(), sources.end(), [&](const Source& source) {
            return source.id == node.source->id && source.cite == node.source->cite &&
                   source.table == node.source->table;
        }))
        sources.push_back(*node.source);
    for (const Explanation& part : node.parts) gather_sources(part, sources);
}

/// The tables whose figures stand behind the plan, each publication once.
std::vector<std::string> sources(const Plan& plan) {
    std::vector<Source> found;
    for (const RunPlan& run : plan.runs) gather_sources(explain_run(run), found);
    for (const Topic& topic : topics(plan))
        if (const auto explanation = explain_topic(plan, topic.name)) gather_sources(*explanation, found);
    std::stable_sort(found.begin(), found.end(), [](const Source& a, const Source& b) { return a.table < b.table; });
    std::vector<std::string> lines;
    for (const Source& source : found)
        lines.push_back(std::string(source.table) + ": " + std::string(source.id) + ", " + std::string(source.cite) +
                        " (" + std::string(show(source.standing)) + ")");
    return lines;
}

}  // namespace

SheetParts sheet_parts(const PartsList& list) {
    SheetParts parts{.lines = parts_in_words(list), .allowance = show(list.allowance), .total = {}, .more = {}};
    if (list.total && !list.currency.empty()) {
        const std::optional<bool> within = list.within_budget();
        if (list.budget && !within) {
            parts.total = undecided_cost(list) + ".";
        } else {
            parts.total = money_in_words(*list.total, list);
            if (within)
                parts.total += (*within                 ? ", within the budget of "
                                : list.unpriced.empty() ? ", over the budget of "
                                                        : ", over the budget already, which is ") +
                               money_in_words(*list.budget, list);
        }
    }
    const auto add = [&](std::string_view what, const std::vector<std::string>& lines) {
        std::string all;
        for (const std::string& line : lines) all += (all.empty() ? "" : "; ") + line;
        if (!all.empty()) parts.more.push_back(std::string(what) + ": " + all + ".");
    };
    add("Assumed, to be measured before buying", list.assumed);
    add("What to ask for in a shop", shop_words(list));
    add("Look first", in_words(list.to_look));
    add("There already, not to buy", in_words(list.owned));
    add("No price", unpriced_in_words(list));
    add("Not on this list", in_words(list.not_listed));
    return parts;
}

std::string sheet_html(const Plan& plan, const System& system, const std::vector<ReadingStage>& readings,
                       const SheetParts& parts, const SheetNote& note) {
    const std::string title = plan.title.empty() ? "The second battery, on one sheet" : plan.title;
    std::string html(beginning_of_page);
    html += std::string(generator) + escaped(note.version) + "\">\n";
    html += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    html +=
        "<title>" + escaped(cut(title, 120)) + "</title>\n<style>" + std::string(sheet_style) + "</style>\n</head>\n";
    html += "<body>\n<header>\n<h1><bdi>" + escaped(title) + "</bdi></h1>\n</header>\n<main>\n";
    html += verdict(plan);
    html += section("the-wiring", "Wiring", wiring(plan, system));
    html += side_by_side(
        section("state-of-charge", "State of charge over the trip",
                chart(plan, soc_line, "charge", "State of charge over the trip"), true),
        section("along-the-feed", "Voltage along the feed",
                chart(plan, feed_line, "feed", "Voltage from the starter battery to the house battery"), true));
    html += section("cables", "Cables and fuses", cables(plan), plan.runs.size() <= most_runs_kept_together);
    html += side_by_side(section("settings", "Set these", settings(plan), true),
                         section("night", "The night in figures", night(plan), true));
    html += section("parts", "Parts", parts_table(parts));
    html += section("readings", "Readings", readings_tables(readings));
    html += section("checks", "Checks that prevent fires", checks(plan, system));
    html += section("findings", "Findings", findings(plan));
    std::string cautions;
    for (const std::string& line : caution_words()) cautions += "<li>" + words(line) + "</li>\n";
    html += side_by_side(section("not-judged", "Not judged", list_of(plan.not_judged), true),
                         section("cautions", "Before you begin", "<ul>\n" + cautions + "</ul>\n", true));
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
