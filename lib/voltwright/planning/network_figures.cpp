#include "voltwright/planning/network_figures.hpp"

#include "voltwright/planning/plan.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

namespace {

/// Rounds after which warmth and current have settled, or run away.
constexpr int most_rounds = 1000;

/// The runs that hang on one source by one first run.
class Tree {
public:
    Tree(std::vector<RunPlan>& runs, std::size_t root, const System& system, const Tables& tables)
        : runs_(runs), source_(runs[root].task.supply.normal) {
        add(root, {}, system, tables);
    }

    void note() {
        std::vector<int> minutes = {0};
        for (const Member& member : members_)
            for (const ClockWindow& window : run_of(member).task.hours)
                minutes.push_back(window.from.minutes % (24 * 60));
        std::sort(minutes.begin(), minutes.end());
        minutes.erase(std::unique(minutes.begin(), minutes.end()), minutes.end());
        const bool kept_apart = std::any_of(minutes.begin(), minutes.end(), [&](int minute) {
            return std::any_of(members_.begin(), members_.end(),
                               [&](const Member& one) { return one.load && !is_on(one, minute); });
        });
        const int busiest = busiest_of(minutes);
        const auto all = solve(busiest);
        for (std::size_t m = 0; m < members_.size(); ++m)
            if (all && carries(m, busiest)) set(m, *all, kept_apart ? std::optional(busiest) : std::nullopt, false);
        for (std::size_t m = 0; m < members_.size(); ++m) {
            if (carries(m, busiest)) continue;
            std::vector<int> own = minutes;
            std::erase_if(own, [&](int minute) { return !carries(m, minute); });
            if (own.empty()) continue;
            const int then = busiest_of(own);
            if (const auto others = solve(then)) set(m, *others, then, true);
        }
    }

private:
    struct Member {
        std::size_t run;
        std::optional<std::size_t> from;  ///< the member at whose end it begins
        WarmRun warm;
        std::optional<LoadLaw> load;                    ///< empty: a trunk
        std::optional<Current> limit;                   ///< of a charger's input
        std::optional<WarmRun::Temperatures> reported;  ///< conductors of the figures that it has already
    };
    struct Solved {
        NetworkAnswer answer;
        std::vector<NetworkSection> sections;
        std::vector<WarmRun::Temperatures> conductors;
        std::vector<bool> shed;
    };

    [[nodiscard]] const RunPlan& run_of(const Member& member) const { return runs_[member.run]; }

    void add(std::size_t i, std::optional<std::size_t> from, const System& system, const Tables& tables) {
        const SystemRun& task = runs_[i].task;
        const Candidate* taken = runs_[i].taken();
        if (!runs_[i].sized() || !taken) return;
        Member member{i, from, warm_run(task.run, *taken, system.rules, tables), {}, {}, {}};
        if (task.role != RunRole::trunk) member.load = law_of(task.load);
        if (const auto* charger = std::get_if<ConverterLoad>(&task.load)) member.limit = charger->input_limit;
        const std::size_t place = members_.size();
        members_.push_back(std::move(member));
        if (task.role != RunRole::trunk) return;
        for (std::size_t k = 0; k < runs_.size(); ++k)
            if (trunk_before(runs_[k], runs_) == &runs_[i]) add(k, place, system, tables);
    }

    [[nodiscard]] bool is_on(const Member& member, int minute) const {
        const auto& hours = run_of(member).task.hours;
        return hours.empty() || std::any_of(hours.begin(), hours.end(),
                                            [minute](const ClockWindow& window) { return window.holds(minute); });
    }

    [[nodiscard]] bool leads_to(std::size_t trunk, std::size_t member) const {
        for (std::optional<std::size_t> at = member; at; at = members_[*at].from)
            if (*at == trunk) return true;
        return false;
    }

    /// Whether anything behind it is on.
    [[nodiscard]] bool carries(std::size_t member, int minute) const {
        for (std::size_t m = member; m < members_.size(); ++m)
            if (members_[m].load && leads_to(member, m) && is_on(members_[m], minute)) return true;
        return false;
    }

    [[nodiscard]] int busiest_of(const std::vector<int>& minutes) const {
        int busiest = minutes.front();
        std::optional<Current> most;
        for (const int minute : minutes) {
            Current sum{};
            for (const Member& member : members_)
                if (member.load && is_on(member, minute)) sum += asked(member);
            if (!most || sum > *most) {
                most = sum;
                busiest = minute;
            }
        }
        return busiest;
    }

    /// What a load draws at the source's voltage.
    [[nodiscard]] Current asked(const Member& member) const {
        const Current all = current_at(*member.load, source_);
        return member.limit ? std::min(all, *member.limit) : all;
    }

    /// All that is on at a minute, without those whose power cannot be brought.
    [[nodiscard]] std::optional<Solved> solve(int minute) const {
        std::vector<bool> shed(members_.size(), false);
        for (std::size_t m = 0; m < members_.size(); ++m)
            shed[m] = members_[m].load && is_on(members_[m], minute) && !run_of(members_[m]).taken()->drop;
        while (true) {
            if (auto solved = solve(minute, shed)) return solved;
            std::optional<std::size_t> most;
            for (std::size_t m = 0; m < members_.size(); ++m)
                if (members_[m].load && !shed[m] && is_on(members_[m], minute) &&
                    (!most || asked(members_[m]) > asked(members_[*most])))
                    most = m;
            if (!most) return {};
            shed[*most] = true;
        }
    }

    [[nodiscard]] std::optional<Solved> solve(int minute, const std::vector<bool>& shed) const {
        Solved solved{{}, {}, {}, shed};
        for (std::size_t m = 0; m < members_.size(); ++m) {
            const Member& member = members_[m];
            NetworkSection section{member.from, {}, {}};
            if (member.load && !shed[m] && is_on(member, minute)) section.loads.push_back(*member.load);
            solved.sections.push_back(std::move(section));
        }
        const auto settled = settle(solved);
        bool limited = false;
        for (std::size_t m = 0; m < members_.size(); ++m) {
            const Member& member = members_[m];
            if (!member.limit || solved.sections[m].loads.empty()) continue;
            if (settled && solved.answer.current[m] <= *member.limit) continue;
            solved.sections[m].loads = {LoadLaw{*member.limit}};
            limited = true;
        }
        if (settled && !limited) return solved;
        if (!limited || !settle(solved)) return {};
        return solved;
    }

    /// A run that has its figures stays as warm as they say, so that all figures of a tree go by the resistances reported.
    /// Resistance heats with the current and the current grows with the resistance: repeated substitution from the cold
    /// side. False where that runs away, or the loads cannot be fed.
    [[nodiscard]] bool settle(Solved& solved) const {
        solved.conductors.clear();
        for (const Member& member : members_)
            solved.conductors.push_back(
                member.reported.value_or(WarmRun::Temperatures{member.warm.around, member.warm.around}));
        for (int round = 0; round < most_rounds; ++round) {
            for (std::size_t m = 0; m < members_.size(); ++m)
                solved.sections[m].loop = members_[m].warm.loop(solved.conductors[m]);
            auto answer = solve_network(source_, solved.sections);
            if (!answer) return false;
            solved.answer = *std::move(answer);
            bool still = true;
            for (std::size_t m = 0; m < members_.size(); ++m) {
                if (members_[m].reported) continue;
                const auto next = members_[m].warm.at(solved.answer.current[m]);
                still = still && abs(next.out - solved.conductors[m].out) < kelvins(1e-6) &&
                        abs(next.back - solved.conductors[m].back) < kelvins(1e-6);
                if (!still) solved.conductors[m] = next;
            }
            if (still) return true;
        }
        return false;
    }

    void set(std::size_t m, const Solved& solved, std::optional<int> minute, bool apart) {
        if (members_[m].load && solved.shed[m]) return;
        members_[m].reported = solved.conductors[m];
        RunPlan& run = runs_[members_[m].run];
        const Candidate& taken = *run.taken();
        const Current current = solved.answer.current[m];
        const Voltage far_end = solved.answer.far_end[m];
        const Voltage begins = members_[m].from ? solved.answer.far_end[*members_[m].from] : source_;
        RunResistance resistance = resistance_of(members_[m].warm, taken.resistance(), solved.conductors[m]);
        const Voltage cable = current * resistance.cable, joints = current * resistance.all_joints;
        const Voltage drop = begins - far_end;
        run.figures = NetworkFigures{.source = source_,
                                     .begins = begins,
                                     .shares = {},
                                     .resistance = std::move(resistance),
                                     .current = current,
                                     .drop = drop,
                                     .cable_drop = cable,
                                     .joint_drop = joints,
                                     .share = drop / nominal_voltage,
                                     .far_end = far_end,
                                     .way_drop = source_ - far_end,
                                     .heat = current * drop,
                                     .temperature = conductor_temperature(run.task.run, taken, current),
                                     .at = {},
                                     .apart = apart};
        if (minute) run.figures->at = clock_of(minutes(*minute));
        for (std::size_t k = m; k < members_.size(); ++k)
            if (!solved.sections[k].loads.empty() && leads_to(m, k))
                run.figures->shares.push_back({runs_[members_[k].run].task.to.name, solved.answer.current[k]});
    }

    std::vector<RunPlan>& runs_;
    Voltage source_;
    std::vector<Member> members_;
};

}  // namespace

void note_network(std::vector<RunPlan>& runs, const System& system, const Tables& tables) {
    for (std::size_t i = 0; i < runs.size(); ++i)
        if (runs[i].sized() && !trunk_before(runs[i], runs)) Tree(runs, i, system, tables).note();
}

}  // namespace voltwright
