#pragma once

#include <string_view>

namespace voltwright {

/// "charger" of "charger +"; what has no pole as it is.
constexpr std::string_view without_pole(std::string_view point) {
    if (point.size() > 2 && (point.ends_with(" +") || point.ends_with(" -"))) point.remove_suffix(2);
    return point;
}

}  // namespace voltwright
