#pragma once

#include <string>

namespace voltwright::cli {

/// The manual page in the macros of man(7), made from the verbs' own descriptions.
std::string manual();

}  // namespace voltwright::cli
