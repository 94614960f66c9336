#include "voltwright/sizing/candidate.hpp"

#include "voltwright/sizing/fitting.hpp"
#include "voltwright/sizing/main_fuse.hpp"
#include "voltwright/sizing/short_time.hpp"

#include <algorithm>
#include <stdexcept>

namespace voltwright {

std::string_view show(Criterion criterion) {
    switch (criterion) {
        case Criterion::mechanical: return "mechanical strength";
        case Criterion::terminal: return "terminal";
        case Criterion::lug: return "lug for the stud";
        case Criterion::ampacity: return "ampacity";
        case Criterion::part: return "part in the run";
        case Criterion::fuse: return "fuse";
        case Criterion::clearing: return "clearing of a short";
        case Criterion::withstand: return "withstand";
        case Criterion::delivery: return "power delivery";
        case Criterion::drop: return "voltage drop";
        case Criterion::charger_input: return "charger input";
        case Criterion::price: return "price";
    }
    return "";
}

namespace {

std::optional<Current> largest_fuse(const std::vector<PartRating>& parts) {
    std::optional<Current> least;
    for (const PartRating& part : parts) least = std::min(least.value_or(part.largest_fuse()), part.largest_fuse());
    return least;
}

/// The lead from a battery's post to the fuse beside it, cold, with the lug on the post.
Resistance lead_to_fuse(const SizingProblem& problem, const ConductorRow& conductor) {
    // Behind other runs: those are the lead.
    if (problem.run.upstream.cold > Resistance{}) return problem.run.upstream.cold;
    return lead_from_post(conductor, *problem.run.length, problem.rules, problem.tables);
}

void judge_fuses(const SizingProblem& problem, const Conductors& both, Candidate& candidate) {
    const Current ampacity = candidate.ampacity ? candidate.ampacity->current : Current{};
    for (const FuseEnd& end : problem.run.fused_at) {
        FuseWish wish{.end = end,
                      .design = problem.design.current,
                      .ampacity = ampacity,
                      .conductor = both.out.area,
                      .parts = largest_fuse(candidate.parts),
                      .appliance = fuse_max(problem.load),
                      .largest = starts_hard(problem.load),
                      .behind = problem.run.motor_fuse,
                      .lead = lead_to_fuse(problem, both.out),
                      .starting = problem.run.starting,
                      .most = peak_current(problem.design),
                      .for_one_appliance = problem.run.to_one_appliance,
                      .next_made = problem.next_made,
                      .in_front = problem.run.upstream.breaks};
        candidate.windows.push_back(fuse_window(wish, problem.rules, problem.tables));
        std::vector<ShortCurrent> passes;
        if (problem.design.short_time) {
            passes = to_let_pass(problem.run, problem.design, candidate.windows.back().rerating);
            wish.starting = passes;
        }
        // The breaking capacity and an end left without a fuse are no matter of the size: the plan finds them. But what lets
        // a short time pass and breaks enough may want a larger fuse, and that a thicker cable.
        if (left_bare(problem.run, end)) continue;
        const FuseOfRating* given = given_fuse(problem.run, end);
        std::optional<FuseFit> fit = given                 ? judge_fuse(*given, wish, problem.rules, problem.tables)
                                     : problem.run.on_post ? choose_main_fuse(wish, problem.rules, problem.tables)
                                                           : choose_fuse(wish, problem.rules, problem.tables);
        if (fit && !given && wants_thicker_cable(*fit, wish, problem.rules, problem.tables)) fit.reset();
        if (fit) fit->have = given && problem.run.have_fuse;
        const bool too_large = fit && !fit->in_window && fit->rating > fit->window.at_most;
        const bool bursts = fit && !fit->given && problem.design.short_time && !breaks_enough(*fit);
        if (!fit || too_large || bursts) candidate.fails.push_back(Criterion::fuse);
        if (fit) candidate.fuses.push_back(*std::move(fit));
    }
}

/// The run's resistance at 20 °C, its fuses and joints among it.
RunResistance cold_resistance(const SizingProblem& problem, const Conductors& both, const Candidate& candidate) {
    std::vector<JointResistance> joints = joints_of(problem.run, both.out.area, problem.tables);
    for (const FuseFit& fuse : candidate.fuses) {
        const Resistance both_parts = fuse.link.value + fuse.holder.value;
        joints.push_back({fuse.family + " fuse and its holder", 1, {both_parts, fuse.link.source}, both_parts});
    }
    std::optional<Cited<Resistance>> body;
    if (problem.run.body) body = problem.run.body->resistance;
    const auto cold = [](const ConductorRow& row) { return conductor_resistance(row, Coating::plain, celsius(20)); };
    return run_resistance(problem.run.length, cold(both.out),
                          both.back ? std::optional(cold(*both.back)) : std::nullopt, std::move(body),
                          std::move(joints));
}

/// The highest that the loop may be in a fault: conductors as hot as their insulation allows, and a body that nobody
/// measured at the high end of its range.
Resistance hot_loop(const SizingProblem& problem, const Conductors& both, const RunResistance& cold) {
    const Temperature rated = problem.run.insulation;
    const auto hot = [&](const ConductorRow& row) {
        return resistance_per_length(row, Coating::plain, rated) * cold.length;
    };
    Resistance returning{};
    if (both.back)
        returning = hot(*both.back);
    else
        returning = std::max(cold.body->value, problem.run.body->high.value_or(Resistance{}));
    return hot(both.out) + returning + cold.all_joints;
}

std::optional<Ampacity> ampacity_of(const SizingProblem& problem, const Conductors& both) {
    return ampacity(problem.tables, problem.rules.ampacity_basis, both.thinner(), problem.run.insulation,
                    hottest_surroundings(problem.run), problem.run.loaded_in_bundle,
                    where_bundles_count(problem.rules, problem.tables));
}

bool is_enough(const SizingProblem& problem, const Conductors& both, const std::optional<Ampacity>& ampacity) {
    if (!ampacity) return false;
    const auto& panel = problem.design.panel;
    return ampacity->current >= lasting_current(problem.design, problem.run, both.thinner().area, ampacity) &&
           (!panel || ampacity->table.value >= panel->table_least);
}

/// Of parts only what they carry for long is known.
bool is_enough(const SizingProblem& problem, const std::vector<PartRating>& parts) {
    return std::none_of(parts.begin(), parts.end(),
                        [&](const PartRating& part) { return part.rating < peak_current(problem.design); });
}

/// As warm as a current makes it where it is hottest, at most at its insulation's rating.
Temperature warmed(const CableRun& run, const std::optional<Ampacity>& limit, Current current) {
    const Temperature around = hottest_surroundings(run);
    if (!limit || !(limit->current > Current{})) return around;
    const auto settled =
        conductor_temperature(around, current, limit->rated, limit->reference, limit->table.value, limit->grouping);
    return std::min(settled.temperature, run.insulation);
}

void judge_shorts(const SizingProblem& problem, const Conductors& both, Candidate& candidate) {
    const Area own = both.thinner().area, thinner = std::min(own, problem.run.downstream.thinnest.value_or(own));
    const Resistance around_it = problem.run.upstream.hot + problem.run.downstream.hot;
    const auto conductor = shorted_conductor(problem.run, thinner, candidate.ampacity, problem.design, problem.tables);
    for (const FuseFit& fuse : candidate.fuses) {
        const auto end = std::find_if(problem.run.fused_at.begin(), problem.run.fused_at.end(),
                                      [&](const FuseEnd& one) { return one.at == fuse.at; });
        if (end == problem.run.fused_at.end() || !conductor) continue;
        candidate.protection.push_back(protect(fuse, *end, around_it + candidate.hot_loop, *conductor, problem.tables));
    }
    const Temperature start =
        warmed(problem.run, candidate.ampacity, lasting_current(problem.design, problem.run, own, candidate.ampacity));
    for (const ShortCurrent& starting : problem.run.starting) {
        const Withstand heat = withstand(own, start, problem.run.insulation, starting.current, starting.time);
        if (!candidate.start || heat.let_through > candidate.start->let_through) candidate.start = heat;
    }
    const auto any = [&](auto fails) {
        return std::any_of(candidate.protection.begin(), candidate.protection.end(), fails);
    };
    if (any([](const Protection& one) { return !one.lasts_safely(); })) candidate.fails.push_back(Criterion::clearing);
    if (any([](const Protection& one) { return !one.withstands(); }) || (candidate.start && !candidate.start->holds()))
        candidate.fails.push_back(Criterion::withstand);
}

/// Is there a lug for each conductor and each stud? Not asked of a run without lugs.
bool has_lugs(const SizingProblem& problem, const Conductors& both) {
    const auto& joints = problem.run.joints;
    if (joints && std::none_of(joints->begin(), joints->end(), [&](const Joint& joint) {
            return joint_kind(problem.tables, joint.name) == JointKind::lug;
        }))
        return true;
    return std::all_of(problem.run.studs.begin(), problem.run.studs.end(), [&](Length stud) {
        return lug_takes(both.out.area, stud, problem.tables) &&
               (!both.back || lug_takes(both.back->area, stud, problem.tables));
    });
}

}  // namespace

std::optional<ShortedConductor> shorted_conductor(const CableRun& run, Area thinner,
                                                  const std::optional<Ampacity>& ampacity, const DesignCurrent& before,
                                                  const Tables& tables) {
    const ShortCircuitLimitRow* row = find_short_circuit_limit(tables, run.insulation, run.insulation_material);
    if (!row) return {};
    return ShortedConductor{heated_conductor(thinner, run.insulation, hottest_surroundings(run), ampacity),
                            warmed(run, ampacity, lasting_current(before, run, thinner, ampacity)), row->limit,
                            std::min<Temperature>(run.insulation + row->overload, row->limit)};
}

bool too_weak(const SizingProblem& problem, const Conductors& both) {
    return both.thinner().area < problem.rules.smallest;
}

bool carries(const SizingProblem& problem, const Conductors& both) {
    return is_enough(problem, both, ampacity_of(problem, both));
}

bool parts_carry(const SizingProblem& problem, const Conductors& both) {
    return is_enough(problem, part_ratings(problem.run, both.out.area, problem.tables));
}

namespace {

/// The drop, and what a charger still sees at the lowest voltage.
void judge_voltage(const SizingProblem& problem, const Conductors& both, RunResistance cold, Candidate& candidate) {
    const auto fail = [&](Criterion criterion) { candidate.fails.push_back(criterion); };
    const WarmRun warm = warm_run(problem.run, both, candidate.ampacity, cold, problem.rules, problem.tables);
    if (const auto usual = settle(problem.load, warm, problem.supply.normal)) {
        candidate.drop =
            drop_check(*usual, with_conductors_at(both, std::move(cold), usual->conductors), problem.supply);
        if (!(candidate.drop->drop <= candidate.drop->allowed)) fail(Criterion::drop);
        candidate.temperature = conductor_temperature(problem.run, candidate, candidate.drop->current);
    } else {
        candidate.cold = std::move(cold);
        fail(Criterion::delivery);
    }
    const auto* charger = std::get_if<ConverterLoad>(&problem.load);
    if (!charger) return;
    const Voltage required = charger->input_off + input_margin;
    const auto lowest = settle(problem.load, warm, problem.supply.lowest);
    if (lowest) candidate.lowest = LowestInput{*lowest->input, charger->input_off, required, lowest->input->voltage};
    if (!lowest || lowest->input->voltage < required) fail(Criterion::charger_input);
}

}  // namespace

Candidate judge(const SizingProblem& problem, Gauge size) {
    const CableRun& run = problem.run;
    const Conductors both = conductors_of(run, size, problem.tables);
    Candidate candidate;
    candidate.size = size;
    candidate.area = both.out.area;
    const auto fail = [&](Criterion criterion) { candidate.fails.push_back(criterion); };

    if (too_weak(problem, both)) fail(Criterion::mechanical);
    if (run.terminal && std::max(both.out.area, both.back ? both.back->area : Area{}) > *run.terminal)
        fail(Criterion::terminal);
    if (!has_lugs(problem, both)) fail(Criterion::lug);

    candidate.ampacity = ampacity_of(problem, both);
    if (!is_enough(problem, both, candidate.ampacity)) fail(Criterion::ampacity);
    candidate.parts = part_ratings(run, both.out.area, problem.tables);
    if (!is_enough(problem, candidate.parts)) fail(Criterion::part);
    judge_fuses(problem, both, candidate);

    RunResistance cold = cold_resistance(problem, both, candidate);
    candidate.cold_loop = cold.loop;
    candidate.hot_loop = hot_loop(problem, both, cold);
    if (!run.fused_at.empty()) {
        const FuseEnd& end = run.fused_at.front();
        candidate.far_fault = fault_current(end.open_circuit, end.internal.expected, run.upstream.cold + cold.loop);
    }
    judge_shorts(problem, both, candidate);
    judge_voltage(problem, both, std::move(cold), candidate);
    return candidate;
}

WarmRun warm_run(const CableRun& run, const Candidate& candidate, const Rules& rules, const Tables& tables) {
    return warm_run(run, conductors_of(run, candidate.size, tables), candidate.ampacity, candidate.resistance(), rules,
                    tables);
}

RunResistance resistance_of(const WarmRun& run, RunResistance resistance, WarmRun::Temperatures conductors) {
    return with_conductors_at({run.out, run.back}, std::move(resistance), conductors);
}

std::optional<ConductorTemperature> conductor_temperature(const CableRun& run, const Candidate& candidate,
                                                          Current current) {
    const auto& limit = candidate.ampacity;
    if (!limit || !(limit->current > Current{})) return {};
    auto settled = conductor_temperature(hottest_surroundings(run), current, limit->rated, limit->reference,
                                         limit->table.value, limit->grouping);
    if (run.short_time) settled.temperature = std::min(settled.temperature, run.insulation);
    return settled;
}

}  // namespace voltwright
