#include "voltwright/provenance/source.hpp"

namespace voltwright {

std::string_view show(Standing standing) {
    switch (standing) {
        case Standing::read: return "read";
        case Standing::read_weak: return "read in a reprint";
        case Standing::memory: return "from memory";
        case Standing::recomputed: return "from memory, recomputed";
        case Standing::common_practice: return "common practice, no source";
    }
    return "";
}

}  // namespace voltwright
