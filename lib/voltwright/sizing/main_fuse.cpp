#include "voltwright/sizing/main_fuse.hpp"

#include <algorithm>
#include <limits>
#include <utility>
#include <vector>

namespace voltwright {

namespace {

/// Those on the post first: no cable lies before them.
std::vector<const FuseFamilyRow*> families_of(const Rules& rules, const Tables& tables) {
    std::vector<const FuseFamilyRow*> families;
    for (const FuseFamilyRow& family : tables.fuse_families)
        if (is_main_fuse(family, rules)) families.push_back(&family);
    std::stable_partition(families.begin(), families.end(),
                          [](const FuseFamilyRow* family) { return family->form == FuseForm::post; });
    return families;
}

/// The rules with no fuse but those of one family.
Rules only(const FuseFamilyRow& family, const Rules& rules, const Tables& tables) {
    Rules of_family = rules;
    of_family.shelf.emplace();
    if (rules.shelf) {
        std::copy_if(rules.shelf->begin(), rules.shelf->end(), std::back_inserter(*of_family.shelf),
                     [&](const FuseOfRating& fuse) { return fuse.family == family.family; });
        return of_family;
    }
    for (const FuseRow& fuse : tables.fuses)
        if (fuse.family == family.family) of_family.shelf->push_back({fuse.rating, std::string(fuse.family)});
    return of_family;
}

bool breaks(const FuseFit& fit) { return fit.fault.expected.current <= fit.fault.breaking_capacity.value; }

}  // namespace

bool is_main_fuse(const FuseFamilyRow& family, const Rules& rules) {
    if (family.form != FuseForm::bolted && family.form != FuseForm::post) return false;
    if (!rules.shelf) return family.usual;
    return std::any_of(rules.shelf->begin(), rules.shelf->end(),
                       [&](const FuseOfRating& fuse) { return fuse.family == family.family; });
}

bool wants_thicker_cable(const FuseFit& fuse, const FuseWish& wish, const Rules& rules, const Tables& tables) {
    if (wish.for_one_appliance || breaks_enough(fuse)) return false;
    FuseWish any_cable = wish;
    any_cable.ampacity = std::numeric_limits<Current>::infinity();
    const auto thicker = choose_fuse(any_cable, rules, tables);
    return thicker && breaks_enough(*thicker);
}

std::optional<FuseFit> choose_main_fuse(const FuseWish& wish, const Rules& rules, const Tables& tables) {
    FuseWish any_cable = wish;
    any_cable.ampacity = std::numeric_limits<Current>::infinity();
    for (const FuseFamilyRow* family : families_of(rules, tables)) {
        const Rules alone = only(*family, rules, tables);
        const auto fit = choose_fuse(wish, alone, tables);
        if (fit && breaks(*fit)) return fit;
        const auto thicker = choose_fuse(any_cable, alone, tables);
        if (thicker && breaks(*thicker)) return {};
    }
    return choose_fuse(wish, rules, tables);
}

}  // namespace voltwright
