#include "voltwright/report/sheet.hpp"
#include "cli/load_and_plan.hpp"
#include "voltwright/diagnosis/test_plan.hpp"
#include "voltwright/report/words.hpp"
#include "voltwright/shopping/parts.hpp"

namespace voltwright::cli {

namespace {

std::string file_name(const std::string& path) {
    return path == "-" ? std::string() : path.substr(path.rfind('/') == std::string::npos ? 0 : path.rfind('/') + 1);
}

int run_sheet(const Call& call) {
    const std::string path = call.text("-o");
    if (path.empty()) return call.complain("sheet: say where to: -o sheet.html, or -o - for standard output");
    const auto all = planned(call, {.timeline = true, .ladders = Ladder::needed});
    if (!all) return unusable;
    const auto& [prices, profile, plan] = *all;
    const std::string sheet = sheet_html(plan, profile.system, readings_in_words(test_plan(profile.system, plan)),
                                         sheet_parts(parts_list(profile.system, plan, prices.get())),
                                         {.version = VOLTWRIGHT_VERSION, .profile = file_name(call.text("PROFILE"))});
    if (const int code = call.answer(sheet); code != holds || path == "-") return code;
    const int code = call.say(verdict_line(plan));
    if (call.quiet() || code != holds) return code;
    return call.say("Written: " + path + ". Open it in a browser, and print it.");
}

constexpr Option sheet_options[] = {prices_option};

}  // namespace

extern const Verb sheet_verb;
constinit const Verb sheet_verb = {
    .name = "sheet",
    .group = Group::fit,
    .line = "one page for the shed, to print: diagram, charts, parts, readings, checks",
    .arguments = profile_alone,
    .options = sheet_options,
    .profile = true,
    .run = run_sheet,
    .is_own = is_sheet,
};

}  // namespace voltwright::cli
