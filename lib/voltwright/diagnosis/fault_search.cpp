#include "voltwright/diagnosis/fault_search.hpp"

#include <algorithm>
#include <cmath>

namespace voltwright {

namespace {

/// By how much a fault has to lower χ² to be believed: some 3.5 standard deviations, so that among some tens of joints hardly
/// one is accused for nothing.
constexpr double chi_squared_threshold = 12.0;
/// What a fault may be less likely than a bad joint beforehand and still pass with that: a cable of another gauge. What no
/// joint is behind must show more clearly.
constexpr double unlikely_fault = 1.5;
/// By what odds a fault has to stand out from the next to be identified.
constexpr double odds_threshold = 10.0;
constexpr std::size_t most_faults = 3;
/// How many of the best scored faults are fitted: the score is that of a straight line, the fit decides. Of a pair the first
/// may be hidden by the second, so more of them are tried.
constexpr std::size_t fitted_singles = 6, fitted_firsts = 8;
/// Two weights that differ by less are alike.
constexpr double alike = 1e-3;

bool is_clear(double log_margin) { return log_margin >= std::log(odds_threshold); }

void likeliest_first(SearchStep& step) {
    std::stable_sort(step.begin(), step.end(),
                     [](const RankedFit& a, const RankedFit& b) { return a.log_weight > b.log_weight; });
}

}  // namespace

SearchStep one_more_fault(const MeasurementModel& model, const FaultFit& before) {
    SearchStep step;
    for (const ScoredFault& score : score_faults(model, before)) {
        if (step.size() >= fitted_singles || score.gain < chi_squared_threshold / 2.0) break;
        auto one = fit_with_one_more(model, before, score.fault);
        if (!one) continue;
        if (!(one->estimate().magnitudes.back() > 0.0) && !is_gross_error(score.fault)) continue;
        const double log_weight =
            (before.chi_squared() - one->chi_squared()) / 2.0 + prior_log_odds(model.circuit, score.fault);
        step.push_back({std::move(*one), log_weight});
    }
    likeliest_first(step);
    return step;
}

namespace {

Alternative last_fault_of(const RankedFit& one, double best_log_weight) {
    return {one.fit, one.fit.faults.size() - 1, std::exp(one.log_weight - best_log_weight)};
}

bool is_believed(const FaultFit& before, const SearchStep& step) {
    return !step.empty() && before.chi_squared() - step.front().fit.chi_squared() > chi_squared_threshold &&
           step.front().log_weight > chi_squared_threshold / 2.0 - unlikely_fault;
}

/// Takes in the fault that explains most of the rest. False where nothing more is to be found.
bool take_one_more(const MeasurementModel& model, FoundFaults& found) {
    if (found.best.faults.size() >= most_faults) return false;
    SearchStep step = one_more_fault(model, found.best);
    if (!is_believed(found.best, step)) {
        if (found.best.faults.empty())
            for (const RankedFit& one : step) found.alternatives.push_back(last_fault_of(one, step.front().log_weight));
        return false;
    }
    const double best = step.front().log_weight;
    const bool alone = step.size() == 1 || is_clear(best - step[1].log_weight);
    found.identified.push_back(alone);
    for (std::size_t i = 1; i < step.size(); ++i)
        if (step[i].log_weight > best - far_behind) found.alternatives.push_back(last_fault_of(step[i], best));
    found.best = step.front().fit;
    if (!alone && !found.open) found.open = std::move(step);
    return true;
}

// ---- pairs -----------------------------------------------------------------------------------------------------------

/// How much a fit explains, as a logarithm: each fault has to lower χ² by the threshold.
double log_weight_of(const MeasurementModel& model, const FaultFit& one) {
    double sum = -one.chi_squared() / 2.0;
    for (const CircuitFault& fault : one.faults)
        sum += prior_log_odds(model.circuit, fault) - chi_squared_threshold / 2.0;
    return sum;
}

/// A joint with less than it should have explains nothing.
bool all_above_zero(const FaultFit& one) {
    for (std::size_t f = 0; f < one.faults.size(); ++f)
        if (!is_gross_error(one.faults[f]) && !(one.estimate().magnitudes[f] > 0.0)) return false;
    return true;
}

bool same_faults(const FaultFit& a, const FaultFit& b) {
    return a.faults.size() == b.faults.size() &&
           std::is_permutation(a.faults.begin(), a.faults.end(), b.faults.begin());
}

/// The likeliest single faults, each with what explains most beside it.
SearchStep fitted_pairs(const MeasurementModel& model, const FaultFit& sound) {
    SearchStep pairs;
    std::vector<ScoredFault> firsts = score_faults(model, sound);
    if (firsts.size() > fitted_firsts) firsts.resize(fitted_firsts);
    for (const ScoredFault& score : firsts) {
        const auto first = fit_with_one_more(model, sound, score.fault);
        if (!first) continue;
        for (RankedFit& both : one_more_fault(model, *first)) {
            const bool known = std::any_of(pairs.begin(), pairs.end(),
                                           [&](const RankedFit& one) { return same_faults(one.fit, both.fit); });
            if (known || !all_above_zero(both.fit)) continue;
            const double log_weight = log_weight_of(model, both.fit);
            pairs.push_back({std::move(both.fit), log_weight});
        }
    }
    likeliest_first(pairs);
    return pairs;
}

/// One that explains everything before one that does not, then the fewest faults, then the heaviest.
bool is_better(const MeasurementModel& model, const FaultFit& pair, const FaultFit& at_hand) {
    const bool all = explains_everything(model, pair);
    if (all != explains_everything(model, at_hand)) return all;
    if (all && at_hand.faults.size() != 2) return at_hand.faults.size() > 2;
    return log_weight_of(model, pair) >= log_weight_of(model, at_hand) - alike;
}

/// What stands out is in everything that explains nearly as much.
bool stands_out(const CircuitFault& fault, const SearchStep& pairs) {
    const auto other =
        std::find_if(pairs.begin(), pairs.end(), [&](const RankedFit& one) { return !one.fit.has(fault); });
    return other == pairs.end() || is_clear(pairs.front().log_weight - other->log_weight);
}

void add_alternatives(const SearchStep& pairs, FoundFaults& found) {
    const double best = pairs.front().log_weight;
    for (std::size_t i = 1; i < pairs.size() && !(pairs[i].log_weight < best - far_behind); ++i)
        for (std::size_t f = 0; f < pairs[i].fit.faults.size(); ++f)
            if (!found.best.has(pairs[i].fit.faults[f]))
                found.alternatives.push_back({pairs[i].fit, f, std::exp(pairs[i].log_weight - best)});
}

/// Two faults can hide each other, a bad joint behind a reading that was noted wrongly above all. Empty when no pair is
/// better than what is at hand.
std::optional<FoundFaults> search_pairs(const MeasurementModel& model, const FaultFit& sound, const FaultFit& at_hand) {
    SearchStep pairs = fitted_pairs(model, sound);
    if (pairs.empty() || !is_better(model, pairs.front().fit, at_hand)) return {};
    FoundFaults found{.best = pairs.front().fit};
    bool open = false;
    for (const CircuitFault& fault : found.best.faults) {
        found.identified.push_back(stands_out(fault, pairs));
        open = open || !found.identified.back();
    }
    add_alternatives(pairs, found);
    if (open) found.open = std::move(pairs);
    while (!explains_everything(model, found.best) && take_one_more(model, found)) {
    }
    return found;
}

}  // namespace

std::optional<FoundFaults> search_faults(const MeasurementModel& model) {
    const auto sound = fit_faults(model, {}, prior_estimate(model));
    if (!sound) return {};
    FoundFaults found{.best = *sound};
    while (take_one_more(model, found)) {
    }
    const auto& faults = found.best.faults;
    const bool hidden = faults.size() > 1 && std::any_of(faults.begin(), faults.end(), is_gross_error);
    if (hidden || !explains_everything(model, found.best))
        if (auto pair = search_pairs(model, *sound, found.best)) found = std::move(*pair);
    return found;
}

}  // namespace voltwright
