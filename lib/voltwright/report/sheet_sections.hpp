#pragma once

#include "voltwright/planning/plan.hpp"
#include "voltwright/report/readings_text.hpp"

#include <string>
#include <vector>

/// The sections of the sheet, each as HTML without its heading, and nothing where there is nothing to say.
namespace voltwright::sheet {

std::string wiring(const Plan& plan, const System& system);
std::string charge_chart(const Plan& plan);
std::string feed_chart(const Plan& plan);
std::string cables(const Plan& plan);
std::string readings_tables(const std::vector<ReadingStage>& stages);
std::string checks(const Plan& plan, const System& system);

/// The tables whose figures stand behind the plan, each publication once.
std::vector<std::string> sources(const Plan& plan);

}  // namespace voltwright::sheet
