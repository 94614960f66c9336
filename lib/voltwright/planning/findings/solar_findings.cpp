#include "voltwright/planning/findings/sources.hpp"
#include "voltwright/planning/findings/system_concerns.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

/// Whether the profile gives a fuse at the house battery; one at the regulator's end does not part the battery from a
/// short.
bool fused_at_the_battery(const std::vector<GivenFuse>& given) {
    return std::any_of(given.begin(), given.end(), [](const GivenFuse& one) {
        return one.fuse && (!one.at || one.at->kind == PlaceKind::house_battery);
    });
}

Finding load_on_the_regulator(FindingSubject about) {
    return {.level = Level::warn,
            .code = FindingCode::solar_load,
            .about = std::move(about),
            .source = sources::fuse_at_the_source};
}

/// A cable that the house battery feeds, and that nobody sizes here.
Finding not_sized(FindingSubject about, Current fault) {
    return {.level = Level::warn,
            .code = FindingCode::solar_not_sized,
            .about = std::move(about),
            .found = fault,
            .source = sources::fuse_at_the_source};
}

}  // namespace

void find_solar_cables(const SystemContext& of, Findings& found) {
    if (!of.system.solar) return;
    const Current fault = of.system.house.chemistry->full / of.system.house.internal.expected;
    bool described = false;
    for (const SystemRun& run : of.system.runs) {
        if (run.from.kind != PlaceKind::regulator) continue;
        const FindingSubject about{FindingSubject::Kind::run, {*run.run.name}};
        if (run.to.kind != PlaceKind::house_battery) {
            found.push_back(load_on_the_regulator(about));
            continue;
        }
        described = true;
        Finding one = not_sized(about, fault);
        if (!run.run.given_fuses.empty() && !fused_at_the_battery(run.run.given_fuses)) {
            one.level = Level::stop;
            one.code = FindingCode::solar_no_fuse;
        }
        found.push_back(std::move(one));
    }
    if (!described) found.push_back(not_sized({FindingSubject::Kind::panel_cable}, fault));
}

}  // namespace voltwright
