#include "testing.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/planning/plan.hpp"
#include "voltwright/profile/complete.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/profile/section.hpp"
#include "voltwright/report/diagnostics.hpp"
#include "voltwright/report/listing.hpp"
#include "voltwright/report/listing_json.hpp"
#include "voltwright/report/toml_text.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace voltwright {

namespace {

/// The profile in a text, which is to have no fault.
Profile sound(const std::string& text) {
    const auto read = read_document_text("profile", text);
    if (const auto* diagnostics = std::get_if<Diagnostics>(&read)) {
        FAIL_CHECK(show(*diagnostics, {}));
        return {};
    }
    Faults faults;
    Profile profile = read_profile(std::get<Document>(read).root, faults);
    if (!faults.empty()) FAIL_CHECK(show(locate(std::get<Document>(read), faults), {}));
    return profile;
}

/// All values of a profile, as text.
std::vector<std::string> values_of(const Profile& profile) {
    std::vector<std::string> values;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile); ++i)
            for (const Key& key : section.keys)
                values.push_back(std::string(section.name) + "[" + std::to_string(i) + "]." + std::string(key.name) +
                                 " = " + key.written(section.look(profile, i)));
    return values;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

std::string joined(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) text += line + "\n";
    return text;
}

/// `#key = value` or `#[section]`, and not a comment in words.
bool is_commented_out(const std::string& line) { return line.size() > 1 && line[0] == '#' && line[1] != ' '; }

/// A new profile with its blanks filled in as in the simplest.
std::string filled_in() {
    std::string text = new_profile(built_in_tables());
    for (const auto& [blank, value] : {std::pair{"days = \"\"", "days = 3"},
                                       {"low = \"\"", "low = \"14 degC\""},
                                       {"high = \"\"", "high = \"31 degC\""},
                                       {"drives = \"\"", "drives = \"08:30-10:00\""},
                                       {"chemistry = \"\"", "chemistry = \"agm\""},
                                       {"capacity = \"\"", "capacity = \"120 Ah\""},
                                       {"output = \"\"", "output = \"25 A\""},
                                       {"length = \"\"", "length = \"6 m\""},
                                       {"length = \"\"", "length = \"1 m\""},
                                       {"length = \"\"", "length = \"3 m\""},
                                       {"draw = \"\"", "draw = \"45 W\""},
                                       {"around = \"\"", "around = \"25 degC\""},
                                       {"a_day = \"\"", "a_day = \"22 Ah\""}}) {
        const std::size_t at = text.find(blank);
        REQUIRE(at != std::string::npos);
        text.replace(at, std::string_view(blank).size(), value);
    }
    return text;
}

const std::string full = R"(
title = "A \"quoted\" title with a # in it"
[trip]
days = 3
low = "14 +- 2 degC"
high = "31 degC"
drives = ["08:30-10:00", "17:00-18:00"]
start = 2026-09-14
latitude = "-30 deg"
[[day]]
on = "2-3"
drives = "none"
[battery]
chemistry = "lfp"
capacity = "100 Ah"
[charger]
output = "25 A"
[solar]
panel = "100 W"
[[run]]
to = "charger"
length = "6 m"
where = [{ place = "engine bay", length = "2 m" }, { place = "chassis rail", length = "4 m" }]
[[run]]
to = "battery"
length = "1 m"
return = "body"
size = "8 AWG"
fuse = { battery = "50 A SF30" }
[[fridge]]
draw = "45 W"
rated = [{ around = "25 degC", a_day = "22 Ah" }]
restock = [{ on = [1], at = "17:00", mass = "4 kg", from = "24 degC" }, { on = [2], at = "17:30", mass = "1 kg", from = "20 degC" }]
[[load]]
name = "lamp"
draw = "12 W"
)";

}  // namespace

TEST_CASE("each key of a new profile that is commented out can be taken in as it stands") {
    const std::vector<std::string> lines = lines_of(filled_in());
    std::size_t tried = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!is_commented_out(lines[i])) continue;
        std::vector<std::string> changed = lines;
        changed[i].erase(0, 1);
        // A section that is commented out is taken in as a whole.
        if (lines[i] == "#[solar]")  // the sun needs to know when and where
            for (std::string& line : changed)
                if (line.find("#start = ") == 0 || line.find("#latitude = ") == 0) line.erase(0, 1);
        if (lines[i][1] == '[')
            for (++i; i < lines.size() && !lines[i].empty(); ++i)
                if (is_commented_out(lines[i])) changed[i].erase(0, 1);
        CAPTURE(lines[std::min(i, lines.size() - 1)]);
        sound(joined(changed));
        ++tried;
    }
    CHECK(tried > 50);
}

// What one takes in by itself is a sound example: the plan reads it, and a single number does not turn the verdict.
TEST_CASE("each key of a new profile, taken in alone, makes a plan that still holds") {
    const std::vector<std::string> lines = lines_of(filled_in());
    const auto section_at = [&](std::size_t line) {
        std::string name;
        for (std::size_t i = 0; i <= line; ++i)
            if (lines[i].rfind("[", 0) == 0 || lines[i].rfind("#[", 0) == 0) name = lines[i];
        return name;
    };
    std::size_t single = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!is_commented_out(lines[i]) || lines[i][1] == '[') continue;
        const std::string section = section_at(i), name = lines[i].substr(1, lines[i].find(' ') - 1);
        std::vector<std::string> changed = lines;
        changed[i].erase(0, 1);
        const auto take_in = [&](const std::string& of, const std::string& key) {
            for (std::size_t k = 0; k < lines.size(); ++k)
                if (is_commented_out(changed[k]) && section_at(k) == of &&
                    (key.empty() ? lines[k] == of : lines[k].rfind("#" + key + " =", 0) == 0))
                    changed[k].erase(0, 1);
        };
        // A section that is commented out needs its head and what it cannot be without.
        if (section[0] == '#') take_in(section, "");
        if (section == "#[[day]]") take_in(section, "on");
        if (section == "#[solar]") {
            take_in("[trip]", "start");
            take_in("[trip]", "latitude");
            take_in(section, "panel");
        }
        if (section == "#[[load]]") {
            take_in(section, "name");
            take_in(section, "draw");
        }
        if (section == "#[inverter]" || name == "through") {
            take_in("#[inverter]", "");
            take_in("#[inverter]", "output");
        }
        if (section == "#[[reading]]" && name == "voltage") take_in(section, "across");
        if (section == "#[[reading]]" && name == "current") take_in(section, "through");
        // Two that belong together.
        if (section == "[[fridge]]" && name == "cut_out") take_in(section, "cut_in");
        if (section == "[[fridge]]" && name == "cut_in") take_in(section, "cut_out");
        if (section == "[[run]]" && name == "have") take_in(section, "size");
        // What only a relay has is refused beside the DC-DC charger of a new profile.
        if (section == "[charger]" && (name == "closes_at" || name == "opens_at" || name == "rating")) continue;
        // A heater is of lithium; the new profile's battery is of lead.
        if (section == "[battery]" && name == "heater") continue;
        if (section == "[[run]]" && name == "breaking") take_in(section, "fuse");
        if (section == "#[[load]]" && (name == "runs" || name == "every")) {
            take_in(section, "runs");
            take_in(section, "every");
            take_in(section, "hours");
        }

        CAPTURE(section);
        CAPTURE(lines[i]);
        const auto system = resolve(sound(joined(changed)), built_in_tables());
        if (const auto* wrong = std::get_if<Faults>(&system))
            for (const Fault& fault : *wrong) FAIL_CHECK(fault.path << ": " << fault.what);
        if (!std::holds_alternative<System>(system)) continue;
        const Plan plan = make_plan(std::get<System>(system));
        const std::string value = lines[i].substr(lines[i].find("= ") + 2);
        const bool quoted_number = value.size() > 1 && value[0] == '"' && value[1] >= '0' && value[1] <= '9';
        if (!quoted_number && !(value[0] >= '0' && value[0] <= '9')) continue;
        for (const Finding& finding : plan.findings)
            if (finding.level == Level::stop) FAIL_CHECK(show(finding));
        CHECK(plan.holds());
        ++single;
    }
    CHECK(single > 50);
}

TEST_CASE("every key is in a new profile, live or commented out") {
    const std::vector<std::string> lines = lines_of(new_profile(built_in_tables()));
    for (const SectionRow& section : sections())
        for (const Key& key : section.keys) {
            CAPTURE(section.name);
            CAPTURE(key.name);
            const std::string begin = std::string(key.name) + " = ";
            CHECK(std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
                return line.substr(0, begin.size()) == begin || line.substr(0, begin.size() + 1) == "#" + begin;
            }));
        }
}

TEST_CASE("the listing of a profile reads back to the completed one") {
    for (const std::string& text : {filled_in(), full}) {
        const Profile given = sound(text), completed = complete(given, built_in_tables());
        const Profile reread = sound(list_profile(given, built_in_tables()));
        CHECK(values_of(reread) == values_of(completed));
        CHECK(reread.title == given.title);
    }
}

// The escapes are TOML v1.0.0's for a basic string (from memory): \uXXXX, \UXXXXXXXX.
TEST_CASE("a listing in ASCII holds what else there is as escapes") {
    CHECK(toml_in_ascii("title = \"B\xc3\xbcrste\" # 6 m\n") == "title = \"B\\u00FCrste\" # 6 m\n");
    CHECK(toml_in_ascii("\xf0\x9f\x9a\x90") == "\\U0001F690");
    CHECK(toml_in_ascii("days = 3\n") == "days = 3\n");
}

TEST_CASE("a listing marks what was not given, and says what an absence means") {
    const std::string listing = list_profile(sound(full), built_in_tables());
    CHECK(listing.find("days      = 3\n") != std::string::npos);
    CHECK(listing.find("clearness = \"77 %\"  # default, by latitude and month") != std::string::npos);
    CHECK(listing.find("  # default, by chemistry\n") != std::string::npos);
    CHECK(listing.find("# no [inverter]: ") != std::string::npos);
    CHECK(listing.find("# terminal: ") != std::string::npos);
    const std::vector<std::string> keys = defaulted_keys(sound(full), built_in_tables());
    const auto has = [&](std::string_view key) { return std::find(keys.begin(), keys.end(), key) != keys.end(); };
    CHECK(has("trip.clearness"));
    CHECK(has("run.feed.return"));
    CHECK_FALSE(has("trip.days"));
    CHECK_FALSE(has("run.battery.return"));
}

TEST_CASE("a long list stands with one element a line") {
    std::string text = full + "hours = [";
    for (int hour = 0; hour < 24; ++hour) {
        const std::string two = (hour < 10 ? "0" : "") + std::to_string(hour);
        text += "\"" + two + ":00-" + two + ":10\", ";
    }
    const Profile given = sound(text + "]\n");
    const std::string listing = list_profile(given, built_in_tables());
    CHECK(listing.find("[\n    \"00:00-00:10\",\n") != std::string::npos);
    CHECK(values_of(sound(listing)) == values_of(complete(given, built_in_tables())));
}

TEST_CASE("a profile as JSON has the shape of its file") {
    const auto read =
        read_document_text("profile", "title = \"x\"\n[trip]\nstart = 2026-09-04\ndays = 3\n[[run]]\nto = \"a\"\n");
    const std::string json = list_profile_json(std::get<Document>(read).root, {"trip.clearness"});
    std::string dense;
    for (const char c : json)
        if (c != ' ' && c != '\n') dense += c;
    CHECK(dense == R"({"profile":{"title":"x","trip":{"start":"2026-09-04","days":3},"run":[{"to":"a"}]},)"
                   R"("defaulted":["trip.clearness"]})");
}

}  // namespace voltwright
