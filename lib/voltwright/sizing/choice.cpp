#include "voltwright/sizing/choice.hpp"

#include "voltwright/circuit/fuse_time.hpp"
#include "voltwright/sizing/fitting.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
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

const Candidate* Choice::least_that_fits() const {
    for (const Candidate& candidate : ladder)
        if (candidate.fits()) return &candidate;
    return nullptr;
}

DesignCurrent design_current(const RunLoad& load) {
    struct {
        DesignCurrent operator()(const ConverterLoad& charger) const {
            const FeedDesignCurrent feed =
                feed_design_current(charger.output, charger.highest_absorption.voltage, charger.efficiency,
                                    charger.input_off, charger.input_limit);
            return {feed, charger.highest_absorption, feed.current};
        }
        DesignCurrent operator()(const SteadyLoad& steady) const {
            return {{}, {}, steady.most.value_or(steady.current)};
        }
        DesignCurrent operator()(const PowerLoad& appliance) const {
            return {{}, {}, current_at(law_of(appliance), appliance.cut_out)};
        }
        DesignCurrent operator()(const ResistiveLoad& heater) const {
            return {{}, {}, current_at(law_of(heater), heater.highest)};
        }
    } of;
    return std::visit(of, load);
}

LoadLaw law_of(const RunLoad& load) {
    struct {
        LoadLaw operator()(const ConverterLoad& charger) const {
            return converter_power(charger.output, charger.absorption, charger.efficiency).power;
        }
        LoadLaw operator()(const SteadyLoad& steady) const { return *steady.current; }
        LoadLaw operator()(const PowerLoad& appliance) const { return *appliance.power; }
        LoadLaw operator()(const ResistiveLoad& heater) const { return *heater.resistance; }
    } of;
    return std::visit(of, load);
}

WarmRun::Temperatures WarmRun::at(Current current) const {
    const auto warmed = [&](const std::optional<Ampacity>& limit) {
        if (!limit) return around;
        const auto settled =
            conductor_temperature(around, current, limit->rated, limit->reference, limit->table.value, limit->grouping);
        return std::min(settled.temperature, celsius(1083));
    };
    const Temperature of_out = warmed(out_limit);
    return {of_out, back ? warmed(back_limit) : of_out};
}

Resistance WarmRun::loop(Temperatures conductors) const {
    Resistance both = resistance_per_length(out, Coating::plain, conductors.out) * length;
    if (back) both += resistance_per_length(*back, Coating::plain, conductors.back) * length;
    return both + fixed;
}

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

Protection protect(const FuseFit& fuse, const FuseEnd& end, Resistance loop, Area thinnest, Temperature start,
                   Temperature limit, const Tables& tables) {
    Protection protection{.at = fuse.at,
                          .lowest = fault_current(end.open_circuit, Protection::aged * end.internal.high, loop),
                          .clears = {},
                          .known = false,
                          .at_far = {},
                          .at_worst = {}};
    const Current lowest = protection.lowest.current;
    const auto far = fuse_time(tables, fuse.family, fuse.rating, lowest);
    const auto worst = most_let_through(tables, fuse.family, fuse.rating, lowest, fuse.fault.highest.current);
    protection.known = far.has_value();
    if (far && far->at_most) {
        protection.clears = far->at_most;
        protection.at_far = withstand(thinnest, start, limit, lowest, *far->at_most);
    }
    if (worst && worst->at_most)
        protection.at_worst = withstand(thinnest, start, limit, worst->current, *worst->at_most);
    return protection;
}

namespace {

/// Everything about a run that does not depend on the size under judgement.
struct Task {
    const CableRun& run;
    const RunLoad& load;
    const Supply& supply;
    const Rules& rules;
    const Tables& tables;
    DesignCurrent design;
};

Temperature hottest(const CableRun& run) {
    Temperature hottest = run.way.empty() ? run.around : run.way.front().around;
    for (const WayPart& part : run.way) hottest = std::max(hottest, part.around);
    return hottest;
}

/// The surroundings that the resistance feels: averaged by length.
Temperature average(const CableRun& run) {
    Length whole{};
    auto sum = Length{} * TemperatureRise{};
    for (const WayPart& part : run.way) {
        whole += part.length;
        sum += part.length * (part.around - celsius(0));
    }
    return whole > Length{} ? celsius(0) + sum / whole : run.around;
}

std::optional<Current> fuse_max(const RunLoad& load) {
    return std::visit([](const auto& one) { return one.fuse_max; }, load);
}

bool starts_hard(const RunLoad& load) {
    const auto* appliance = std::get_if<PowerLoad>(&load);
    return appliance && appliance->starts_hard && appliance->fuse_max;
}

/// What the parts in a run may carry, each named once.
std::vector<PartRating> parts_of(const Task& task, Area area) {
    std::vector<PartRating> parts;
    for (const Joint& joint : task.run.joints.value_or(std::vector<Joint>{})) {
        const JointRow* row = joint.measured ? nullptr : find_joint(task.tables, joint.name, area);
        const bool known =
            std::any_of(parts.begin(), parts.end(), [&](const PartRating& other) { return other.part == joint.name; });
        if (!row || known) continue;
        if (auto part = part_rating(*row, area, hottest(task.run))) parts.push_back(*std::move(part));
    }
    return parts;
}

std::optional<Current> largest_fuse(const std::vector<PartRating>& parts) {
    std::optional<Current> least;
    for (const PartRating& part : parts) least = std::min(least.value_or(part.largest_fuse()), part.largest_fuse());
    return least;
}

/// The conductors of a run in one size.
struct Conductors {
    ConductorRow out;
    std::optional<ConductorRow> back;  ///< empty with a body return

    [[nodiscard]] const ConductorRow& thinner() const { return back && back->area < out.area ? *back : out; }
};

Conductors conductors(const CableRun& run, Gauge size, const Tables& tables) {
    const auto row = [&](Gauge gauge) {
        auto found = conductor_of(tables, gauge);
        if (!found) throw std::logic_error("no such conductor: " + show(gauge));
        return *found;
    };
    Conductors both{row(size), {}};
    if (!run.body) both.back = row(run.return_size.value_or(size));
    return both;
}

Conductors conductors(const Task& task, Gauge size) { return conductors(task.run, size, task.tables); }

/// The lead from a battery's post to the fuse beside it, cold, with the lug on the post.
Resistance lead_to_fuse(const Task& task, const ConductorRow& conductor) {
    const AmpacityBasisRow* basis = find_ampacity_basis(task.tables, task.rules.ampacity_basis);
    if (!basis) throw std::logic_error("no such ampacity basis: " + task.rules.ampacity_basis);
    // Behind other runs: those are the lead.
    if (task.run.upstream.cold > Resistance{}) return task.run.upstream.cold;
    const Length length = std::min<Length>(basis->fuse_within.value_or(inches(7)), *task.run.length);
    const JointRow* lug = find_joint(task.tables, "lug", conductor.area);
    return resistance_per_length(conductor, Coating::plain, celsius(20)) * length + (lug ? lug->low : Resistance{});
}

void judge_fuses(const Task& task, const Conductors& both, Candidate& candidate) {
    const Current ampacity = candidate.ampacity ? candidate.ampacity->current : Current{};
    for (const FuseEnd& end : task.run.fused_at) {
        const FuseWish wish{.end = end,
                            .design = task.design.current,
                            .ampacity = ampacity,
                            .conductor = both.out.area,
                            .parts = largest_fuse(candidate.parts),
                            .appliance = fuse_max(task.load),
                            .largest = starts_hard(task.load),
                            .behind = task.run.motor_fuse,
                            .lead = lead_to_fuse(task, both.out),
                            .starting = task.run.starting};
        candidate.windows.push_back(fuse_window(wish, task.rules, task.tables));
        // The breaking capacity and an end left without a fuse are no matter of the size: the plan finds them.
        if (left_bare(task.run, end)) continue;
        const FuseOfRating* given = given_fuse(task.run, end);
        std::optional<FuseFit> fit =
            given ? judge_fuse(*given, wish, task.rules, task.tables) : choose_fuse(wish, task.rules, task.tables);
        if (fit) fit->have = given && task.run.have_fuse;
        if (!fit || (fit->given && fit->rating > fit->window.at_most)) candidate.fails.push_back(Criterion::fuse);
        if (fit) candidate.fuses.push_back(*std::move(fit));
    }
}

ConductorResistance out_at(const Conductors& both, Temperature temperature) {
    return conductor_resistance(both.out, Coating::plain, temperature);
}

std::optional<ConductorResistance> back_at(const Conductors& both, Temperature temperature) {
    if (!both.back) return {};
    return conductor_resistance(*both.back, Coating::plain, temperature);
}

/// The run's resistance with its conductors at one temperature.
RunResistance resistance_at(const Task& task, const Conductors& both, const Candidate& candidate,
                            Temperature temperature) {
    std::vector<JointResistance> joints = joints_of(task.run, both.out.area, task.tables);
    for (const FuseFit& fuse : candidate.fuses) {
        const Resistance both_parts = fuse.link.value + fuse.holder.value;
        joints.push_back({fuse.family + " fuse and its holder", 1, {both_parts, fuse.link.source}, both_parts});
    }
    std::optional<Cited<Resistance>> body;
    if (task.run.body) body = task.run.body->resistance;
    return run_resistance(task.run.length, out_at(both, temperature), back_at(both, temperature), std::move(body),
                          std::move(joints));
}

/// The highest that the loop may be in a fault: conductors as hot as their insulation allows, and a body that nobody
/// measured at the high end of its range.
Resistance hot_loop(const Task& task, const Conductors& both, const RunResistance& cold) {
    const Temperature rated = task.run.insulation;
    const auto hot = [&](const ConductorRow& row) {
        return resistance_per_length(row, Coating::plain, rated) * cold.length;
    };
    Resistance returning{};
    if (both.back)
        returning = hot(*both.back);
    else
        returning = std::max(cold.body->value, task.run.body->high.value_or(Resistance{}));
    return hot(both.out) + returning + cold.all_joints;
}

/// Who says that cables lie together loaded is believed at 12 V too, though 33 CFR 183.435(b) binds its factors from 50 V
/// only: copper is as hot at any voltage, and a maker's page for 105 degC boat cable prints the same factors without one.
Voltage where_bundles_count(const Rules& rules, const Tables& tables) {
    const AmpacityBasisRow* basis = find_ampacity_basis(tables, rules.ampacity_basis);
    return basis ? std::max(nominal_voltage, basis->grouping_from) : nominal_voltage;
}

WarmRun warm_run(const CableRun& run, const Conductors& both, const std::optional<Ampacity>& of_thinner,
                 const RunResistance& resistance, const Rules& rules, const Tables& tables) {
    const Temperature around = average(run);
    const auto limit_of = [&](const ConductorRow& row) {
        // What heats is the same in any surroundings.
        if (row.gauge == both.thinner().gauge) return of_thinner;
        return ampacity(tables, rules.ampacity_basis, row, run.insulation, around, run.loaded_in_bundle,
                        where_bundles_count(rules, tables));
    };
    WarmRun warm{.length = run.length,
                 .out = both.out,
                 .back = both.back,
                 .out_limit = limit_of(both.out),
                 .back_limit = {},
                 .around = around,
                 .fixed = resistance.all_joints + (both.back ? Resistance{} : resistance.body->value)};
    if (both.back) warm.back_limit = limit_of(*both.back);
    return warm;
}

/// What the load draws at a source voltage through a loop; empty when it cannot be delivered.
struct Drawn {
    std::optional<ConverterPower> charger;
    std::optional<ConverterInput> input;
    Current current;
};

std::optional<Drawn> drawn(const RunLoad& load, Voltage source, Resistance loop) {
    struct {
        Voltage source;
        Resistance loop;
        std::optional<Drawn> operator()(const ConverterLoad& charger) const {
            const ConverterPower power = converter_power(charger.output, charger.absorption, charger.efficiency);
            const auto input = converter_input(source, loop, power.power, charger.input_limit);
            if (!input) return {};
            return Drawn{power, input, input->current};
        }
        std::optional<Drawn> operator()(const SteadyLoad& steady) const {
            if (source <= *steady.current * loop) return {};
            return Drawn{{}, {}, steady.current};
        }
        std::optional<Drawn> operator()(const PowerLoad& appliance) const {
            const auto input = converter_input(source, loop, appliance.power);
            if (!input) return {};
            return Drawn{{}, input, input->current};
        }
        std::optional<Drawn> operator()(const ResistiveLoad& heater) const {
            return Drawn{{}, {}, source / (*heater.resistance + loop)};
        }
    } through{source, loop};
    return std::visit(through, load);
}

/// A load, and the temperatures of the conductors at which they and it settle.
struct Settled {
    Drawn load;
    Temperature out, back;
};

/// Resistance heats with the current and the current grows with the resistance: solved together by repeated
/// substitution, which rises from the cold side to the first point where both settle. At the edge of what can be
/// delivered that takes many steps; what has not settled after all of them would run away, and counts as not delivered.
std::optional<Settled> settle(const Task& task, const Conductors& both, const Candidate& candidate,
                              const RunResistance& cold, Voltage source) {
    const WarmRun warm = warm_run(task.run, both, candidate.ampacity, cold, task.rules, task.tables);
    WarmRun::Temperatures conductors{warm.around, warm.around};
    for (int step = 0; step < 5000; ++step) {
        const auto load = drawn(task.load, source, warm.loop(conductors));
        if (!load) return {};
        const WarmRun::Temperatures next = warm.at(load->current);
        if (abs(next.out - conductors.out) < kelvins(1e-9)) return Settled{*load, conductors.out, conductors.back};
        conductors = next;
    }
    return {};
}

DropCheck drop_check(const Task& task, const Conductors& both, const Settled& settled, RunResistance resistance) {
    change_conductors(resistance, out_at(both, settled.out), back_at(both, settled.back));
    const Current current = settled.load.current;
    const Voltage drop = current * resistance.loop;
    const Voltage cable = current * resistance.cable;
    const Voltage joints = current * resistance.all_joints;
    const Ratio limit = *task.supply.drop_limit;
    return {.source = task.supply.normal,
            .charger = settled.load.charger,
            .input = settled.load.input,
            .resistance = std::move(resistance),
            .current = current,
            .drop = drop,
            .cable_drop = cable,
            .joint_drop = joints,
            .share = drop / nominal_voltage,
            .limit = limit,
            .allowed = limit * nominal_voltage,
            .far_end = *task.supply.normal - drop,
            .heat = current * drop};
}

bool too_weak(const Task& task, const Conductors& both) { return both.thinner().area < task.rules.smallest; }

std::optional<Ampacity> ampacity_of(const Task& task, const Conductors& both) {
    return ampacity(task.tables, task.rules.ampacity_basis, both.thinner(), task.run.insulation, hottest(task.run),
                    task.run.loaded_in_bundle, where_bundles_count(task.rules, task.tables));
}

bool carries(const Task& task, const std::optional<Ampacity>& ampacity) {
    return ampacity && ampacity->current >= task.design.current;
}

void judge_shorts(const Task& task, const Conductors& both, Candidate& candidate) {
    // As warm as its current has made it.
    Temperature start = hottest(task.run);
    if (const auto& limit = candidate.ampacity; limit && limit->current > Current{})
        start = std::min(conductor_temperature(start, task.design.current, limit->rated, limit->reference,
                                               limit->table.value, limit->grouping)
                             .temperature,
                         task.run.insulation);
    const ShortCircuitLimitRow* limit =
        find_short_circuit_limit(task.tables, task.run.insulation, task.run.insulation_material);
    const Area thinner = both.thinner().area;
    for (const FuseFit& fuse : candidate.fuses) {
        const auto end = std::find_if(task.run.fused_at.begin(), task.run.fused_at.end(),
                                      [&](const FuseEnd& one) { return one.at == fuse.at; });
        if (end == task.run.fused_at.end() || !limit) continue;
        candidate.protection.push_back(
            protect(fuse, *end, task.run.upstream.hot + candidate.hot_loop, thinner, start, limit->limit, task.tables));
    }
    for (const ShortCurrent& starting : task.run.starting) {
        const Withstand heat = withstand(thinner, start, task.run.insulation, starting.current, starting.time);
        if (!candidate.start || heat.let_through > candidate.start->let_through) candidate.start = heat;
    }
    const auto any = [&](auto fails) {
        return std::any_of(candidate.protection.begin(), candidate.protection.end(), fails);
    };
    if (any([](const Protection& one) { return !one.clears_in_time(); }))
        candidate.fails.push_back(Criterion::clearing);
    if (any([](const Protection& one) { return !one.withstands(); }) || (candidate.start && !candidate.start->holds()))
        candidate.fails.push_back(Criterion::withstand);
}

/// Is there a lug for each conductor and each stud? Not asked of a run without lugs.
bool has_lugs(const Task& task, const Conductors& both) {
    const auto& joints = task.run.joints;
    if (joints && std::none_of(joints->begin(), joints->end(), [](const Joint& joint) { return joint.name == "lug"; }))
        return true;
    return std::all_of(task.run.studs.begin(), task.run.studs.end(), [&](Length stud) {
        return lug_takes(both.out.area, stud, task.tables) &&
               (!both.back || lug_takes(both.back->area, stud, task.tables));
    });
}

Candidate judge(const Task& task, Gauge size) {
    const Conductors both = conductors(task, size);
    Candidate candidate;
    candidate.size = size;
    candidate.area = both.out.area;
    const auto fail = [&](Criterion criterion) { candidate.fails.push_back(criterion); };

    if (too_weak(task, both)) fail(Criterion::mechanical);
    if (task.run.terminal && std::max(both.out.area, both.back ? both.back->area : Area{}) > *task.run.terminal)
        fail(Criterion::terminal);
    if (!has_lugs(task, both)) fail(Criterion::lug);

    candidate.ampacity = ampacity_of(task, both);
    if (!carries(task, candidate.ampacity)) fail(Criterion::ampacity);
    candidate.parts = parts_of(task, both.out.area);
    const bool melts = std::any_of(candidate.parts.begin(), candidate.parts.end(),
                                   [&](const PartRating& part) { return part.rating < task.design.current; });
    if (melts) fail(Criterion::part);
    judge_fuses(task, both, candidate);

    RunResistance cold = resistance_at(task, both, candidate, celsius(20));
    candidate.cold_loop = cold.loop;
    candidate.hot_loop = hot_loop(task, both, cold);
    if (!task.run.fused_at.empty()) {
        const FuseEnd& end = task.run.fused_at.front();
        candidate.far_fault =
            fault_current(end.open_circuit, end.internal.expected, task.run.upstream.cold + cold.loop);
    }

    judge_shorts(task, both, candidate);

    const auto* charger = std::get_if<ConverterLoad>(&task.load);
    const auto usual = settle(task, both, candidate, cold, task.supply.normal);
    const auto lowest = charger ? settle(task, both, candidate, cold, task.supply.lowest) : std::nullopt;
    if (usual) {
        candidate.drop = drop_check(task, both, *usual, std::move(cold));
        if (!(candidate.drop->drop <= candidate.drop->allowed)) fail(Criterion::drop);
        candidate.temperature = conductor_temperature(task.run, candidate, candidate.drop->current);
    } else {
        candidate.cold = std::move(cold);
        fail(Criterion::delivery);
    }
    if (charger) {
        const Voltage required = charger->input_off + input_margin;
        if (lowest)
            candidate.lowest =
                LowestInput{*lowest->load.input, charger->input_off, required, lowest->load.input->voltage};
        if (!lowest || lowest->load.input->voltage < required) fail(Criterion::charger_input);
    }
    return candidate;
}

/// The sizes that come into question, thinnest first.
std::vector<Gauge> sizes_of(const Task& task) {
    std::vector<Gauge> sizes = task.rules.sizes;
    const std::optional<Gauge>& given = task.run.given;
    if (given && std::find(sizes.begin(), sizes.end(), *given) == sizes.end()) sizes.push_back(*given);
    std::vector<std::pair<Area, Gauge>> by_area;
    by_area.reserve(sizes.size());
    for (const Gauge size : sizes)
        if (const Area area = conductors(task, size).out.area; !task.run.at_least || area >= *task.run.at_least)
            by_area.emplace_back(area, size);
    std::sort(by_area.begin(), by_area.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    sizes.resize(by_area.size());
    std::transform(by_area.begin(), by_area.end(), sizes.begin(), [](const auto& one) { return one.second; });
    return sizes;
}

std::vector<Candidate> whole_ladder(const Task& task, const std::vector<Gauge>& sizes) {
    std::vector<Candidate> ladder;
    ladder.reserve(sizes.size());
    for (const Gauge size : sizes) ladder.push_back(judge(task, size));
    return ladder;
}

bool too_much_for_its_parts(const Task& task, const Conductors& both) {
    const std::vector<PartRating> parts = parts_of(task, both.out.area);
    return std::any_of(parts.begin(), parts.end(),
                       [&](const PartRating& part) { return part.rating < task.design.current; });
}

/// The first that fits, or the given one.
std::vector<Candidate> first_that_fits(const Task& task, const std::vector<Gauge>& sizes) {
    if (task.run.given) return {judge(task, *task.run.given)};
    for (const Gauge size : sizes) {
        const Conductors both = conductors(task, size);
        if (too_weak(task, both) || !carries(task, ampacity_of(task, both)) || too_much_for_its_parts(task, both))
            continue;
        if (Candidate candidate = judge(task, size); candidate.fits()) return {std::move(candidate)};
    }
    return {};
}

/// The first that fits, and the one below it.
std::vector<Candidate> needed_ladder(const Task& task, const std::vector<Gauge>& sizes) {
    std::optional<Candidate> below;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const Conductors both = conductors(task, sizes[i]);
        if (too_weak(task, both) || !carries(task, ampacity_of(task, both))) {
            below.reset();
            continue;
        }
        Candidate candidate = judge(task, sizes[i]);
        if (!candidate.fits()) {
            below = std::move(candidate);
            continue;
        }
        std::vector<Candidate> ladder;
        ladder.reserve(2);
        if (i > 0) ladder.push_back(below ? *std::move(below) : judge(task, sizes[i - 1]));
        ladder.push_back(std::move(candidate));
        return ladder;
    }
    return whole_ladder(task, sizes);
}

/// The first size that would fit if the parts that melt in this run were others of the same resistance.
std::optional<std::size_t> without_parts(const Task& task, const std::vector<Gauge>& sizes) {
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const Area area = conductors(task, sizes[i]).out.area;
        CableRun other = task.run;
        for (Joint& joint : other.joints.value())
            if (const JointRow* row = joint.measured ? nullptr : find_joint(task.tables, joint.name, area))
                if (const auto part = part_rating(*row, area, hottest(task.run));
                    part && part->rating < task.design.current)
                    joint.measured = row->usual;
        if (judge(Task{other, task.load, task.supply, task.rules, task.tables, task.design}, sizes[i]).fits()) return i;
    }
    return {};
}

/// Of a whole ladder in which nothing fits.
std::optional<std::size_t> fails_least(const Task& task, const std::vector<Candidate>& ladder,
                                       const std::vector<Gauge>& sizes) {
    if (ladder.empty()) return {};
    const auto fails = [](const Candidate& candidate, Criterion criterion) {
        return std::find(candidate.fails.begin(), candidate.fails.end(), criterion) != candidate.fails.end();
    };
    if (std::all_of(ladder.begin(), ladder.end(), [&](const Candidate& one) { return fails(one, Criterion::part); }))
        if (const auto size = without_parts(task, sizes)) return size;
    const auto fewer = [](const Candidate& a, const Candidate& b) { return a.fails.size() < b.fails.size(); };
    const auto thickest = std::min_element(ladder.rbegin(), ladder.rend(), fewer);
    auto least = std::prev(thickest.base());
    if (fails(*thickest, Criterion::terminal) || fails(*thickest, Criterion::lug))
        least = std::find_if(ladder.begin(), ladder.end(),
                             [&](const Candidate& one) { return one.fails == thickest->fails; });
    return static_cast<std::size_t>(least - ladder.begin());
}

}  // namespace

namespace {

/// Refuses what is no amount of its kind, by the name of its field. Written so that what is no number is refused too.
template <class Q>
void above_nothing(Q value, const char* field) {
    if (!(value > Q{} && value < std::numeric_limits<Q>::infinity()))
        throw std::invalid_argument(std::string(field) + " has to be more than nothing");
}
template <class Q>
void not_negative(Q value, const char* field) {
    if (!(value >= Q{} && value < std::numeric_limits<Q>::infinity()))
        throw std::invalid_argument(std::string(field) + " has to be nothing or more");
}
void share(Ratio value, const char* field) {
    if (!(value > Ratio{} && value <= percent(100)))
        throw std::invalid_argument(std::string(field) + " has to be a share: above 0, at most 1");
}
void temperature(Temperature value, const char* field) {
    if (!(value > absolute_kelvins(0) && value < absolute_kelvins(std::numeric_limits<double>::infinity())))
        throw std::invalid_argument(std::string(field) + " is no temperature");
}
template <class Q>
void if_given(const std::optional<Q>& value, const char* field) {
    if (value) above_nothing(*value, field);
}

void expect_amounts(const RunLoad& load) {
    struct Check {
        void operator()(const ConverterLoad& charger) const {
            above_nothing(*charger.output, "ConverterLoad::output");
            above_nothing(charger.absorption, "ConverterLoad::absorption");
            above_nothing(charger.highest_absorption.voltage, "ConverterLoad::highest_absorption");
            share(charger.efficiency, "ConverterLoad::efficiency");
            not_negative(charger.input_off, "ConverterLoad::input_off");
            if_given(charger.input_limit, "ConverterLoad::input_limit");
            if_given(charger.fuse_max, "ConverterLoad::fuse_max");
        }
        void operator()(const SteadyLoad& steady) const {
            not_negative(*steady.current, "SteadyLoad::current");
            if (steady.most) not_negative(*steady.most, "SteadyLoad::most");
            if_given(steady.fuse_max, "SteadyLoad::fuse_max");
        }
        void operator()(const PowerLoad& appliance) const {
            not_negative(*appliance.power, "PowerLoad::power");
            above_nothing(appliance.cut_out, "PowerLoad::cut_out");
            if_given(appliance.fuse_max, "PowerLoad::fuse_max");
        }
        void operator()(const ResistiveLoad& heater) const {
            above_nothing(*heater.resistance, "ResistiveLoad::resistance");
            above_nothing(*heater.highest, "ResistiveLoad::highest");
            if_given(heater.fuse_max, "ResistiveLoad::fuse_max");
        }
    };
    std::visit(Check{}, load);
}

void expect_amounts(const CableRun& run) {
    above_nothing(*run.length, "CableRun::length");
    temperature(run.around, "CableRun::around");
    temperature(run.insulation, "CableRun::insulation");
    if (run.loaded_in_bundle < 1) throw std::invalid_argument("CableRun::loaded_in_bundle has to count the run itself");
    for (const WayPart& part : run.way) {
        not_negative(part.length, "WayPart::length");
        temperature(part.around, "WayPart::around");
    }
    if (run.joints)
        for (const Joint& joint : *run.joints)
            if (joint.measured) not_negative(*joint.measured, "Joint::measured");
    if (run.body) not_negative(run.body->resistance.value, "BodyReturn::resistance");
    if (run.body && run.body->high) not_negative(*run.body->high, "BodyReturn::high");
    if (run.fused_at.empty())
        throw std::invalid_argument(
            "CableRun::fused_at is empty: a fuse is due at every end from which a source feeds");
    for (const FuseEnd& end : run.fused_at) {
        temperature(end.around, "FuseEnd::around");
        above_nothing(end.open_circuit, "FuseEnd::open_circuit");
        above_nothing(end.highest, "FuseEnd::highest");
        not_negative(end.internal.low, "FuseEnd::internal");
        not_negative(end.internal.expected, "FuseEnd::internal");
        not_negative(end.internal.high, "FuseEnd::internal");
    }
    if_given(run.terminal, "CableRun::terminal");
    for (const Length& stud : run.studs) above_nothing(stud, "CableRun::studs");
    not_negative(run.upstream.cold, "Upstream::cold");
    not_negative(run.upstream.hot, "Upstream::hot");
    for (const ShortCurrent& start : run.starting) {
        not_negative(start.current, "ShortCurrent::current");
        not_negative(start.time, "ShortCurrent::time");
    }
    if_given(run.motor_fuse, "CableRun::motor_fuse");
}

void expect_amounts(const Supply& supply, const Rules& rules) {
    above_nothing(*supply.normal, "Supply::normal");
    above_nothing(*supply.lowest, "Supply::lowest");
    share(supply.drop_limit, "Supply::drop_limit");
    share(rules.fuse_use, "Rules::fuse_use");
    not_negative(rules.smallest, "Rules::smallest");
}

}  // namespace

WarmRun warm_run(const CableRun& run, const Candidate& candidate, const Rules& rules, const Tables& tables) {
    return warm_run(run, conductors(run, candidate.size, tables), candidate.ampacity, candidate.resistance(), rules,
                    tables);
}

RunResistance resistance_of(const WarmRun& run, RunResistance resistance, WarmRun::Temperatures conductors) {
    const Conductors both{run.out, run.back};
    change_conductors(resistance, out_at(both, conductors.out), back_at(both, conductors.back));
    return resistance;
}

std::optional<ConductorTemperature> conductor_temperature(const CableRun& run, const Candidate& candidate,
                                                          Current current) {
    const auto& limit = candidate.ampacity;
    if (!limit || !(limit->current > Current{})) return {};
    return conductor_temperature(hottest(run), current, limit->rated, limit->reference, limit->table.value,
                                 limit->grouping);
}

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
        if (row && row->rating_on_it.value_or(false) && !row->rating)
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

Choice choose_cable(const CableRun& run, const RunLoad& load, const Supply& supply, const Rules& rules,
                    const Tables& tables, Ladder ladder) {
    expect_amounts(run);
    expect_amounts(load);
    expect_amounts(supply, rules);
    const Task task{run, load, supply, rules, tables, design_current(load)};
    const std::vector<Gauge> sizes = sizes_of(task);

    Choice choice;
    choice.design = task.design;
    choice.ladder = ladder == Ladder::first                  ? first_that_fits(task, sizes)
                    : ladder == Ladder::needed && !run.given ? needed_ladder(task, sizes)
                                                             : whole_ladder(task, sizes);

    const auto wanted = [&](const Candidate& candidate) {
        return run.given ? candidate.size == *run.given : candidate.fits();
    };
    const auto found = std::find_if(choice.ladder.begin(), choice.ladder.end(), wanted);
    if (found != choice.ladder.end()) choice.taken = static_cast<std::size_t>(found - choice.ladder.begin());
    choice.given = run.given.has_value();
    if (!choice.taken && ladder == Ladder::first) return choice;
    if (!choice.taken) {
        choice.taken = fails_least(task, choice.ladder, sizes);
        return choice;
    }
    if (const Candidate* thinner = choice.thinner(); thinner && !thinner->fits())
        choice.decided_by = thinner->fails.front();
    return choice;
}

}  // namespace voltwright
