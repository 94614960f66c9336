#pragma once

#include "voltwright/files/document.hpp"
#include "voltwright/report/terminal.hpp"

#include <string>

namespace voltwright {

/// What is wrong, where, the line itself with a caret under the place, and what to do:
///
///     camp.toml:12:10: a length is wanted; this is a voltage
///       12 | length = "6 V"
///          |          ^~~~~
///          | write a length such as "6 m"
///
/// The caret counts characters, keeps tabs and knows wide ones. Of a line over 200 characters the part around it is shown.
std::string show(const Diagnostic& diagnostic, const Style& style);

/// All of them, and how many there are when there is more than one.
std::string show(const Diagnostics& diagnostics, const Style& style);

}  // namespace voltwright
