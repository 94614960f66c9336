#include "voltwright/sizing/parts_in_run.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// The next rating that fuses are sold in, or the next ten amperes above them all.
Current next_rating(Current least, const Tables& tables) {
    std::optional<Current> next;
    for (const FuseRow& row : tables.fuses)
        if (row.rating >= least && (!next || row.rating < *next)) next = row.rating;
    return next.value_or(amperes(10.0 * std::ceil(in_amperes(least) / 10.0)));
}

}  // namespace

std::vector<UnratedPart> unrated_parts(const CableRun& run, const Candidate& candidate, Current design,
                                       const Tables& tables) {
    Current least = design;
    for (const FuseFit& fuse : candidate.fuses) least = std::max(least, fuse.rating);
    for (const ShortCurrent& start : run.starting) least = std::max<Current>(least, start.current / 2.0);
    std::vector<UnratedPart> parts;
    for (const JointResistance& joint : joints_of(run, candidate.area, tables)) {
        const JointRow* row = find_joint(tables, joint.name, candidate.area);
        const bool known = std::any_of(candidate.parts.begin(), candidate.parts.end(),
                                       [&](const PartRating& part) { return part.part == joint.name; });
        if (row && row->rating_on_it.value_or(false) && !known)
            parts.push_back({joint.name, next_rating(least, tables)});
    }
    return parts;
}

std::vector<JointHeat> hot_joints(const CableRun& run, const Candidate& candidate, Current design,
                                  const Tables& tables) {
    std::vector<JointHeat> hot;
    if (tables.joints.empty()) return hot;
    for (const JointResistance& joint : joints_of(run, candidate.area, tables)) {
        const JointRow* row = find_joint(tables, joint.name, candidate.area);
        // The limit is one for the whole table; a measured joint has no row.
        const JointRow& limits = row ? *row : tables.joints.front();
        const Power limit = limits.heat_limit * static_cast<double>(row ? row->contacts.value_or(1) : 1);
        const Power heat = design * (design * joint.each.value);
        const bool told = std::any_of(candidate.parts.begin(), candidate.parts.end(), [&](const PartRating& part) {
            return part.part == joint.name && part.rating < design;
        });
        const bool known =
            std::any_of(hot.begin(), hot.end(), [&](const JointHeat& other) { return other.part == joint.name; });
        if (heat > limit && !told && !known) hot.push_back({joint.name, heat, limit, limits.heat_limit_source});
    }
    return hot;
}

}  // namespace voltwright
