#include "cli/planned.hpp"
#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/report/autonomy_text.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"
#include "voltwright/vehicle/forms.hpp"

namespace voltwright::cli {

namespace {

/// Reads the options, or says what is wrong with them.
std::optional<AutonomyQuestion> question_of(const Call& call) {
    AutonomyQuestion question;
    const auto complain = [&](std::string_view option, const std::string& why) {
        call.complain(std::string(option) + ": " + why);
        return std::nullopt;
    };
    if (call.given("--from") && call.given("--volts")) return complain("--volts", "give this or --from, not both");
    if (call.given("--from")) {
        const auto soc = parse<Ratio>(call.text("--from"));
        if (!soc) return complain("--from", soc.reason().why);
        if (!(soc->value > Ratio{}) || soc->value > Ratio{1.0})
            return complain("--from", "more than 0 % and at most 100 % is wanted");
        question.from = soc->value;
    }
    if (call.given("--volts")) {
        const auto rested = parse<Voltage>(call.text("--volts"));
        if (!rested) return complain("--volts", rested.reason().why);
        if (rested->value < volts(10.0) || rested->value > volts(14.0))
            return complain("--volts", "a rested 12 V battery reads 10 V to 14 V");
        question.rested = rested->value;
    }
    if (call.given("--at")) {
        Entry entry;
        entry.content = call.text("--at");
        ClockTime time;
        Faults faults;
        if (!Form<ClockTime>::read(entry, "--at", time, faults)) return complain("--at", faults.front().what);
        question.at = minutes(time.minutes % (24 * 60));
    }
    return question;
}

int run(const Call& call) {
    const auto question = question_of(call);
    if (!question) return wrong_usage;
    const auto profile = open_profile(call);
    if (!profile) return unusable;
    const auto highest = highest_at_rest(built_in_tables(), profile->system.house.chemistry->chemistry);
    if (highest && question->rested > *highest)
        return call.complain("--volts: " + show(*question->rested) +
                             " is a charging voltage; no lead battery that has rested reads more than " +
                             show(*highest) + ": rest it for some hours first");
    const auto answer = autonomy_of(profile->system, *question, built_in_tables());
    if (!answer)
        return call.complain(
            "--volts: the voltage of a rested lithium battery does not tell its state of charge; count "
            "ampere-hours and give --from");
    const int code = answer->holds() ? holds : fails;
    if (call.quiet()) return call.answer(autonomy_line(*answer) + "\n", code);
    return call.answer(call.json() ? autonomy_json(*answer) : autonomy_page(*answer, call.style), code);
}

constexpr Argument arguments[] = {profile_argument};
constexpr Option options[] = {
    {.name = "--from", .takes = Takes::text, .value = "SOC", .help = "state of charge to begin with; by itself 100 %"},
    {.name = "--volts",
     .takes = Takes::text,
     .value = "VOLTS",
     .help = "or what a lead battery reads that has rested for hours: \"12.3 V\""},
    {.name = "--at",
     .takes = Takes::text,
     .value = "CLOCK",
     .help = "time of day to begin at; by itself the end of the day's last drive, or 18:00"},
};

}  // namespace

extern const Verb autonomy_verb;
constinit const Verb autonomy_verb = {
    .name = "autonomy",
    .group = Group::plan,
    .line = "how long everything runs with the engine off, and what ends it",
    .arguments = arguments,
    .options = options,
    .formats = text_or_json,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
