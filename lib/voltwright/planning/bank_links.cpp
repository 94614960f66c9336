#include "voltwright/planning/bank_links.hpp"

#include "voltwright/tables/practice.hpp"

#include <algorithm>

namespace voltwright {

namespace {

/// What may be lost on the way from one battery; crosswise all lose the same, and so share alike. Common practice, no source.
constexpr Ratio bank_drop = percent(3);

bool begins_there(const RunPlan& run) { return run.task.from.kind == PlaceKind::house_battery; }
bool ends_there(const RunPlan& run) { return run.task.to.kind == PlaceKind::house_battery; }

/// Into the bank, or out of it.
Current most_of(const std::vector<RunPlan>& runs) {
    Current in{}, out{};
    for (const RunPlan& run : runs) {
        if (ends_there(run)) in += run.choice.design.current;
        if (begins_there(run)) out += run.choice.design.current;
    }
    return std::max(in, out);
}

/// The part of its way that lies at the bank.
WayPart way_at_bank(const RunPlan& run) { return ends_there(run) ? run.task.run.way.back() : run.task.run.way.front(); }

/// Behind a battery's fuse are the others: its own short it need not break.
InternalResistance of_the_others(const InternalResistance& bank, int count) {
    const double fewer = static_cast<double>(count) / static_cast<double>(count - 1);
    InternalResistance others = bank;
    others.expected = fewer * bank.expected;
    others.low = fewer * bank.low;
    others.high = fewer * bank.high;
    return others;
}

/// In the hottest surroundings that a run meets at the bank, and of the least insulation there.
CableRun link_at(const System& system, const std::vector<RunPlan>& runs, const Tables& tables) {
    CableRun link{.name = "battery bank", .length = practice(tables, PracticeLength::bank_link).value};
    for (const RunPlan& run : runs) {
        const CableRun& cable = run.task.run;
        if (!(begins_there(run) || ends_there(run)) || cable.way.empty() || cable.fused_at.empty()) continue;
        const WayPart part = way_at_bank(run);
        if (link.way.empty() || part.around > link.way.front().around) link.way = {part};
        if (link.fused_at.empty() || cable.insulation < link.insulation) {
            link.insulation = cable.insulation;
            link.insulation_material = cable.insulation_material;
        }
        const FuseEnd& end = cable.fused_at.front();
        if (end.at.kind != PlaceKind::house_battery) continue;
        if (link.fused_at.empty() || end.around > link.fused_at.front().around) link.fused_at = {end};
    }
    for (FuseEnd& end : link.fused_at) end.internal = of_the_others(end.internal, system.house.count);
    if (const auto& stud = system.house.stud) link.studs = {stud->diameter};
    link.on_post = true;
    return link;
}

}  // namespace

const Candidate* BankLinks::to_lay() const {
    const Candidate* taken = choice.nothing_fits() ? nullptr : choice.chosen();
    return taken && !taken->fuses.empty() ? taken : nullptr;
}

std::optional<BankLinks> bank_links(const System& system, const std::vector<RunPlan>& runs, const Tables& tables) {
    const int count = system.house.count;
    if (count < 2) return {};
    CableRun link = link_at(system, runs, tables);
    if (link.fused_at.empty()) return {};
    const double uneven = in_ratio(practice(tables, PracticeShare::bank_uneven).value);
    const Current most = most_of(runs);
    const Current share = uneven * most / static_cast<double>(count);
    Choice choice =
        choose_cable(link, SteadyLoad{.current = share}, Supply{nominal_voltage, nominal_voltage, bank_drop},
                     system.rules, tables, Ladder::needed);
    return BankLinks{count, most, share, std::move(link), std::move(choice)};
}

}  // namespace voltwright
