#include "voltwright/report/sheet.hpp"
#include "cli/planned.hpp"
#include "voltwright/planning/parts.hpp"
#include "voltwright/planning/readings.hpp"
#include "voltwright/report/words.hpp"

#include <array>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace voltwright::cli {

namespace {

/// The first bytes of a file, or nothing when it cannot be read.
std::string beginning_of(const std::string& path) {
    std::array<char, 512> bytes = {};
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) return {};
    std::size_t filled = 0;
    while (filled < bytes.size()) {
        const ssize_t got = ::read(file, bytes.data() + filled, bytes.size() - filled);
        if (got <= 0) break;
        filled += static_cast<std::size_t>(got);
    }
    ::close(file);
    return std::string(bytes.data(), filled);
}

/// Why the sheet may not be written there, or nothing. A device has nothing to lose; a directory is refused on writing.
std::string refusal(const Call& call, const std::string& path) {
    struct stat there = {};
    if (path == "-" || ::stat(path.c_str(), &there) != 0 || !S_ISREG(there.st_mode)) return {};
    if (there.st_size == 0 || call.given("--force") || is_sheet(beginning_of(path))) return {};
    return path +
           " is there already, is no sheet of voltwright's, and was left as it is; choose another name, or say "
           "--force";
}

std::string file_name(const std::string& path) {
    return path == "-" ? std::string() : path.substr(path.rfind('/') == std::string::npos ? 0 : path.rfind('/') + 1);
}

int run(const Call& call) {
    const std::string path = call.text("-o");
    if (path.empty()) return call.complain("sheet: say where to: -o sheet.html, or -o - for standard output");
    if (const std::string words = refusal(call, path); !words.empty()) return call.complain(words);
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

constexpr Argument arguments[] = {profile_argument};
constexpr Option options[] = {
    prices_option,
    {.name = "--force", .help = "write over a file that is no sheet of voltwright's"},
};

}  // namespace

extern const Verb sheet_verb;
constinit const Verb sheet_verb = {
    .name = "sheet",
    .group = Group::fit,
    .line = "one page for the shed, to print: diagram, charts, parts, readings, checks",
    .arguments = arguments,
    .options = options,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
