#pragma once

#include "voltwright/provenance/source.hpp"

/// Where a finding's limit comes from when no row of a table holds it.
namespace voltwright::sources {

inline constexpr Source practice{
    .id = "common-practice", .cite = "common practice, no source", .standing = Standing::common_practice};

// What the profile says of a part, or allows by its rules.
inline constexpr Source drop_rules{.id = "profile", .cite = "the rules of the profile"};
inline constexpr Source smallest_rule{.id = "profile", .cite = "rules.smallest"};
inline constexpr Source its_runs{.id = "profile", .cite = "its runs"};
inline constexpr Source charger_manual{.id = "profile", .cite = "the charger's manual"};
inline constexpr Source input_window{.id = "profile", .cite = "the charger's input window"};
inline constexpr Source inverter_output{.id = "profile", .cite = "the inverter's rated output"};
inline constexpr Source depth_limit{.id = "profile", .cite = "the battery's depth limit"};
inline constexpr Source spare_current{.id = "profile", .cite = "the profile's spare_current"};

// Worked out by the models here from what the profile says: each model's own header names its source.
inline constexpr Source power_delivery{
    .id = "model", .cite = "P = V·I through a resistance", .standing = Standing::recomputed};
inline constexpr Source constant_power{.id = "model",
                                       .cite = "a charger draws constant power: most amps at least volts",
                                       .standing = Standing::recomputed};
inline constexpr Source trip{.id = "model", .cite = "the trip, hour by hour", .standing = Standing::recomputed};
inline constexpr Source walls{.id = "model", .cite = "heat through its walls", .standing = Standing::recomputed};

/// The window of FuseWindow: at most the ampacity is stricter than 33 CFR 183.455(c)(1).
inline constexpr Source fuse_window{
    .id = "common-practice", .cite = "I_n between design current and ampacity", .standing = Standing::common_practice};
inline constexpr Source fuse_protects{.id = "common-practice",
                                      .cite = "I_n at most the ampacity of the thinnest conductor",
                                      .standing = Standing::common_practice};
inline constexpr Source fuse_holds{.id = "common-practice",
                                   .cite = "common practice: 80 % of the rating for long",
                                   .standing = Standing::common_practice};
inline constexpr Source next_made_fuse{.id = "us-33-cfr-183", .cite = "33 CFR 183.455(c)(1): at most 150 % of Table 5"};
inline constexpr Source fuse_of_the_manual{.id = "profile", .cite = "fuse_max"};
inline constexpr Source fuse_at_the_source{
    .id = "us-33-cfr-183", .cite = "33 CFR 183.455(b): a fuse at every end from which a source can feed a run"};

/// In a trade journal.
inline constexpr Source panel_currents{.id = "nec-690.8", .cite = "NEC 690.8(A) and (B), in a trade journal"};
/// From memory.
inline constexpr Source string_fuses{
    .id = "iec-62548", .cite = "IEC 62548: a fuse for each of three strings or more", .standing = Standing::memory};

/// From memory, as the rows of data/fuses/time_limits.toml mostly are.
inline constexpr Source fuse_times{
    .id = "fuse-time-limits", .cite = "the families' time limits", .standing = Standing::memory};

/// Three makers' sheets: 0.1 to 0.8 ms at a short, 0.5 to 1.5 s at two to three times the rating.
inline constexpr Source electronics{
    .id = "makers-sheets", .cite = "sheets of makers of protection boards", .standing = Standing::read};
/// From memory: the column of that name in data/short_circuit.toml.
inline constexpr Source overload{
    .id = "iso-6722-1", .cite = "ISO 6722-1: an overload of 50 K for hours", .standing = Standing::memory};
/// From memory.
inline constexpr Source withstand{.id = "iec-60364-4-43", .cite = "IEC 60364-4-43", .standing = Standing::memory};
/// From memory: see PartRating.
inline constexpr Source part_curves{
    .id = "makers-curves", .cite = "makers' curves, from memory", .standing = Standing::memory};

}  // namespace voltwright::sources
