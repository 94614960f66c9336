#include "cli/planned.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/trip_text.hpp"

namespace voltwright::cli {

namespace {

int run(const Call& call) {
    const auto plan = plan_of(call, {.timeline = !call.quiet(), .ladders = Ladder::needed});
    if (!plan) return unusable;
    const int code = plan->night.holds() ? holds : fails;
    if (call.quiet()) return call.answer(trip_line(*plan) + "\n", code);
    if (call.text("--format") == "csv") return call.answer(trip_csv(*plan), code);
    return call.answer(call.json() ? trip_json(*plan) : trip_page(*plan, call.style), code);
}

constexpr Argument arguments[] = {profile_argument};
constexpr std::string_view formats[] = {"text", "json", "csv"};

}  // namespace

extern const Verb trip_verb;
constinit const Verb trip_verb = {
    .name = "trip",
    .group = Group::plan,
    .line = "day by day: state of charge, what was used and charged, what went off",
    .arguments = arguments,
    .formats = formats,
    .profile = true,
    .run = run,
};

}  // namespace voltwright::cli
