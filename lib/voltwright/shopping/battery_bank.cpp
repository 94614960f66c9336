#include "voltwright/shopping/battery_bank.hpp"

#include "voltwright/shopping/cable_parts.hpp"
#include "voltwright/shopping/fuse_parts.hpp"
#include "voltwright/shopping/lugs.hpp"
#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

// data/practice/lengths.toml.
const Length bank_link = in_practice(PracticeLength::bank_link);
/// What may be lost between two batteries of a bank, so that they share alike.
constexpr Ratio bank_drop = percent(1);

/// What flows in and out of the bank, and the run that charges it.
struct BankCurrents {
    Current in{}, out{};
    const RunPlan* output = nullptr;

    [[nodiscard]] Current most() const { return std::max(in, out); }
};

BankCurrents currents_of(const Plan& plan) {
    BankCurrents bank;
    for (const RunPlan& run : plan.runs) {
        if (!run.sized()) continue;
        if (run.task.to.kind == PlaceKind::house_battery) {
            bank.in += run.choice.design.current;
            bank.output = &run;
        }
        if (run.task.from.kind == PlaceKind::house_battery) bank.out += run.choice.design.current;
    }
    return bank;
}

/// A link between two batteries: where the charging run ends, and of its insulation.
CableRun link_of(const CableRun& output, const System& system, const std::string& name) {
    CableRun link{.name = name, .length = bank_link};
    link.way = {output.way.back()};
    link.insulation = output.insulation;
    link.fused_at = {output.fused_at.front()};
    if (const auto& stud = system.house.stud) link.studs = {stud->diameter};
    return link;
}

}  // namespace

void add_battery_bank(PartsList& list, const System& system, const Plan& plan, const Tables& tables) {
    const int count = system.house.count;
    if (count < 2) return;
    const BankCurrents bank = currents_of(plan);
    if (!bank.output || bank.output->task.run.fused_at.empty())
        return note_once(list.not_listed, {.code = PartsNoteCode::bank_not_known, .count = count});
    const std::string name = "battery bank";
    const CableRun link = link_of(bank.output->task.run, system, name);
    const Choice choice =
        choose_cable(link, SteadyLoad{.current = bank.most()}, Supply{nominal_voltage, nominal_voltage, bank_drop},
                     system.rules, tables, Ladder::needed);
    const Candidate* taken = choice.chosen();
    if (!taken || taken->fuses.empty())
        return note_once(list.not_listed,
                         {.code = PartsNoteCode::bank_no_size_passes, .current = bank.most(), .count = count});
    for (int i = 1; i < count; ++i) {
        for (const std::string_view colour : {"red", "black"})
            add_cable(list, cable_of(colour, taken->size, link.insulation, bank_link), name);
        add_lugs(list, system, {LugsAt::end, the(PlaceKind::house_battery), taken->size, 4}, name, tables);
    }
    const FuseFit& fuse = taken->fuses.front();
    add_fuses(list, fuse.family, fuse.rating, name, count);
    add_holders(list, fuse.family, fuse.form, holder_carries(fuse, choice), taken->area, name, count, tables);
    if (fuse.form == FuseForm::bolted) add_lugs(list, system, {LugsAt::fuse, {}, taken->size, 2 * count}, name, tables);
}

}  // namespace voltwright
