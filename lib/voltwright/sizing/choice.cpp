#include "voltwright/sizing/choice.hpp"

#include "voltwright/sizing/parts_in_run.hpp"
#include "voltwright/sizing/preconditions.hpp"

#include <algorithm>
#include <utility>

namespace voltwright {

const Candidate* Choice::least_that_fits() const {
    for (const Candidate& candidate : ladder)
        if (candidate.fits()) return &candidate;
    return nullptr;
}

namespace {

/// The sizes that come into question, thinnest first.
std::vector<Gauge> sizes_of(const SizingProblem& problem) {
    std::vector<Gauge> sizes = problem.rules.sizes;
    const std::optional<Gauge>& given = problem.run.given;
    if (given && std::find(sizes.begin(), sizes.end(), *given) == sizes.end()) sizes.push_back(*given);
    std::vector<std::pair<Area, Gauge>> by_area;
    by_area.reserve(sizes.size());
    for (const Gauge size : sizes)
        if (const Area area = conductors_of(problem.run, size, problem.tables).out.area;
            !problem.run.at_least || area >= *problem.run.at_least)
            by_area.emplace_back(area, size);
    std::sort(by_area.begin(), by_area.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    sizes.resize(by_area.size());
    std::transform(by_area.begin(), by_area.end(), sizes.begin(), [](const auto& one) { return one.second; });
    return sizes;
}

std::vector<Candidate> whole_ladder(const SizingProblem& problem, const std::vector<Gauge>& sizes) {
    std::vector<Candidate> ladder;
    ladder.reserve(sizes.size());
    for (const Gauge size : sizes) ladder.push_back(judge(problem, size));
    return ladder;
}

/// The first that fits, or the given one.
std::vector<Candidate> first_that_fits(const SizingProblem& problem, const std::vector<Gauge>& sizes) {
    if (problem.run.given) return {judge(problem, *problem.run.given)};
    for (const Gauge size : sizes) {
        const Conductors both = conductors_of(problem.run, size, problem.tables);
        if (too_weak(problem, both) || !carries(problem, both) || !parts_carry(problem, both)) continue;
        if (Candidate candidate = judge(problem, size); candidate.fits()) return {std::move(candidate)};
    }
    return {};
}

/// The first that fits, and the one below it.
std::vector<Candidate> needed_ladder(const SizingProblem& problem, const std::vector<Gauge>& sizes) {
    std::optional<Candidate> below;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const Conductors both = conductors_of(problem.run, sizes[i], problem.tables);
        if (too_weak(problem, both) || !carries(problem, both)) {
            below.reset();
            continue;
        }
        Candidate candidate = judge(problem, sizes[i]);
        if (!candidate.fits()) {
            below = std::move(candidate);
            continue;
        }
        std::vector<Candidate> ladder;
        ladder.reserve(2);
        if (i > 0) ladder.push_back(below ? *std::move(below) : judge(problem, sizes[i - 1]));
        ladder.push_back(std::move(candidate));
        return ladder;
    }
    return whole_ladder(problem, sizes);
}

/// The first size that would fit if the parts that melt in this run were others of the same resistance.
std::optional<std::size_t> without_parts(const SizingProblem& problem, const std::vector<Gauge>& sizes) {
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const Area area = conductors_of(problem.run, sizes[i], problem.tables).out.area;
        CableRun other = problem.run;
        for (Joint& joint : other.joints.value())
            if (const JointRow* row = joint.measured ? nullptr : find_joint(problem.tables, joint.name, area))
                if (const auto part = part_rating(joint, *row, area, hottest_surroundings(problem.run));
                    part && part->rating < peak_current(problem.design))
                    joint.measured = row->usual;
        const SizingProblem asked{other,          problem.load,   problem.supply,   problem.rules,
                                  problem.tables, problem.design, problem.next_made};
        if (judge(asked, sizes[i]).fits()) return i;
    }
    return {};
}

std::vector<Candidate> ladder_of(const SizingProblem& problem, const std::vector<Gauge>& sizes, Ladder ladder) {
    if (ladder == Ladder::first) return first_that_fits(problem, sizes);
    if (ladder == Ladder::needed && !problem.run.given) return needed_ladder(problem, sizes);
    return whole_ladder(problem, sizes);
}

bool any_fits(const std::vector<Candidate>& ladder) {
    return std::any_of(ladder.begin(), ladder.end(), [](const Candidate& one) { return one.fits(); });
}

/// Of a whole ladder in which nothing fits.
std::optional<std::size_t> fails_least(const SizingProblem& problem, const std::vector<Candidate>& ladder,
                                       const std::vector<Gauge>& sizes) {
    if (ladder.empty()) return {};
    const auto fails = [](const Candidate& candidate, Criterion criterion) {
        return std::find(candidate.fails.begin(), candidate.fails.end(), criterion) != candidate.fails.end();
    };
    if (std::all_of(ladder.begin(), ladder.end(), [&](const Candidate& one) { return fails(one, Criterion::part); }))
        if (const auto size = without_parts(problem, sizes)) return size;
    const auto fewer = [](const Candidate& a, const Candidate& b) { return a.fails.size() < b.fails.size(); };
    const auto thickest = std::min_element(ladder.rbegin(), ladder.rend(), fewer);
    auto least = std::prev(thickest.base());
    if (fails(*thickest, Criterion::terminal) || fails(*thickest, Criterion::lug))
        least = std::find_if(ladder.begin(), ladder.end(),
                             [&](const Candidate& one) { return one.fails == thickest->fails; });
    return static_cast<std::size_t>(least - ladder.begin());
}

/// Where the fuse is above what the cable may carry, the thickest is the least below it.
void take_thickest(Choice& choice, std::vector<Candidate> whole, Ladder ladder) {
    const auto last =
        std::find_if(whole.rbegin(), whole.rend(), [](const Candidate& one) { return one.fits(); }).base() - 1;
    choice.decided_by = Criterion::fuse;
    if (ladder == Ladder::first) {
        choice.ladder = {*last};
        choice.taken = 0;
        return;
    }
    choice.taken = static_cast<std::size_t>(last - whole.begin());
    choice.ladder = std::move(whole);
}

/// Whether a made rating above the ampacity takes the failing of a fuse away, and another is what is in the way.
bool only_no_fuse(const SizingProblem& problem, const std::vector<Candidate>& within,
                  const std::vector<Candidate>& above, const std::vector<Gauge>& sizes) {
    const auto least = fails_least(problem, within, sizes), other = fails_least(problem, above, sizes);
    if (!least || !other) return false;
    const auto no_fuse = [](const Candidate& one) {
        return std::find(one.fails.begin(), one.fails.end(), Criterion::fuse) != one.fails.end();
    };
    return no_fuse(within[*least]) && !no_fuse(above[*other]) &&
           above[*other].fails.size() <= within[*least].fails.size();
}

}  // namespace

Choice choose_cable(const CableRun& run, const RunLoad& load, const Supply& supply, const Rules& rules,
                    const Tables& tables, Ladder ladder) {
    expect_amounts(run);
    expect_amounts(load);
    expect_amounts(supply, rules);
    SizingProblem problem{run, load, supply, rules, tables, design_current(load), run.given.has_value()};
    const std::vector<Gauge> sizes = sizes_of(problem);

    Choice choice;
    choice.design = problem.design;
    choice.ladder = ladder_of(problem, sizes, ladder);
    if (!run.given && !any_fits(choice.ladder)) {
        problem.next_made = true;
        auto ladder_above = whole_ladder(problem, sizes);
        if (any_fits(ladder_above)) {
            take_thickest(choice, std::move(ladder_above), ladder);
            return choice;
        }
        if (only_no_fuse(problem, choice.ladder, ladder_above, sizes)) choice.ladder = std::move(ladder_above);
    }

    const auto wanted = [&](const Candidate& candidate) {
        return run.given ? candidate.size == *run.given : candidate.fits();
    };
    const auto found = std::find_if(choice.ladder.begin(), choice.ladder.end(), wanted);
    if (found != choice.ladder.end()) choice.taken = static_cast<std::size_t>(found - choice.ladder.begin());
    choice.given = run.given.has_value();
    if (!choice.taken && ladder == Ladder::first) return choice;
    if (!choice.taken) {
        choice.taken = fails_least(problem, choice.ladder, sizes);
        return choice;
    }
    if (const Candidate* thinner = choice.thinner(); thinner && !thinner->fits())
        choice.decided_by = thinner->fails.front();
    return choice;
}

}  // namespace voltwright
