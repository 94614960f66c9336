#include "voltwright/shopping/part.hpp"

#include <array>

namespace voltwright {

namespace {

constexpr std::array<std::string_view, 13> kinds = {"cable",       "lug",         "battery clamp", "plug",    "part",
                                                    "fuse",        "fuse holder", "fuse block",    "conduit", "grommet",
                                                    "heat-shrink", "clip",        "label"};

}  // namespace

std::string_view show(PartKind kind) { return kinds[static_cast<std::size_t>(kind)]; }

std::span<const std::string_view> part_kinds() { return kinds; }

bool same_line(const Part& a, const Part& b) {
    return a.kind == b.kind && a.what == b.what && a.colour == b.colour && a.size == b.size &&
           a.insulation == b.insulation && a.rating == b.rating && a.at_least == b.at_least && a.family == b.family &&
           a.stud == b.stud && a.bore == b.bore && a.length.has_value() == b.length.has_value();
}

}  // namespace voltwright
