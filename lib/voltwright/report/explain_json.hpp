#pragma once

#include "voltwright/report/topics.hpp"

#include <string>

namespace voltwright {

/// `{about, symbol, value, equation, by, source, parts: […]}`, parts of the same form; values as the page shows them.
std::string explanation_json(const Explanation& explanation);

/// `{topics: [{name, words}]}`
std::string topics_json(const Plan& plan);

}  // namespace voltwright
