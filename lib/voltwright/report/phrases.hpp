#pragma once

#include <string>
#include <string_view>
#include <vector>

/// How words are put together, whatever the page.
namespace voltwright {

/// "feed, fridge, lamp"
std::string joined(const std::vector<std::string>& words, std::string_view between = ", ");

/// The text with a capital letter at its beginning.
std::string capitalised(std::string text);

}  // namespace voltwright
