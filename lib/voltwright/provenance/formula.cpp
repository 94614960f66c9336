#include "voltwright/provenance/formula.hpp"

namespace voltwright {

const Explanation* find_part(const Explanation& node, std::string_view name) {
    for (const Explanation& part : node.parts) {
        if (part.json == name || part.words == name) return &part;
        if (const Explanation* inner = find_part(part, name)) return inner;
    }
    return nullptr;
}

}  // namespace voltwright
