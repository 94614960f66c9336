#include "cli/load_and_plan.hpp"
#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/planning/autonomy_question.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/formats/clock.hpp"
#include "voltwright/report/autonomy_text.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

namespace voltwright::cli {

namespace {

/// An option whose text is a quantity; what is wrong with it then stands on standard error.
template <class Quantity>
bool read_option(const Call& call, std::string_view option, std::optional<Quantity>& quantity) {
    if (!call.given(option)) return true;
    const auto read = parse<Quantity>(call.text(option));
    if (read) quantity = read->value;
    if (!read) call.complain(std::string(option) + ": " + read.wrong().why);
    return static_cast<bool>(read);
}

bool read_clock(const Call& call, std::optional<Duration>& at) {
    if (!call.given("--at")) return true;
    Entry entry;
    entry.content = call.text("--at");
    ClockTime time;
    Faults faults;
    if (Format<ClockTime>::read(entry, "--at", time, faults)) {
        at = minutes(time.minutes % (24 * 60));
        return true;
    }
    call.complain("--at: " + faults.front().what);
    return false;
}

std::string words_of(AutonomyFault fault, const AutonomyQuestion& question, std::string_view chemistry) {
    switch (fault) {
        case AutonomyFault::no_state_of_charge: return "--from: more than 0 % and at most 100 % is wanted";
        case AutonomyFault::not_at_rest:
            return "--volts: a rested 12 V battery reads " + show(least_at_rest) + " to " + show(most_at_rest);
        case AutonomyFault::charging:
            return "--volts: " + show(*question.rested) +
                   " is a charging voltage; no lead battery that has rested reads more than " +
                   show(*highest_at_rest(built_in_tables(), chemistry)) + ": rest it for some hours first";
    }
    return {};
}

/// Reads the options, or says what is wrong with them.
std::optional<AutonomyQuestion> question_of(const Call& call) {
    AutonomyQuestion question;
    if (call.given("--from") && call.given("--volts")) {
        call.complain("--volts: give this or --from, not both");
        return {};
    }
    if (!read_option(call, "--from", question.from) || !read_option(call, "--volts", question.rested)) return {};
    if (const auto fault = fault_of(question)) {
        call.complain(words_of(*fault, question, {}));
        return {};
    }
    return read_clock(call, question.at) ? std::optional(question) : std::nullopt;
}

int run_autonomy(const Call& call) {
    const auto question = question_of(call);
    if (!question) return wrong_usage;
    const auto profile = open_profile(call);
    if (!profile) return unusable;
    const System& system = profile->system;
    if (const auto fault = fault_of(*question, system))
        return call.complain(words_of(*fault, *question, system.house.chemistry->chemistry));
    const auto answer = autonomy_of(system, *question, built_in_tables());
    if (!answer)
        return call.complain(
            "--volts: the voltage of a rested lithium battery does not tell its state of charge; count "
            "ampere-hours and give --from");
    return call.answer({.line = [&] { return autonomy_line(*answer); },
                        .page = [&] { return autonomy_page(*answer, call.style); },
                        .json = [&] { return autonomy_json(*answer); }},
                       answer->holds() ? holds : fails);
}

constexpr Option autonomy_options[] = {
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
constinit const Verb autonomy_verb = profile_verb(
    {"autonomy", Group::plan, "how long everything runs with the engine off, and what ends it", autonomy_options},
    run_autonomy);

}  // namespace voltwright::cli
