#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace voltwright {

/// "then 50 % is used" and its like: what ended an autonomy.
std::string ended_words(const Autonomy& autonomy, Ratio depth_limit);

/// The findings of a level under a heading, numbered, each with what to do; nothing where there is none.
std::string findings_section(const Findings& findings, Level level, std::string_view heading, const Style& style);

/// One line of "Set these": what, to what, and why.
struct SettingWords {
    std::string what, value, why;
};
std::vector<SettingWords> settings_in_words(const Night& night);

/// One figure of the night and the trip: what it is of, and what it says. Without a name it is a sentence by itself.
struct NightWords {
    std::string what, words;
    bool beneath = false;  ///< belongs to the line before it
};
std::vector<NightWords> night_in_words(const Plan& plan);

/// The part of the plan's page on the night, the trip and the settings.
std::string night_sections(const Plan& plan, const Style& style);

/// The answer of `autonomy`.
std::string autonomy_page(const AutonomyAnswer& answer, const Style& style);
std::string autonomy_line(const AutonomyAnswer& answer);

/// The answer of `trip`: verdict, state of charge as a line over the days, day by day, where the energy went. The plan
/// has to be made with its timeline.
std::string trip_page(const Plan& plan, const Style& style);
std::string trip_line(const Plan& plan);

/// The state of charge as a line over the days, nights and drives marked below it.
std::string soc_chart(const std::vector<TripPoint>& points, Ratio depth_limit, const Style& style);

/// Every step of the timeline: day, clock, state of charge, volts, amps.
std::string trip_csv(const Plan& plan);

}  // namespace voltwright
