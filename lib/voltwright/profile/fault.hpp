#pragma once

#include <string>
#include <vector>

namespace voltwright {

/// Something in the profile that cannot be used.
struct Fault {
    std::string path;     ///< such as `run[1].length`, counted from 0
    std::string what;     ///< one clause: "a length is wanted; this is a voltage"
    std::string hint;     ///< what to do, or empty
    bool at_key = false;  ///< the key itself is at fault (unknown, not its value)
};

using Faults = std::vector<Fault>;

}  // namespace voltwright
