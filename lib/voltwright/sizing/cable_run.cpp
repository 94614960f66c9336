#include "voltwright/sizing/cable_run.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

std::vector<JointResistance> joints_of(const CableRun& run, Area area, const Tables& tables) {
    const std::vector<Joint> usual(run.body ? 2 : 4, Joint{"lug", {}});
    std::vector<JointResistance> joints;
    for (const Joint& joint : run.joints.value_or(usual)) {
        const auto same = std::find_if(joints.begin(), joints.end(), [&](const JointResistance& other) {
            return !joint.measured && other.name == joint.name;
        });
        if (same != joints.end()) {
            ++same->count;
            same->total += same->each.value;
            continue;
        }
        if (joint.measured) {
            joints.push_back({joint.name, 1, {*joint.measured, {"profile", "given in the profile"}}, *joint.measured});
            continue;
        }
        const JointRow* row = find_joint(tables, joint.name, area);
        if (!row) throw std::logic_error("no such joint: " + joint.name);
        joints.push_back({joint.name, 1, {row->usual, row->source}, row->usual});
    }
    return joints;
}

const FuseOfRating* given_fuse(const CableRun& run, const FuseEnd& end) {
    for (const auto& [at, fuse] : run.given_fuses)
        if ((!at || *at == end.at) && fuse) return &*fuse;
    return nullptr;
}

bool left_bare(const CableRun& run, const FuseEnd& end) {
    if (given_fuse(run, end)) return false;
    return std::any_of(run.given_fuses.begin(), run.given_fuses.end(),
                       [&](const GivenFuse& one) { return !one.at || *one.at == end.at || one.fuse; });
}

std::vector<std::pair<Place, FuseOfRating>> fuses_elsewhere(const CableRun& run) {
    std::vector<std::pair<Place, FuseOfRating>> elsewhere;
    for (const auto& [at, fuse] : run.given_fuses) {
        const bool fed = at && std::any_of(run.fused_at.begin(), run.fused_at.end(),
                                           [&place = *at](const FuseEnd& end) { return end.at == place; });
        if (fuse && at && !fed) elsewhere.emplace_back(*at, *fuse);
    }
    return elsewhere;
}

Temperature hottest_surroundings(const CableRun& run) {
    Temperature hottest = run.way.empty() ? run.around : run.way.front().around;
    for (const WayPart& part : run.way) hottest = std::max(hottest, part.around);
    return hottest;
}

Temperature average_surroundings(const CableRun& run) {
    Length whole{};
    auto sum = Length{} * TemperatureRise{};
    for (const WayPart& part : run.way) {
        whole += part.length;
        sum += part.length * (part.around - celsius(0));
    }
    return whole > Length{} ? celsius(0) + sum / whole : run.around;
}

std::optional<PartRating> part_rating(const Joint& joint, const JointRow& row, Area area, Temperature around) {
    auto part = part_rating(row, area, around);
    if (!part && joint.rating) part = part_rating(joint.name, *joint.rating, {}, area, around);
    return part;
}

std::vector<PartRating> part_ratings(const CableRun& run, Area area, const Tables& tables) {
    std::vector<PartRating> parts;
    for (const Joint& joint : run.joints.value_or(std::vector<Joint>{})) {
        const JointRow* row = joint.measured ? nullptr : find_joint(tables, joint.name, area);
        const bool known =
            std::any_of(parts.begin(), parts.end(), [&](const PartRating& other) { return other.part == joint.name; });
        if (!row || known) continue;
        if (auto part = part_rating(joint, *row, area, hottest_surroundings(run))) parts.push_back(*std::move(part));
    }
    return parts;
}

}  // namespace voltwright
