#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// One line of "Set these": what, to what, and why; and the same as a code and figures.
struct SettingWords {
    std::string_view code;
    Arguments figures;
    std::string what, value, why;
};
std::vector<SettingWords> settings_in_words(const EnergyPlan& energy);

/// One figure of the night and the trip: what it is of, and what it says. Without a name it is a sentence by itself.
struct EnergyWords {
    std::string what, words;
    bool beneath = false;  ///< belongs to the line before it
};
std::vector<EnergyWords> energy_in_words(const Plan& plan);

/// The part of the plan's page on the night, the trip and the settings.
std::string energy_sections(const Plan& plan, const Style& style);

}  // namespace voltwright
