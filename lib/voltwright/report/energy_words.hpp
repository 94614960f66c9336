#pragma once

#include "voltwright/planning/plan.hpp"

#include <string>
#include <string_view>

/// What is said of charge, of how long it lasts and of what puts it back, the same on the page of the plan, the trip and
/// the autonomy.
namespace voltwright {

/// "9.4 Ah", "42 Ah"
std::string amount(Charge charge);

/// "2 h 30 min": by ten minutes, below an hour by one. What lasts is rounded down and what has to be done is rounded up,
/// but never for a tenth of a step.
enum class Towards { less, more };
std::string hours_words(Duration duration, Towards towards);

/// The limit at a trip's lowest, where the page tells a higher one of a colder day; empty elsewhere.
std::string limit_then_words(const EnergyPlan& energy, const TripResult& trip);

/// What a line that speaks of the battery alone adds where cables and fuses do not hold; empty where they do.
std::string wiring_words(int stops);

/// "then 50 % is used" and its like: what ended an autonomy.
std::string ended_words(const Autonomy& autonomy, Ratio depth_limit);

/// "about 42 h, then 50 % of the capacity is used", with the word `about` as it is wanted.
std::string autonomy_words(const Autonomy& autonomy, Ratio depth_limit, std::string_view about = "about");

/// ", on the trip's hottest day"; nothing where its days are alike.
std::string on_day_words(ParkedDay day);

/// "about 24 h, then it is down to 50 %; 19 Ah in 21 h without the engine (fridge)"
std::string starter_words(const StarterLoads& starter);

/// "3 dull days in a row (days 4 to 6), each with 48 % of a usual day's sun"
std::string dull_words(const DullDays& dull);

/// "holds; lowest 94.6 %, day 14 at 04:11": the trip without its dull days.
std::string usual_sun_words(const EnergyPlan& energy);

/// "an hour of driving puts back 12 Ah on this trip, 20 Ah when the battery is down to its limit"
std::string driving_words(const DrivingWorth& driving);

/// "driving in one go from 50 %: 80 % after 1 h 10 min, 90 % after 1 h 50 min, 95 % after 2 h 40 min"; empty where driving
/// does not fill it.
std::string filling_words(const DrivingWorth& driving);

/// What the loads take between two drives, and what driving puts back.
std::string energy_words(const EnergyPlan& energy);

}  // namespace voltwright
