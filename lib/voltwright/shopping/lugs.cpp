#include "voltwright/shopping/lugs.hpp"

#include "voltwright/shopping/articles.hpp"
#include "voltwright/shopping/cable_parts.hpp"
#include "voltwright/sizing/fitting.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

// Common practice, no source.
constexpr Ratio lug_shrink = ratio(3);
/// Heat-shrink on one lug, as it lies there: four times the cable, a thumb's width at least.
constexpr double shrink_diameters = 4.0;
constexpr Length least_shrink = millimetres(30);
/// It shortens by 5 to 15 % on shrinking: two sellers' pages, read.
constexpr Ratio shortening = percent(15);

/// How many lugs and clamps the joints of a run count.
std::pair<int, int> lugs_and_clamps(const SystemRun& run, const Candidate& candidate, const Tables& tables) {
    int lugs = 0, clamps = 0;
    for (const JointResistance& joint : joints_of(run.run, candidate.area, tables)) {
        const auto kind = joint_kind(tables, joint.name);
        if (kind == JointKind::lug) lugs += joint.count;
        if (kind == JointKind::battery_clamp) clamps += joint.count;
    }
    return {lugs, clamps};
}

void add_shrink(PartsList& list, Gauge size, int count, const std::string& run, const Tables& tables) {
    const auto conductor = conductor_of(tables, size);
    const auto outside = conductor ? outside_of(*conductor) : std::nullopt;
    const ShrinkTubeRow* tube = outside ? shrink_for(*outside, lug_shrink, tables) : nullptr;
    if (!tube) return note_once(list.to_look, {.code = PartsNoteCode::shrink_not_known, .size = size});
    const Length shrunk = std::max<Length>(least_shrink, shrink_diameters * *outside);
    add(list,
        {.kind = PartKind::heat_shrink,
         .what = std::string(article::heat_shrink),
         .bore = tube->supplied,
         .length = static_cast<double>(count) * shrunk / (Ratio{1.0} - shortening)},
        run);
}

}  // namespace

std::vector<PlacedLugs> lugs_of(const SystemRun& run, const Candidate& candidate, const Tables& tables) {
    const auto back = back_of(run, candidate.size);
    const auto [lugs, clamps] = lugs_and_clamps(run, candidate, tables);
    std::vector<PlacedLugs> all;
    // Of both conductors in turn.
    const auto place = [&](const std::optional<Place>& end, int count) {
        const LugsAt at = end ? LugsAt::end : LugsAt::between;
        const int of_back = back ? count / 2 : 0;
        if (count - of_back > 0) all.push_back({at, end, candidate.size, count - of_back});
        if (of_back > 0) all.push_back({at, end, *back, of_back});
    };
    // The ends: one connection a conductor each, clamps on the battery's. A lug more sits somewhere between.
    const int each = back ? 2 : 1;
    const bool battery_last = !is_battery(run.from) && run.to.kind == PlaceKind::house_battery;
    const int at_first = std::max(each - (battery_last ? 0 : clamps), 0);
    const int at_last = std::max(each - (battery_last ? clamps : 0), 0);
    // A regulator's terminals clamp ferrules: what lugs there are sit at the other end.
    const int first = std::clamp(run.from.kind == PlaceKind::regulator ? lugs - at_last : lugs, 0, at_first);
    const int last = std::clamp(lugs - first, 0, at_last);
    place(run.from, first);
    place(run.to, last);
    place({}, lugs - first - last);
    if (!back) {
        all.push_back({LugsAt::end, run.to, candidate.size, 1});
        all.push_back({LugsAt::earth_point, {}, candidate.size, 1});
    }
    for (const FuseFit& fuse : candidate.fuses)
        if ((fuse.form == FuseForm::bolted || fuse.form == FuseForm::breaker) && !fuse.have) all.push_back({LugsAt::fuse, {}, candidate.size, 2});
    return all;
}

Part lug_for(const System& system, const PlacedLugs& lugs, const Tables& tables) {
    Part lug{.kind = PartKind::lug, .what = std::string(article::ring_lug), .size = lugs.size, .count = lugs.count};
    if (lugs.at == LugsAt::fuse) lug.what = article::fuse_stud_lug;
    if (lugs.at == LugsAt::earth_point) lug.what = article::earth_lug;
    if (const auto stud = lugs.end ? stud_at(system, *lugs.end) : std::nullopt) {
        const StudRow* hole = find_stud(tables, stud->diameter);
        lug.stud = hole ? hole->diameter : stud->diameter;
    }
    return lug;
}

void add_lugs(PartsList& list, const System& system, const PlacedLugs& lugs, const std::string& run,
              const Tables& tables) {
    Part part = lug_for(system, lugs, tables);
    if (!part.stud && lugs.end && has_terminals(*lugs.end))
        note_once(list.to_look, {.code = PartsNoteCode::stud_not_named, .place = lugs.end});
    add(list, std::move(part), run);
    add_shrink(list, lugs.size, lugs.count, run, tables);
}

bool has_terminals(const Place& place) { return is_battery(place) || place.kind == PlaceKind::charger; }

bool wants_stud(const Part& lug) { return !lug.stud && lug.what == article::ring_lug; }

}  // namespace voltwright
