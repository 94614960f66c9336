#pragma once

#include "voltwright/messages/arguments.hpp"
#include "voltwright/messages/assumptions.hpp"
#include "voltwright/messages/findings.hpp"
#include "voltwright/planning/plan.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// "feed, starter to charger, 6 m"
std::string heading_of(const RunPlan& run);

/// "battery bank, 2 batteries, a link of 500 mm"
std::string heading_of(const BankLinks& bank);
/// "8 AWG, 105 degC, 125 A post on each battery"
std::string bought_words(const BankLinks& bank);
/// How it is joined, and what it carries.
std::string bank_words(const BankLinks& bank);

/// "8 AWG", "not sized", or where no size passes "no size passes, 4/0 AWG comes nearest"
std::string size_words(const RunPlan& run);

/// "voltage drop, fuse": what a size fails.
std::string failings(const Candidate& candidate);

/// "50 A SF30 at the starter battery"
std::string show(const FuseFit& fuse);

/// "there already", "given in the profile", or nothing for what was chosen.
std::string origin_of_cable(const RunPlan& run);
std::string origin_of(const FuseFit& fuse);

/// "no fuse", or "no fuse fits" where one is wanted.
std::string no_fuse_words(const RunPlan& run, const Candidate& candidate);

/// "With 75 degC cable (much of what shops sell): feed 4 AWG." Empty where it has nothing to say.
std::string other_class_words(const Plan& plan);

/// "THE PLAN HOLDS.  2 things to note."
std::string verdict_line(const Plan& plan);

/// "1 cable", "3 cables"
std::string counted(std::size_t count, std::string_view one, std::string_view many);

}  // namespace voltwright
