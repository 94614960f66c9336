#include "testing.hpp"

#include "journeys.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/report/wiring_words.hpp"
#include "voltwright/report/diagram.hpp"
#include "voltwright/report/markup.hpp"
#include "voltwright/report/sheet.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace voltwright {

namespace {

System example(const std::string& name) {
    auto read = read_document(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/" + name + ".toml");
    Faults faults;
    const Profile profile = read_profile(std::get<Document>(read).root, faults);
    REQUIRE(faults.empty());
    return std::get<System>(resolve(profile, built_in_tables()));
}

struct Made {
    System system;
    Plan plan;

    explicit Made(const std::string& name)
        : system(example(name)), plan(make_plan(system, built_in_tables(), {.timeline = true})) {}

    [[nodiscard]] std::string sheet(const std::vector<ReadingStage>& readings = {},
                                    const SheetParts& parts = {}) const {
        return sheet_html(plan, system, readings, parts, {.version = "1.2.3", .profile = "shed.toml"});
    }
};

/// What is not well formed about a page of HTML, by the rules of its standard that we keep to: each element is closed in
/// turn but for the void ones, each attribute has its value in double quotes, each id stands once, `&` begins a
/// character's name.
std::string trouble_with(std::string_view html) {
    static const std::set<std::string, std::less<>> closed_at_once = {"meta",     "br",   "input", "line",
                                                                      "polyline", "rect", "circle"};
    std::vector<std::string> open;
    std::set<std::string> ids;
    std::size_t at = html.find('>') + 1;  // after the doctype
    while (at < html.size()) {
        if (html[at] == '&') {
            const std::size_t end = html.find(';', at);
            if (end == std::string_view::npos || end - at > 6) return "a bare & at " + std::string(html.substr(at, 20));
        }
        if (html[at] == '>') return "a bare > at " + std::string(html.substr(at, 20));
        if (html[at] != '<') {
            ++at;
            continue;
        }
        std::size_t end = at + 1;
        for (bool quoted = false; end < html.size() && (quoted || html[end] != '>'); ++end) {
            if (html[end] == '"') quoted = !quoted;
            if (html[end] == '<') return "< within a tag at " + std::string(html.substr(at, 40));
        }
        std::string_view tag = html.substr(at + 1, end - at - 1);
        at = end + 1;
        if (tag.starts_with("/")) {
            if (open.empty() || open.back() != tag.substr(1)) return "closed out of turn: " + std::string(tag);
            open.pop_back();
            continue;
        }
        const std::string name(tag.substr(0, tag.find_first_of(" /")));
        if (const std::size_t id = tag.find(" id=\""); id != std::string_view::npos) {
            const std::string_view rest = tag.substr(id + 5);
            if (!ids.insert(std::string(rest.substr(0, rest.find('"')))).second)
                return "an id twice: " + std::string(tag);
        }
        if (name == "style") {
            at = html.find("</style>", at) + 8;
            continue;
        }
        if (!closed_at_once.contains(name)) open.push_back(name);
    }
    return open.empty() ? "" : "never closed: " + open.back();
}

bool holds(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

std::size_t count_of(std::string_view text, std::string_view part) {
    std::size_t count = 0;
    for (std::size_t at = 0; (at = text.find(part, at)) != std::string_view::npos; at += part.size()) ++count;
    return count;
}

const char* const examples[] = {"arctic-library", "bee-van", "seed-collector", "simplest", "surf-wagon"};

}  // namespace

TEST_CASE("the sheet of every example is well formed, and asks for nothing beside itself") {
    for (const char* name : examples) {
        CAPTURE(name);
        const std::string html = Made(name).sheet();
        CHECK(trouble_with(html) == "");
        for (const char* reach : {"http", "<script", "url(", "@import", "<img", "<link", "<iframe", "src="})
            CHECK_MESSAGE(!holds(html, reach), reach);
        CHECK(is_sheet(html));
    }
}

TEST_CASE("the check of well-formedness sees what is wrong") {
    for (const char* broken :
         {"<!DOCTYPE html><p>a & b</p>", "<!DOCTYPE html><p>a > b</p>", "<!DOCTYPE html><p><b>a</p></b>",
          "<!DOCTYPE html><p>a", "<!DOCTYPE html><p id=\"a\"></p><p id=\"a\"></p>", "<!DOCTYPE html><p a < b></p>"})
        CHECK_MESSAGE(trouble_with(broken) != "", broken);
}

TEST_CASE("a sheet has one first heading, its language, and a name for every table and drawing") {
    const std::string html = Made("bee-van").sheet();
    CHECK(count_of(html, "<h1>") == 1);
    CHECK(holds(html, "<html lang=\"en\">"));
    CHECK(holds(html, "<title>Moving hives through an Anatolian summer</title>"));
    CHECK(count_of(html, "<table>") == count_of(html, "<caption>"));
    CHECK(count_of(html, "<svg") == count_of(html, "role=\"img\" aria-labelledby"));
    CHECK(count_of(html, "<svg") == count_of(html, "<desc"));
}

TEST_CASE("a failing plan says so first, with what stops it and its remedy before the drawing") {
    const std::string html = Made("bee-van").sheet();
    const std::size_t verdict = html.find("THE PLAN DOES NOT HOLD."), remedy = html.find("Longer drives or a panel"),
                      drawing = html.find("<svg");
    CHECK(verdict < remedy);
    CHECK(remedy < drawing);
}

TEST_CASE("every run of the plan is in the drawing for a page and in the one for a phone") {
    for (const char* name : examples) {
        CAPTURE(name);
        const Made made(name);
        for (const Room room : {Room::page, Room::phone}) {
            std::string text;
            for (const Drawing& drawing : wiring_diagram(made.plan, made.system, room, "d"))
                text += drawing.svg("wiring", "", "");
            std::size_t fuses = 0;
            for (const RunPlan& run : made.plan.runs) fuses += run.taken() ? run.taken()->fuses.size() : 0;
            // A fuse is a box without an id.
            CHECK(count_of(text, "<rect class=\"plain frame\"") == fuses);
            for (const RunPlan& run : made.plan.runs) {
                const std::string& end = run.task.to.name;
                const std::string first_word = end == "battery" ? "house" : end.substr(0, end.find(' '));
                CHECK_MESSAGE(holds(text, first_word), end);
            }
        }
    }
}

TEST_CASE("a return by the body is drawn with the sign of earth and said in words") {
    const Made made("surf-wagon");
    const std::string text = wiring_diagram(made.plan, made.system, Room::page, "d").front().svg("wiring", "", "");
    CHECK(holds(text, "back by the body"));
    CHECK(holds(wiring_in_words(made.plan), "back by the body"));
    CHECK(!holds(wiring_in_words(Made("simplest").plan), "back by the body"));
}

TEST_CASE("words that would break the page are shown as words") {
    Made made("simplest");
    const std::string evil = "</title></svg><b onclick=\"x\">'&amp;\x01\x1b[31m\u202egnirts\u2066\u200f\xff";
    made.plan.title = evil;
    made.plan.runs[2].task.to.name = evil;
    made.plan.runs[2].task.run.name = evil;
    made.plan.findings[0].about = {FindingSubject::Kind::run, {evil}};
    const std::vector<ReadingStage> readings = {{evil, evil, {{evil, evil, evil, evil, evil, true}}}};
    const std::string html =
        made.sheet(readings, {.lines = {{evil, evil, evil, evil, evil}}, .total = evil, .more = {evil}});
    CHECK(trouble_with(html) == "");
    CHECK(!holds(html, "<b onclick"));
    CHECK(holds(html, "&lt;b onclick=&quot;x&quot;&gt;&#39;&amp;amp;"));
    for (const char* mark : {"\x01", "\x1b", "\u202e", "\u2066", "\u200f", "\xff"}) CHECK(!holds(html, mark));
}

TEST_CASE("ten thousand characters are whole in the text and cut in drawings") {
    Made made("simplest");
    std::string endless;
    for (int i = 0; i < 10000; ++i) endless += i % 7 == 0 ? "é" : "m";
    made.plan.title = endless;
    made.plan.runs[2].task.to.name = endless;
    made.plan.runs[2].task.run.name = endless;
    const std::string html = made.sheet();
    CHECK(trouble_with(html) == "");
    CHECK(holds(html, "<h1><bdi>" + endless + "</bdi></h1>"));
    for (const Room room : {Room::page, Room::phone})
        for (const Drawing& drawing : wiring_diagram(made.plan, made.system, room, "d"))
            CHECK(!holds(drawing.svg("wiring", "", ""), endless.substr(0, 200)));
}

TEST_CASE("parts have boxes to tick, readings have blanks, and an empty section is left out") {
    const Made made("simplest");
    const std::string bare = made.sheet();
    CHECK(!holds(bare, "id=\"parts\""));
    CHECK(!holds(bare, "id=\"readings\""));
    const std::vector<ReadingStage> readings = {
        {"Engine off",
         "Everything connected.",
         {{"R1", "red on charger +", "", "0.27 V ± 0.05 V", "a bad joint: R2", false}}},
        {"Idling", "", {}}};
    const std::string html =
        made.sheet(readings, {.lines = {{"14.5 m", "cable 6 AWG, red", "feed", "", ""}}, .allowance = "10 %"});
    CHECK(trouble_with(html) == "");
    CHECK(count_of(html, "<input type=\"checkbox\"") == count_of(bare, "<input type=\"checkbox\"") + 1);
    CHECK(count_of(html, "______") == 1);
    CHECK(holds(html, "<h3>Engine off</h3>"));
    CHECK(!holds(html, "<h3>Idling</h3>"));
    CHECK(!holds(html, "Cost</th>"));
}

TEST_CASE("the lithium check stands where there is lithium, the gas check where there is lead") {
    CHECK(holds(Made("arctic-library").sheet(), "The lithium battery stands outside the living space"));
    CHECK(!holds(Made("arctic-library").sheet(), "its gas is vented outside"));
    CHECK(holds(Made("simplest").sheet(), "its gas is vented outside"));
}

TEST_CASE("a file is a sheet of ours by its first bytes alone") {
    const std::string html = Made("simplest").sheet();
    CHECK(is_sheet(std::string_view(html).substr(0, 512)));
    CHECK(!is_sheet(""));
    CHECK(!is_sheet("<!DOCTYPE html>\n<html><head><title>mine</title>"));
    CHECK(!is_sheet("notes on " + html));
    CHECK(!is_sheet(std::string_view(html).substr(0, 60)));
}

TEST_CASE("a text in lines fits its width, loses nothing while there are lines, and ends in an ellipsis otherwise") {
    for (const char* text : {"fridge", "a fuse block under the second seat", "WWWWWWWWWWWWWWWWWWWWWWWWWWWW",
                             "ééééééééé éé", "日本語の冷蔵庫", "  two  blanks  ", "\xff\xfe"})
        for (const double width : {3.0, 6.5, 12.0}) {
            CAPTURE(text);
            CAPTURE(width);
            for (const bool bold : {false, true}) {
                std::string together, wanted;
                for (const std::string& line : in_lines(text, width, 100, bold)) {
                    CHECK(ems_of(line, bold) <= width + 1e-9);
                    together += line;
                }
                for (const char* c = text; *c; ++c)
                    if (*c != ' ') wanted += *c;
                together.erase(std::remove(together.begin(), together.end(), ' '), together.end());
                CHECK(together == wanted);
                const std::vector<std::string> one = in_lines(text, width, 1, bold);
                REQUIRE(one.size() == 1);
                CHECK(ems_of(one[0], bold) <= width + 1e-9);
            }
        }
    // By hand from the advances: "a fuse blo" takes 4.95, the ellipsis 1.
    CHECK(in_lines("a fuse block under the seat", 6.0, 1) == std::vector<std::string>{"a fuse blo…"});
    CHECK(in_lines("", 6.0, 3).empty());
}

TEST_CASE("figures take their signs, words do not") {
    CHECK(in_signs("31 degC, 4.6 mOhm, 16 mm2") == "31\u00a0°C, 4.6\u00a0mΩ, 16\u00a0mm²");
    CHECK(in_signs("6 m, 50 A SF30") == "6\u00a0m, 50\u00a0A SF30");
    CHECK(in_signs("a degC, 3 mm2x, 5 more, 12 days") == "a degC, 3 mm2x, 5 more, 12 days");
}

}  // namespace voltwright
