#include "voltwright/planning/rig.hpp"

#include "voltwright/energy/battery_tables.hpp"
#include "voltwright/profile/words.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// Nothing is known of where within ± a half-width a figure lies: half-width/√3 (JCGM 100:2008, 4.3.7, from memory).
template <class Q>
Q even_spread(Q half_width) {
    return half_width / std::sqrt(3.0);
}

/// Its copper is somewhere between a cold shed and the warmth of a current in summer, its length is as a tape along the way
/// finds it, within a tenth, and its maker's tolerance is two hundredths (common practice, no source).
RigElement cable_of(Element element, std::size_t section, const ConductorRow& row, Length length) {
    const auto at = [&](Temperature copper) { return resistance_per_length(row, Coating::plain, copper) * length; };
    const Resistance cold = at(celsius(5)), hot = at(celsius(70));
    const Resistance middle = (hot + cold) / 2.0;
    const Resistance warmth = even_spread<Resistance>((hot - cold) / 2.0);
    const Resistance tape = even_spread<Resistance>(0.1 * middle);
    const Resistance maker = 0.02 * middle;
    return {std::move(element), section, middle, sqrt(warmth * warmth + tape * tape + maker * maker)};
}

/// A range that holds 19 times in 20.
Resistance deviation(Resistance low, Resistance high) { return (high - low) / 4.0; }

/// Link and holder. The links that are known within a bound are within 30 % (data/fuses/ratings.toml); a new holder's two
/// contacts have half to one and a half times the usual (1 to 3 mΩ about 2 mΩ, from memory).
Resistance fuse_deviation(Resistance link, Resistance holder) {
    const Resistance of_link = even_spread<Resistance>(0.3 * link);
    const Resistance of_holder = deviation(0.5 * holder, 1.5 * holder);
    return sqrt(of_link * of_link + of_holder * of_holder);
}

/// The whole of one run's elements.
std::vector<RigElement> elements_with(const RunPlan& run, std::size_t section, const Tables& tables) {
    const Candidate& taken = *run.taken();
    const RunResistance& resistance = taken.drop->resistance;
    std::vector<RigElement> all;
    for (Element& element : elements_of(run.task)) {
        switch (element.kind) {
            case Element::Kind::cable: {
                const bool out = element.side == Side::out;
                const Gauge size = out ? taken.size : run.task.run.return_size.value_or(taken.size);
                all.push_back(cable_of(std::move(element), section, *conductor_of(tables, size), run.task.run.length));
                break;
            }
            case Element::Kind::body: {
                const auto row = std::find_if(tables.body_returns.begin(), tables.body_returns.end(),
                                              [&](const BodyReturnRow& one) { return one.body == run.task.body_name; });
                const Resistance body = resistance.body->value;
                all.push_back({std::move(element), section, body,
                               row == tables.body_returns.end() ? 0.1 * body : deviation(row->low, row->high)});
                break;
            }
            case Element::Kind::fuse: {
                for (const FuseFit& fuse : taken.fuses)
                    if (element.at == fuse.at) {
                        all.push_back({std::move(element), section, fuse.link.value + fuse.holder.value,
                                       fuse_deviation(fuse.link.value, fuse.holder.value)});
                        break;
                    }
                break;
            }
            case Element::Kind::lug:
            case Element::Kind::joint: {
                if (element.measured) {
                    const Resistance own = *element.measured;
                    all.push_back({std::move(element), section, own, 0.1 * own});
                    break;
                }
                const Area area = conductor_of(tables, taken.size)->area;
                const JointRow* row = find_joint(tables, element.joint, area);
                if (!row) break;
                const double share = element.share;
                all.push_back(
                    {std::move(element), section, share * row->usual, share * deviation(row->low, row->high)});
                break;
            }
        }
    }
    return all;
}

LoadLaw share_of(const LoadLaw& load, double share) {
    if (const auto* resistance = std::get_if<Resistance>(&load)) return {*resistance / share};
    if (const auto* power = std::get_if<Power>(&load)) return {*power * share};
    return {std::get<Current>(load) * share};
}

}  // namespace

std::optional<std::size_t> Rig::section_of(std::string_view run) const {
    for (std::size_t i = 0; i < sections.size(); ++i)
        if (sections[i].run == run) return i;
    return {};
}

std::optional<std::size_t> Rig::element_of(std::string_view name) const {
    for (std::size_t i = 0; i < elements.size(); ++i)
        if (elements[i].element.name == name) return i;
    return {};
}

Rig rig_of(const System& system, const Plan& plan, const Tables& tables) {
    Rig rig;
    const Profile& profile = system.complete;
    rig.charger_output = profile.charger.output->value;
    rig.charger_efficiency = profile.charger.efficiency->value;
    rig.charger_input_off = profile.charger.input_off->value;
    if (profile.charger.input_limit) rig.charger_input_limit = profile.charger.input_limit->value;
    // A run comes in once the one that it begins at is there.
    std::vector<bool> done(plan.runs.size());
    for (bool more = true; more;) {
        more = false;
        for (std::size_t i = 0; i < plan.runs.size(); ++i) {
            const RunPlan& run = plan.runs[i];
            const Candidate* taken = run.taken();
            if (done[i] || !run.sized() || !taken || !taken->drop) continue;
            RigSection section{.run = *run.task.run.name,
                               .plan_run = i,
                               .role = run.task.role,
                               .near = near_point(run.task),
                               .far = far_point(run.task),
                               .by_starter = run.task.from.kind == PlaceKind::starter_battery,
                               .from = {},
                               .elements = {}};
            if (run.task.role != RunRole::output && !is_battery(run.task.from)) {
                const auto before = std::find_if(rig.sections.begin(), rig.sections.end(), [&](const RigSection& one) {
                    return one.far == run.task.from.name && one.role != RunRole::feed;
                });
                if (before == rig.sections.end()) continue;
                section.from = static_cast<std::size_t>(before - rig.sections.begin());
                section.by_starter = before->by_starter;
            }
            const std::size_t index = rig.sections.size();
            for (RigElement& element : elements_with(run, index, tables)) {
                section.elements.push_back(rig.elements.size());
                rig.elements.push_back(std::move(element));
            }
            if (run.task.role == RunRole::feed) rig.feed = index;
            if (run.task.role == RunRole::output) rig.output = index;
            if (run.task.role == RunRole::appliance)
                if (!std::holds_alternative<ConverterLoad>(run.task.load))
                    rig.loads.push_back({run.task.to.name, index, law_of(run.task.load)});
            rig.sections.push_back(std::move(section));
            done[i] = more = true;
        }
    }
    if (profile.inverter)
        for (std::size_t i = 0; i < rig.sections.size(); ++i) {
            if (rig.sections[i].role != RunRole::inverter) continue;
            rig.inverter = {i, profile.inverter->standby ? profile.inverter->standby->value : Power{}};
            for (const LoadKeys& load : profile.loads)
                if (load.through) {
                    const auto* power = std::get_if<Spread<Power>>(&*load.draw);
                    if (power)
                        rig.loads.push_back({*load.name, i, {power->value / profile.inverter->efficiency->value}});
                }
        }
    return rig;
}

Voltage rested_house(const System& system, const Tables& tables) {
    return rest_voltage(tables, show(*system.complete.battery.chemistry), percent(70));
}

RigSupply usual_supply(const Rig& rig, const RigState& state, const System& system, const Tables& tables) {
    const StarterKeys& starter = system.complete.starter;
    return {.starter = state.engine == Engine::off      ? rested_starter
                       : state.engine == Engine::idling ? starter.lowest_running->value
                                                        : starter.running->value,
            .house = state.charger_runs() ? charging_house : rested_house(system, tables),
            .charge = rig.charger_output,
            .draws = std::vector<double>(rig.loads.size(), 1.0),
            .losses = 1.0};
}

std::optional<RigFlow> flow(const Rig& rig, const RigState& state, const RigSupply& supply,
                            std::span<const Resistance> resistances) {
    RigFlow answer;
    answer.starter = supply.starter;
    answer.house = supply.house;
    answer.plus.resize(rig.sections.size());
    answer.minus.resize(rig.sections.size());
    answer.current.resize(rig.sections.size());
    const auto side = [&](std::size_t section, Side wanted) {
        Resistance sum{};
        for (const std::size_t element : rig.sections[section].elements)
            if (rig.elements[element].element.side == wanted) sum += resistances[element];
        return sum;
    };
    const Current charge = state.charger_runs() ? supply.charge : Current{};
    // A search may ask for what no vehicle does.
    if (!(supply.starter > Voltage{}) || !(supply.house > Voltage{}) || !(charge < amperes(1e5))) return {};
    if (!(supply.losses < 1e6) ||
        std::any_of(supply.draws.begin(), supply.draws.end(), [](double share) { return !(share < 1e6); }))
        return {};
    if (std::any_of(resistances.begin(), resistances.end(), [](Resistance one) { return !(one < ohms(1e6)); }))
        return {};
    if (rig.output) {
        answer.current[*rig.output] = charge;
        answer.output_plus = supply.house + charge * side(*rig.output, Side::out);
        answer.output_minus = -charge * side(*rig.output, Side::back);
        answer.plus[*rig.output] = supply.house;
    }
    for (const bool by_starter : {true, false}) {
        const Voltage source = by_starter ? supply.starter : supply.house;
        const auto in_tree = [&](std::size_t section) {
            return rig.sections[section].by_starter == by_starter && rig.sections[section].role != RunRole::output;
        };
        std::vector<std::pair<std::size_t, LoadLaw>> loads;
        bool inverting = false;
        for (std::size_t i = 0; i < rig.loads.size(); ++i) {
            if (!in_tree(rig.loads[i].section) ||
                std::find(state.with.begin(), state.with.end(), rig.loads[i].name) == state.with.end())
                continue;
            loads.emplace_back(rig.loads[i].section, share_of(rig.loads[i].draw, supply.draws[i]));
            if (rig.inverter && rig.loads[i].section == rig.inverter->first) inverting = true;
        }
        if (inverting) loads.emplace_back(rig.inverter->first, LoadLaw{rig.inverter->second});
        const bool charger = rig.feed && by_starter && charge > Current{};
        Current most_taken{};
        if (charger) {
            const Voltage output = answer.output_plus - answer.output_minus;
            const Power taken = supply.losses * converter_power(charge, output, rig.charger_efficiency).power;
            loads.emplace_back(*rig.feed, LoadLaw{taken});
            // Below `input_off` it gives up: no more flows than it takes there.
            most_taken = taken / rig.charger_input_off;
            if (rig.charger_input_limit) most_taken = std::min(most_taken, *rig.charger_input_limit);
        }
        // Where nothing is on nothing flows: the network is what leads to a load.
        std::vector<bool> carries(rig.sections.size());
        for (const auto& [section, load] : loads)
            for (std::optional<std::size_t> at = section; at && !carries[*at]; at = rig.sections[*at].from)
                carries[*at] = true;
        std::vector<NetworkSection> network;
        std::vector<std::size_t> place(rig.sections.size());
        for (std::size_t i = 0; i < rig.sections.size(); ++i) {
            if (!carries[i]) continue;
            NetworkSection one{.from = {}, .loop = side(i, Side::out) + side(i, Side::back), .loads = {}};
            if (rig.sections[i].from) one.from = place[*rig.sections[i].from];
            place[i] = network.size();
            network.push_back(std::move(one));
        }
        for (const auto& [section, load] : loads) network[place[section]].loads.push_back(load);
        std::optional<NetworkAnswer> solved;
        if (!network.empty()) {
            solved = solve_network(source, network);
            // At its input limit the charger is a constant current.
            if (charger && (!solved || solved->current[place[*rig.feed]] > most_taken)) {
                network[place[*rig.feed]].loads.back() = {most_taken};
                solved = solve_network(source, network);
            }
            if (!solved) return {};
        }
        for (std::size_t i = 0; i < rig.sections.size(); ++i) {
            if (!in_tree(i)) continue;
            const auto& from = rig.sections[i].from;
            answer.plus[i] = from ? answer.plus[*from] : source;
            answer.minus[i] = from ? answer.minus[*from] : Voltage{};
            if (!carries[i]) continue;
            answer.current[i] = solved->current[place[i]];
            answer.plus[i] -= answer.current[i] * side(i, Side::out);
            answer.minus[i] += answer.current[i] * side(i, Side::back);
        }
    }
    return answer;
}

bool Probe::drop() const {
    if (std::holds_alternative<Over>(what)) return true;
    const auto* between = std::get_if<Between>(&what);
    return between && between->red.plus == between->black.plus;
}

namespace {

std::optional<Probe::Point> point_of(const Rig& rig, std::string_view place, bool plus) {
    using At = Probe::Point::At;
    if (place == "starter") return Probe::Point{At::starter, 0, plus};
    if (place == "battery") return Probe::Point{At::house, 0, plus};
    if (place == "charger output" && rig.output) return Probe::Point{At::output, 0, plus};
    for (std::size_t i = 0; i < rig.sections.size(); ++i)
        if (rig.sections[i].far == place && rig.sections[i].role != RunRole::output)
            return Probe::Point{At::section, i, plus};
    return {};
}

bool by_starter(const Rig& rig, const Probe::Point& point) {
    return point.at == Probe::Point::At::starter ||
           (point.at == Probe::Point::At::section && rig.sections[point.section].by_starter);
}

}  // namespace

std::optional<Probe> probe_across(const Rig& rig, const std::vector<std::string>& across) {
    if (across.empty() || across.size() > 2) return {};
    std::vector<std::pair<std::string_view, bool>> leads;
    for (const std::string& name : across) leads.emplace_back(without_pole(name), name.back() != '-');
    if (across.size() == 1) {
        if (const auto element = rig.element_of(across[0])) return Probe{Probe::Over{*element}};
        if (without_pole(across[0]) != across[0]) return {};
        leads.emplace_back(leads[0].first, false);
    }
    const auto red = point_of(rig, leads[0].first, leads[0].second);
    const auto black = point_of(rig, leads[1].first, leads[1].second);
    if (!red || !black || by_starter(rig, *red) != by_starter(rig, *black)) return {};
    return Probe{Probe::Between{*red, *black}};
}

std::optional<Probe> probe_through(const Rig& rig, std::string_view run) {
    if (const auto section = rig.section_of(run)) return Probe{Probe::Through{*section}};
    for (std::size_t i = 0; i < rig.sections.size(); ++i)
        if (rig.sections[i].far == run) return Probe{Probe::Through{i}};
    return {};
}

std::vector<std::string> names_of(const Rig& rig, const Probe& probe) {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what)) return {rig.sections[through->section].run};
    if (const auto* over = std::get_if<Probe::Over>(&probe.what)) return {rig.elements[over->element].element.name};
    const auto place = [&](const Probe::Point& point) -> std::string {
        switch (point.at) {
            case Probe::Point::At::starter: return "starter";
            case Probe::Point::At::house: return "battery";
            case Probe::Point::At::output: return "charger output";
            case Probe::Point::At::section: return rig.sections[point.section].far;
        }
        return {};
    };
    const auto& [red, black] = std::get<Probe::Between>(probe.what);
    if (red.plus != black.plus && place(red) == place(black)) return {place(red)};
    return {place(red) + (red.plus ? " +" : " -"), place(black) + (black.plus ? " +" : " -")};
}

double shown(const Rig& rig, const Probe& probe, const RigFlow& flow, std::span<const Resistance> resistances) {
    if (const auto* through = std::get_if<Probe::Through>(&probe.what))
        return in_amperes(flow.current[through->section]);
    if (const auto* over = std::get_if<Probe::Over>(&probe.what))
        return in_volts(flow.current[rig.elements[over->element].section] * resistances[over->element]);
    const auto potential = [&](const Probe::Point& point) -> Voltage {
        switch (point.at) {
            case Probe::Point::At::starter: return point.plus ? flow.starter : Voltage{};
            case Probe::Point::At::house: return point.plus ? flow.house : Voltage{};
            case Probe::Point::At::output: return point.plus ? flow.output_plus : flow.output_minus;
            case Probe::Point::At::section: return point.plus ? flow.plus[point.section] : flow.minus[point.section];
        }
        return {};
    };
    const auto& between = std::get<Probe::Between>(probe.what);
    return in_volts(potential(between.red) - potential(between.black));
}

}  // namespace voltwright
