#include "voltwright/shopping/fuse_parts.hpp"

#include "voltwright/shopping/articles.hpp"
#include "voltwright/shopping/lugs.hpp"

#include <algorithm>

namespace voltwright {

namespace {

bool sits_in(const FuseFit& fuse, const FusePlace& place) {
    return fuse.form == FuseForm::blade && place.at == fuse.at && place.family == fuse.family;
}

/// A cable counts as thicker than the leads of a holder from a hundredth on: both are printed rounded.
constexpr double thicker = 1.01;

}  // namespace

std::vector<FusePlace> fuse_places(const std::vector<RunPlan>& runs) {
    std::vector<FusePlace> places;
    for (const RunPlan& run : runs) {
        if (!run.to_lay()) continue;
        for (const FuseFit& fuse : run.to_lay()->fuses) {
            if (fuse.form != FuseForm::blade || has_terminals(fuse.at)) continue;
            auto place =
                std::find_if(places.begin(), places.end(), [&](const FusePlace& one) { return sits_in(fuse, one); });
            if (place == places.end()) {
                const bool behind_main = std::any_of(runs.begin(), runs.end(), [&](const RunPlan& one) {
                    return one.task.main_fuse && one.task.to == fuse.at;
                });
                place = places.insert(place, {.at = fuse.at, .family = fuse.family, .behind_main = behind_main});
            }
            ++place->ways;
            place->owned += fuse.have ? 1 : 0;
            name_once(place->runs, *run.task.run.name);
        }
    }
    return places;
}

void add_fuses(PartsList& list, const std::string& family, Current rating, const std::string& run, int count) {
    add(list,
        {.kind = PartKind::fuse, .what = article::fuse(family), .rating = rating, .family = family, .count = count},
        run);
}

void add_holders(PartsList& list, const std::string& family, FuseForm form, bool in_line, Area cable,
                 const std::string& run, int count, const Tables& tables) {
    const bool in_cable = form == FuseForm::blade && in_line;
    add(list,
        {.kind = PartKind::fuse_holder,
         .what = article::fuse_holder(family, form, in_line),
         .family = family,
         .in_line = in_cable,
         .count = count},
        run);
    if (!in_cable) return;
    const FuseFamilyRow* row = find_fuse_family(tables, family);
    if (row && row->in_line_area && cable > thicker * *row->in_line_area)
        note_once(list.to_look, {.code = PartsNoteCode::leads_too_thin, .run = run});
}

bool holder_carries(const FuseFit& fuse, const Choice& choice) {
    return !fuse.in_line || choice.design.current <= fuse.in_line->rating;
}

void add_fuses_of(PartsList& list, const RunPlan& run, const Candidate& taken, const std::vector<FusePlace>& places,
                  const Tables& tables) {
    const std::string& name = *run.task.run.name;
    for (const FuseFit& fuse : taken.fuses) {
        if (fuse.have) {
            list.owned.push_back({.code = PartsNoteCode::owned_fuse,
                                  .run = name,
                                  .family = fuse.family,
                                  .place = fuse.at,
                                  .current = fuse.rating});
            continue;
        }
        add_fuses(list, fuse.family, fuse.rating, name);
        const bool in_a_block = std::any_of(places.begin(), places.end(), [&](const FusePlace& place) {
            return place.is_block() && sits_in(fuse, place);
        });
        if (!in_a_block && fuse.form != FuseForm::breaker)
            add_holders(list, fuse.family, fuse.form, holder_carries(fuse, run.choice), taken.area, name, 1, tables);
    }
}

void add_fuse_blocks(PartsList& list, const std::vector<FusePlace>& places) {
    for (const FusePlace& place : places) {
        if (!place.is_block() || place.owned == place.ways) continue;
        Part& line = add(list,
                         {.kind = PartKind::fuse_block,
                          .what = article::fuse_block(place.family, place.ways),
                          .family = place.family},
                         place.runs.front());
        for (const std::string& run : place.runs) name_once(line.runs, run);
        if (place.owned > 0)
            note_once(list.to_look,
                      {.code = PartsNoteCode::block_partly_there, .place = place.at, .count = place.ways});
    }
}

}  // namespace voltwright
