#pragma once

#include <string>

namespace voltwright {

/// Every key of the profile with its default, its range and what it means, made from the key table: as Markdown tables,
/// or as plain text.
std::string key_reference(bool markdown);

}  // namespace voltwright
