#pragma once

#include "voltwright/energy/sky.hpp"
#include "voltwright/simulation/build_scenario.hpp"
#include "voltwright/simulation/simulate.hpp"

#include <optional>

/// A trip on the sun is judged on a run of dull days, where they do most harm.
namespace voltwright {

/// What the trip was judged on, and what it would be without.
struct DullDays {
    DayRun run;
    DullDay first;     ///< of the first of them that the profile says nothing of
    TripResult usual;  ///< the trip in the usual sun
};

/// What was taken for a sky that nobody described.
struct AssumedSky {
    Ratio usual, least, most;  ///< of a clear sky's sun, by place; of the first day
    bool decides;              ///< somewhere in that range the verdict is the other one
    Source source;
};

/// Of the first day of a run that the profile says nothing of; else of its first.
DullDay first_dull_day(const ScenarioInputs& inputs, DayRun run);

/// The run of `count` dull days that is hardest to live with, under a sky that nobody described or as it was taken;
/// `in_usual_sun` is what comes of the trip without them. Empty where no dull day takes sun away, and where the usual sun is
/// harder still, which a load that switches itself off can bring about.
///
/// Each place of the run is tried in a trip of up to four weeks; in a longer one some two dozen, and those that end on the days
/// on which the usual sun leaves least.
std::optional<DayRun> hardest_run(const ScenarioInputs& inputs, Clearness clearness, int count,
                                  const TripResult& in_usual_sun);

}  // namespace voltwright
