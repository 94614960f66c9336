#include "voltwright/shopping/battery_bank.hpp"

#include "voltwright/shopping/articles.hpp"
#include "voltwright/shopping/cable_parts.hpp"
#include "voltwright/shopping/fuse_parts.hpp"
#include "voltwright/shopping/lugs.hpp"

#include <utility>

namespace voltwright {

void add_battery_bank(PartsList& list, const System& system, const Plan& plan, const Tables& tables) {
    const int count = system.house.count;
    if (count < 2) return;
    if (!plan.bank) return note_once(list.not_listed, {.code = PartsNoteCode::bank_not_known, .count = count});
    const BankLinks& bank = *plan.bank;
    const Candidate* taken = bank.to_lay();
    if (!taken)
        return note_once(list.not_listed,
                         {.code = PartsNoteCode::bank_no_size_passes, .current = bank.share, .count = count});
    const std::string& name = *bank.link.name;
    for (int i = 0; i < bank.pairs(); ++i) {
        for (const std::string_view colour : {"red", "black"})
            add_cable(list, cable_of(colour, taken->size, bank.link.insulation, bank.link.length), name);
        add_lugs(list, system, {LugsAt::end, the(PlaceKind::house_battery), taken->size, 4}, name, tables);
    }
    if (bank.bus_bars()) {
        Part bars{.kind = PartKind::part, .what = std::string(article::bus_bar), .count = 2};
        bars.at_least = bank.most;
        add(list, std::move(bars), name);
    }
    const FuseFit& fuse = taken->fuses.front();
    add_fuses(list, fuse.family, fuse.rating, name, count);
    add_holders(list, fuse.family, fuse.form, holder_carries(fuse, bank.choice), taken->area, name, count, tables);
    if (fuse.form == FuseForm::bolted) add_lugs(list, system, {LugsAt::fuse, {}, taken->size, 2 * count}, name, tables);
}

}  // namespace voltwright
