#include "cli/load_and_plan.hpp"
#include "voltwright/report/plan_json.hpp"
#include "voltwright/report/trip_text.hpp"

namespace voltwright::cli {

namespace {

int run_trip(const Call& call) {
    const auto plan = plan_of(call, {.timeline = !call.quiet(), .ladders = Ladder::needed});
    if (!plan) return unusable;
    return call.answer({.line = [&] { return trip_line(*plan); },
                        .page = [&] { return trip_page(*plan, call.style); },
                        .json = [&] { return trip_json(*plan); },
                        .csv = [&] { return trip_csv(*plan); }},
                       plan->energy.holds() ? holds : fails);
}

}  // namespace

extern const Verb trip_verb;
constinit const Verb trip_verb =
    profile_verb({.name = "trip",
                  .group = Group::plan,
                  .line = "day by day: state of charge, what was used and charged, what went off",
                  .formats = text_json_or_csv},
                 run_trip);

}  // namespace voltwright::cli
