#pragma once

#include "voltwright/messages/arguments.hpp"
#include "voltwright/planning/findings/finding.hpp"

#include <string>
#include <string_view>

namespace voltwright::testing {

/// What a finding's sentence says in the place of that name; "(none)" where it has no such argument.
inline std::string argument_of(const Finding& finding, std::string_view name) {
    const Argument* argument = find_argument(finding.arguments, name);
    return argument ? in_words(argument->value) : "(none)";
}

}  // namespace voltwright::testing
