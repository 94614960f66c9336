#pragma once

#include "voltwright/tables/fuses.hpp"

#include <string>
#include <string_view>

/// The names under which things are listed, and by which a price list names them. What sits in a run besides is named as
/// in the table of joints.
namespace voltwright::article {

inline constexpr std::string_view cable = "cable";
inline constexpr std::string_view sun_cable = "EN 50618 sun cable";
inline constexpr std::string_view cable_label = "cable label";
inline constexpr std::string_view battery_clamp = "battery clamp";
inline constexpr std::string_view ring_lug = "ring lug";
inline constexpr std::string_view fuse_stud_lug = "ring lug for a fuse's stud";
inline constexpr std::string_view earth_lug = "ring lug for an earth point";
inline constexpr std::string_view bus_bar = "bus bar";
inline constexpr std::string_view heat_shrink = "heat-shrink 3:1 with adhesive";
inline constexpr std::string_view grommet = "grommet";
inline constexpr std::string_view roof_gland = "watertight roof gland";
inline constexpr std::string_view clip = "clip";

/// "SF30 fuse", "surface breaker"
inline std::string fuse(std::string_view family) {
    return std::string(family) + (family.ends_with("breaker") ? "" : " fuse");
}

/// What a fuse sits in; of a blade fuse in the cable, or with screwed terminals where no such holder carries the current.
inline std::string fuse_holder(std::string_view family, FuseForm form, bool in_line) {
    if (form == FuseForm::bolted) return "bolt-down holder with cover for " + std::string(family) + " fuses";
    if (form == FuseForm::post) return "holder on the battery post";
    if (!in_line) return std::string(family) + " fuse holder with screwed terminals";
    return "in-line " + std::string(family) + " fuse holder";
}

/// "fuse block, 4 ways" of the usual blade fuses; of another family it names that.
inline std::string fuse_block(std::string_view family, int ways) {
    return (family == "blade" ? "" : std::string(family) + " ") + "fuse block, " + std::to_string(ways) +
           (ways == 1 ? " way" : " ways");
}

/// "corrugated tube NW 10"
inline std::string conduit(std::string_view tube) { return "corrugated tube " + std::string(tube); }

}  // namespace voltwright::article
