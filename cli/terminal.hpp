#pragma once

#include "voltwright/report/terminal.hpp"

#include <string_view>

namespace voltwright::cli {

/// What may be written to this open file. `width` of 0 asks the terminal; `color` is `auto`, `always` or `never`.
Style style_of(int file, int width, bool ascii, std::string_view color);

}  // namespace voltwright::cli
