#include "voltwright/planning/diagnose.hpp"

#include "voltwright/planning/remarks.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <array>
#include <cmath>

namespace voltwright {

std::string_view show(Verdict verdict) {
    switch (verdict) {
        case Verdict::too_little: return "too little measured";
        case Verdict::nothing_wrong: return "nothing wrong";
        case Verdict::plain: return "told by one reading";
        case Verdict::found: return "found";
        case Verdict::several: return "several possible";
        case Verdict::contradiction: return "contradiction";
    }
    return "";
}

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// One function for each kind of expression: each kind that is written down takes a second to compile.

MatrixXd product(const MatrixXd& a, const MatrixXd& b) { return a * b; }
VectorXd product(const MatrixXd& a, const VectorXd& x) { return a * x; }
MatrixXd transposed(const MatrixXd& a) { return a.transpose(); }
MatrixXd identity(Eigen::Index size) { return MatrixXd::Identity(size, size); }

/// Solves for a matrix that is symmetric and positive definite.
class Solver {
public:
    explicit Solver(const MatrixXd& matrix) : factors_(matrix) {}
    [[nodiscard]] VectorXd solve(const VectorXd& right) const { return factors_.solve(right); }
    [[nodiscard]] MatrixXd solve(const MatrixXd& right) const {
        MatrixXd columns(right.rows(), right.cols());
        for (Eigen::Index i = 0; i < right.cols(); ++i) columns.col(i) = solve(VectorXd(right.col(i)));
        return columns;
    }

private:
    Eigen::LDLT<MatrixXd> factors_;
};

/// By how much a fault has to lower χ² to be believed.
constexpr double believed = 12.0;
/// By what odds it has to stand out from the next to be accused.
constexpr double stands_out = 10.0;
constexpr std::size_t most_faults = 3;
/// A range of the normal distribution that holds 19 times in 20.
constexpr double nineteen_in_twenty = 1.96;

/// How wide the bounds are within which batteries, charger and loads may be (common practice, no source): voltages by
/// 0.6 V; the charger's output by a third, at idle by two; a load by a third; the charger's losses by a twentieth.
struct Wide {
    static constexpr double volts = 0.6, driving = 0.3, idling = 0.7, load = 0.35, losses = 0.05;
};

/// And above what the profile says by no more than this: an output is the most that a charger gives, but for what it is
/// made to; a load may be older or hotter than its label (common practice, no source).
constexpr double charger_gives_more = 0.05, load_takes_more = 0.3;

/// exp(x) below zero; above it, bending from the same slope towards 1 + `most`.
double held_below(double x, double most) { return x <= 0.0 ? std::exp(x) : 1.0 + most * std::tanh(x / most); }

/// One thing that may be wrong, before it is put into words.
struct Hypothesis {
    Suspicion::Kind kind;
    std::size_t index;  ///< element, section or reading

    friend bool operator==(const Hypothesis&, const Hypothesis&) = default;
};

/// How much more likely than a bad joint, as a logarithm. Common practice, no source: joints fail most, then fuses and
/// their holders; a conductor seldom fails along its way.
double log_odds(const Rig& rig, const Hypothesis& hypothesis) {
    switch (hypothesis.kind) {
        case Suspicion::Kind::joint:
            return rig.elements[hypothesis.index].element.kind == Element::Kind::fuse ? -0.5 : 0.0;
        case Suspicion::Kind::body: return 0.5;
        case Suspicion::Kind::gauge: return -1.5;
        case Suspicion::Kind::cable: return -3.0;
        case Suspicion::Kind::slip: return -2.5;
    }
    return 0.0;
}

/// A state of affairs of the model: every bounded unknown in standard deviations, and the extra of each fault.
struct Guess {
    VectorXd bounded;
    VectorXd extra;  ///< milliohms; for a gauge the share added; for a slip volts or amperes
};

/// The model fitted to readings with some faults.
struct Fit {
    std::vector<Hypothesis> faults;
    Guess guess;
    double chi_squared = 0.0;
    MatrixXd covariance;  ///< of the extras
};

/// Readings, and all that may be true of the vehicle.
class Model {
public:
    Model(const Rig& rig, const Sifted& sifted, const System& system, const Tables& tables)
        : rig_(rig), readings_(sifted.used) {
        const std::vector<Shown>& readings = readings_;
        for (const Shown& reading : readings)
            if (std::find(states_.begin(), states_.end(), reading.state) == states_.end())
                states_.push_back(reading.state);
        for (const Shown& reading : readings) state_index_.push_back(state_of(reading));
        idle_.resize(states_.size());
        for (std::size_t i = 0; i < readings.size(); ++i)
            if (sifted.idle[i]) idle_[state_index_[i]] = true;
        const BatteryLimits limits = battery_limits(system, tables);
        alternator_ = std::max(Wide::volts, in_volts(limits.starter_highest - limits.starter_charged) / 3.0);
        for (const RigState& state : states_) {
            const RigSupply usual = usual_supply(rig, state, system, tables);
            starter_.push_back(in_volts(usual.starter));
            house_.push_back(in_volts(usual.house));
        }
        // One that is unusual and was seen to be so is taken as it is.
        for (std::size_t i = 0; i < readings.size(); ++i)
            if (sifted.anchors[i]) {
                const bool starter =
                    std::get<Probe::Between>(readings[i].probe.what).red.at == Probe::Point::At::starter;
                (starter ? starter_ : house_)[state_index_[i]] = std::abs(readings[i].value);
            }
        // The cables of a run share a temperature, so they are off together; all else is off by itself.
        unknown_of_.resize(rig.elements.size());
        std::vector<std::optional<std::size_t>> cable(rig.sections.size());
        std::size_t count = 0;
        for (std::size_t i = 0; i < rig.elements.size(); ++i) {
            auto& own = cable[rig.elements[i].section];
            if (rig.elements[i].element.kind != Element::Kind::cable) {
                unknown_of_[i] = count++;
            } else {
                if (!own) own = count++;
                unknown_of_[i] = *own;
            }
        }
        losses_ = count++;
        loads_ = count;
        count += rig.loads.size();
        supplies_ = count;
        count += 3 * states_.size();
        unknowns_ = count;
    }

    [[nodiscard]] Guess first() const { return {VectorXd::Zero(static_cast<Eigen::Index>(unknowns_)), VectorXd()}; }
    [[nodiscard]] Eigen::Index size() const { return static_cast<Eigen::Index>(readings_.size()); }

    /// All that may be wrong with what was measured.
    [[nodiscard]] std::vector<Hypothesis> hypotheses() const {
        std::vector<Hypothesis> all;
        for (std::size_t i = 0; i < rig_.elements.size(); ++i) {
            const Element::Kind kind = rig_.elements[i].element.kind;
            all.push_back({kind == Element::Kind::cable  ? Suspicion::Kind::cable
                           : kind == Element::Kind::body ? Suspicion::Kind::body
                                                         : Suspicion::Kind::joint,
                           i});
        }
        for (std::size_t i = 0; i < rig_.sections.size(); ++i)
            if (std::any_of(rig_.sections[i].elements.begin(), rig_.sections[i].elements.end(),
                            [&](std::size_t e) { return rig_.elements[e].element.kind == Element::Kind::cable; }))
                all.push_back({Suspicion::Kind::gauge, i});
        for (std::size_t i = 0; i < readings_.size(); ++i) all.push_back({Suspicion::Kind::slip, i});
        return all;
    }

    [[nodiscard]] std::vector<Resistance> resistances(const Guess& guess, const std::vector<Hypothesis>& faults) const {
        std::vector<Resistance> all(rig_.elements.size());
        for (std::size_t i = 0; i < all.size(); ++i) {
            const RigElement& one = rig_.elements[i];
            const double off = guess.bounded[static_cast<Eigen::Index>(unknown_of_[i])];
            // Never below a tenth: no joint is that good.
            all[i] = std::max<Resistance>(one.expected + off * one.deviation, 0.1 * one.expected);
        }
        for (std::size_t f = 0; f < faults.size(); ++f) {
            const double extra = guess.extra[static_cast<Eigen::Index>(f)];
            const Hypothesis& fault = faults[f];
            if (fault.kind == Suspicion::Kind::slip) continue;
            if (fault.kind == Suspicion::Kind::gauge) {
                for (const std::size_t element : rig_.sections[fault.index].elements)
                    if (rig_.elements[element].element.kind == Element::Kind::cable)
                        all[element] *= std::max(1.0 + extra, 0.1);
            } else {
                all[fault.index] = std::max<Resistance>(all[fault.index] + milliohms(extra), Resistance{});
            }
        }
        return all;
    }

    [[nodiscard]] RigSupply supply(const Guess& guess, std::size_t state) const {
        const auto unknown = [&](std::size_t index) { return guess.bounded[static_cast<Eigen::Index>(index)]; };
        const double width = states_[state].engine == Engine::idling ? Wide::idling : Wide::driving;
        const std::size_t at = supplies_ + 3 * state;
        RigSupply supply{
            .starter = volts(starter_[state] + (states_[state].charging() ? alternator_ : Wide::volts) * unknown(at)),
            .house = volts(house_[state] + Wide::volts * unknown(at + 1)),
            .charge = idle_[state] ? Current{}
                                   : rig_.charger_output * held_below(width * unknown(at + 2), charger_gives_more),
            .draws = std::vector<double>(rig_.loads.size()),
            .losses = std::exp(Wide::losses * unknown(losses_))};
        for (std::size_t i = 0; i < supply.draws.size(); ++i)
            supply.draws[i] = held_below(Wide::load * unknown(loads_ + i), load_takes_more);
        return supply;
    }

    [[nodiscard]] std::size_t state_of(const Shown& reading) const {
        return static_cast<std::size_t>(std::find(states_.begin(), states_.end(), reading.state) - states_.begin());
    }

    /// What each reading would show; empty where the loads cannot be fed.
    [[nodiscard]] std::optional<VectorXd> predict(const Guess& guess, const std::vector<Hypothesis>& faults) const {
        const std::vector<Resistance> all = resistances(guess, faults);
        VectorXd answer(size());
        for (std::size_t state = 0; state < states_.size(); ++state) {
            const auto flows = flow(rig_, states_[state], supply(guess, state), all);
            if (!flows) return {};
            put(state, *flows, all, answer);
        }
        for (std::size_t f = 0; f < faults.size(); ++f)
            if (faults[f].kind == Suspicion::Kind::slip)
                answer[static_cast<Eigen::Index>(faults[f].index)] += guess.extra[static_cast<Eigen::Index>(f)];
        return answer;
    }

    /// How each reading follows each unknown, divided by the reading's uncertainty: the bounded ones first, then all of
    /// `hypotheses`.
    [[nodiscard]] std::optional<MatrixXd> slopes(const Guess& guess, const std::vector<Hypothesis>& faults,
                                                 const std::vector<Hypothesis>& wanted) const {
        const std::vector<Resistance> all = resistances(guess, faults);
        const auto columns = static_cast<Eigen::Index>(unknowns_ + wanted.size());
        MatrixXd slopes = MatrixXd::Zero(size(), columns);
        // By element, in volts or amperes for each milliohm.
        MatrixXd by_element = MatrixXd::Zero(size(), static_cast<Eigen::Index>(all.size()));
        for (std::size_t state = 0; state < states_.size(); ++state)
            if (!slopes_of_state(guess, state, all, slopes, by_element)) return {};
        for (std::size_t i = 0; i < all.size(); ++i) {
            const auto element = static_cast<Eigen::Index>(i);
            slopes.col(static_cast<Eigen::Index>(unknown_of_[i])) +=
                in_milliohms(rig_.elements[i].deviation) * by_element.col(element);
        }
        for (std::size_t h = 0; h < wanted.size(); ++h) {
            auto column = slopes.col(static_cast<Eigen::Index>(unknowns_ + h));
            if (wanted[h].kind == Suspicion::Kind::slip) {
                column[static_cast<Eigen::Index>(wanted[h].index)] = 1.0;
            } else if (wanted[h].kind == Suspicion::Kind::gauge) {
                for (const std::size_t element : rig_.sections[wanted[h].index].elements)
                    if (rig_.elements[element].element.kind == Element::Kind::cable)
                        column += in_milliohms(rig_.elements[element].expected) *
                                  by_element.col(static_cast<Eigen::Index>(element));
            } else {
                column = by_element.col(static_cast<Eigen::Index>(wanted[h].index));
            }
        }
        for (Eigen::Index i = 0; i < size(); ++i) slopes.row(i) /= uncertainty(i);
        return slopes;
    }

    [[nodiscard]] double uncertainty(Eigen::Index reading) const {
        return readings_[static_cast<std::size_t>(reading)].uncertainty;
    }

    /// What was shown less what would be, in uncertainties.
    [[nodiscard]] VectorXd misses(const VectorXd& predicted) const {
        VectorXd misses(size());
        for (Eigen::Index i = 0; i < size(); ++i)
            misses[i] = (readings_[static_cast<std::size_t>(i)].value - predicted[i]) / uncertainty(i);
        return misses;
    }

    [[nodiscard]] const Rig& rig() const { return rig_; }
    [[nodiscard]] const std::vector<Shown>& readings() const { return readings_; }
    [[nodiscard]] const std::vector<RigState>& states() const { return states_; }
    [[nodiscard]] Eigen::Index unknowns() const { return static_cast<Eigen::Index>(unknowns_); }

    /// The flows of one state.
    [[nodiscard]] std::optional<RigFlow> flows(const Guess& guess, const std::vector<Hypothesis>& faults,
                                               std::size_t state) const {
        return flow(rig_, states_[state], supply(guess, state), resistances(guess, faults));
    }

private:
    void put(std::size_t state, const RigFlow& flows, const std::vector<Resistance>& all, VectorXd& answer) const {
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            if (state_index_[i] != state) continue;
            const double value = shown(rig_, readings_[i].probe, flows, all);
            answer[static_cast<Eigen::Index>(i)] = readings_[i].probe.drop() ? std::abs(value) : value;
        }
    }

    /// One state's part of the slopes, by small steps. All elements of one side of a section act alike on everything but
    /// what is measured across themselves.
    bool slopes_of_state(const Guess& guess, std::size_t state, const std::vector<Resistance>& all, MatrixXd& slopes,
                         MatrixXd& by_element) const {
        const RigSupply at = supply(guess, state);
        const auto flows = flow(rig_, states_[state], at, all);
        if (!flows) return false;
        VectorXd base = VectorXd::Zero(size());
        put(state, *flows, all, base);
        const auto difference = [&](const RigSupply& other, const std::vector<Resistance>& resistances,
                                    double step) -> std::optional<VectorXd> {
            const auto moved = flow(rig_, states_[state], other, resistances);
            if (!moved) return {};
            VectorXd now = VectorXd::Zero(size());
            put(state, *moved, resistances, now);
            return VectorXd((now - base) / step);
        };
        constexpr double milliohm = 1e-3;  // a step of a thousandth of one
        std::vector<Resistance> moved = all;
        for (std::size_t section = 0; section < rig_.sections.size(); ++section)
            for (const Side side : {Side::out, Side::back}) {
                // Where nothing flows a resistance changes nothing.
                if (flows->current[section] == Current{}) continue;
                const auto& elements = rig_.sections[section].elements;
                const auto first = std::find_if(elements.begin(), elements.end(), [&](std::size_t element) {
                    return rig_.elements[element].element.side == side;
                });
                if (first == elements.end()) continue;
                moved[*first] += milliohms(milliohm);
                auto slope = difference(at, moved, milliohm);
                moved[*first] = all[*first];
                if (!slope) return false;
                // Without what the first one shows of itself.
                add_across(*first, *flows, state, -1.0, *slope);
                for (const std::size_t element : elements)
                    if (rig_.elements[element].element.side == side) {
                        auto column = by_element.col(static_cast<Eigen::Index>(element));
                        column += *slope;
                        VectorXd own = VectorXd::Zero(size());
                        add_across(element, *flows, state, 1.0, own);
                        column += own;
                    }
            }
        constexpr double step = 1e-5;
        Guess other = guess;
        const std::size_t own = supplies_ + 3 * state;
        std::vector<std::size_t> unknowns = {losses_, own, own + 1, own + 2};
        for (std::size_t i = 0; i < rig_.loads.size(); ++i)
            if (std::find(states_[state].with.begin(), states_[state].with.end(), rig_.loads[i].name) !=
                states_[state].with.end())
                unknowns.push_back(loads_ + i);
        for (const std::size_t unknown : unknowns) {
            const auto index = static_cast<Eigen::Index>(unknown);
            other.bounded[index] += step;
            const auto slope = difference(supply(other, state), all, step);
            other.bounded[index] = guess.bounded[index];
            if (!slope) return false;
            slopes.col(index) += *slope;
        }
        return true;
    }

    /// What a milliohm of an element adds to the readings across it alone.
    void add_across(std::size_t element, const RigFlow& flows, std::size_t state, double sign, VectorXd& slope) const {
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const auto* over = std::get_if<Probe::Over>(&readings_[i].probe.what);
            if (over && over->element == element && state_index_[i] == state)
                slope[static_cast<Eigen::Index>(i)] +=
                    sign * in_amperes(flows.current[rig_.elements[element].section]) * 1e-3;
        }
    }

    const Rig& rig_;
    const std::vector<Shown>& readings_;
    std::vector<RigState> states_;
    std::vector<std::size_t> state_index_;  ///< by reading
    std::vector<bool> idle_;                ///< by state
    std::vector<double> starter_, house_;   ///< volts that are usual then, by state
    double alternator_ = Wide::volts;       ///< a smart one's battery may stand anywhere between its limits
    std::vector<std::size_t> unknown_of_;   ///< by element
    std::size_t losses_ = 0, loads_ = 0, supplies_ = 0, unknowns_ = 0;
};

double chi_squared(const VectorXd& misses, const Guess& guess) {
    return misses.squaredNorm() + guess.bounded.squaredNorm();
}

/// The guess with these faults that lowers χ² most, from a guess at hand. Empty when it leads nowhere.
std::optional<Fit> fit(const Model& model, std::vector<Hypothesis> faults, Guess guess) {
    auto predicted = model.predict(guess, faults);
    if (!predicted) return {};
    Fit answer{.faults = faults,
               .guess = guess,
               .chi_squared = chi_squared(model.misses(*predicted), guess),
               .covariance = {}};
    const auto extras = static_cast<Eigen::Index>(faults.size());
    for (int iteration = 0; iteration < 30; ++iteration) {
        const auto slopes = model.slopes(answer.guess, faults, faults);
        if (!slopes) {
            // At the edge of what can be fed the last good guess stands; without a fault it needs no more than that.
            if (faults.empty() || answer.covariance.size() > 0) break;
            return {};
        }
        const MatrixXd bounded = slopes->leftCols(model.unknowns());
        const MatrixXd free = slopes->rightCols(extras);
        const MatrixXd bounded_across = transposed(bounded), free_across = transposed(free);
        const MatrixXd products = product(bounded, bounded_across);
        const VectorXd misses = model.misses(*predicted);
        const VectorXd leant = product(bounded, answer.guess.bounded);
        // There are fewer readings than unknowns, so the step is solved among the readings. Where a whole one leads
        // nowhere, shorter ones.
        bool better = false;
        for (double damping = 0.0; damping < 1e6; damping = std::max(1e-2, 10.0 * damping)) {
            const double stiffness = 1.0 + damping;
            const Solver among_readings(identity(model.size()) + products / stiffness);
            const VectorXd wanted = misses + leant / stiffness;
            VectorXd left = wanted;
            Guess next = answer.guess;
            if (extras > 0) {
                MatrixXd curvature = product(free_across, among_readings.solve(free));
                // An extra that nothing shows stays where it is.
                for (Eigen::Index f = 0; f < extras; ++f) curvature(f, f) += 1e-12;
                if (!(damping > 0.0)) answer.covariance = Solver(curvature).solve(identity(extras));
                for (Eigen::Index f = 0; f < extras; ++f) curvature(f, f) *= stiffness;
                const VectorXd step = Solver(curvature).solve(product(free_across, among_readings.solve(wanted)));
                next.extra += step;
                left -= product(free, step);
            }
            const VectorXd pulled = product(bounded_across, among_readings.solve(left));
            next.bounded += (pulled - answer.guess.bounded) / stiffness;
            auto there = model.predict(next, faults);
            if (!there) continue;
            const double chi = chi_squared(model.misses(*there), next);
            if (!(chi < answer.chi_squared)) continue;
            better = answer.chi_squared - chi > 1e-3;
            answer.guess = std::move(next);
            answer.chi_squared = chi;
            predicted = std::move(there);
            break;
        }
        if (!better) break;
    }
    return answer;
}

/// A hypothesis, and by how much χ² would fall with it as the slopes have it here.
struct Score {
    Hypothesis hypothesis;
    double extra;
    double gain;
    double weight;
};

/// All hypotheses beside a fit, the best first. Score test of generalised least squares: the bounded unknowns are
/// marginalised, the faults at hand projected out.
std::vector<Score> scores(const Model& model, const Fit& fit) {
    const std::vector<Hypothesis> all = model.hypotheses();
    std::vector<Hypothesis> wanted = fit.faults;
    wanted.insert(wanted.end(), all.begin(), all.end());
    const auto slopes = model.slopes(fit.guess, fit.faults, wanted);
    const auto predicted = model.predict(fit.guess, fit.faults);
    if (!slopes || !predicted) return {};
    const MatrixXd bounded = slopes->leftCols(model.unknowns());
    const MatrixXd faults = slopes->middleCols(model.unknowns(), static_cast<Eigen::Index>(fit.faults.size()));
    const MatrixXd faults_across = transposed(faults);
    const Solver spread(identity(model.size()) + product(bounded, transposed(bounded)));
    const VectorXd misses = model.misses(*predicted) + product(bounded, fit.guess.bounded);
    // A matrix without a row is not to be decomposed.
    MatrixXd weighted_faults;
    std::optional<Solver> among_faults;
    if (!fit.faults.empty()) {
        weighted_faults = spread.solve(faults);
        among_faults.emplace(product(faults_across, weighted_faults));
    }
    std::vector<Score> scored;
    for (std::size_t h = 0; h < all.size(); ++h) {
        if (std::find(fit.faults.begin(), fit.faults.end(), all[h]) != fit.faults.end()) continue;
        const VectorXd column = slopes->col(model.unknowns() + static_cast<Eigen::Index>(fit.faults.size() + h));
        if (!(column.squaredNorm() > 1e-12)) continue;
        VectorXd weighted = spread.solve(column);
        if (among_faults) weighted -= product(weighted_faults, among_faults->solve(product(faults_across, weighted)));
        const double sharpness = weighted.dot(column);
        if (!(sharpness > 1e-9)) continue;
        const double extra = weighted.dot(misses) / sharpness;
        if (!(extra > 0.0) && all[h].kind != Suspicion::Kind::slip) continue;
        const double gain = extra * extra * sharpness;
        scored.push_back({all[h], extra, gain, gain / 2.0 + log_odds(model.rig(), all[h])});
    }
    std::stable_sort(scored.begin(), scored.end(), [](const Score& a, const Score& b) { return a.weight > b.weight; });
    return scored;
}

/// One step of the search: the best next fault, and its rivals.
struct Round {
    std::vector<Fit> fits;        ///< best first, each with one fault more
    std::vector<double> weights;  ///< of each
};

/// From where the faults so far have led, and from what should be: the one may have been led astray by this fault.
std::optional<Fit> fit_with(const Model& model, const Fit& before, const Hypothesis& fault) {
    std::vector<Hypothesis> faults = before.faults;
    faults.push_back(fault);
    std::optional<Fit> one;
    for (const bool afresh : {false, true}) {
        Guess guess = before.guess;
        if (afresh) guess.bounded.setZero();
        guess.extra = VectorXd::Zero(static_cast<Eigen::Index>(faults.size()));
        for (Eigen::Index f = 0; f < before.guess.extra.size(); ++f) guess.extra[f] = before.guess.extra[f];
        auto tried = fit(model, faults, std::move(guess));
        if (tried && (!one || tried->chi_squared < one->chi_squared)) one = std::move(tried);
    }
    return one;
}

Round look_for_one_more(const Model& model, const Fit& before) {
    constexpr std::size_t looked_at = 6;
    Round round;
    std::vector<std::pair<double, Fit>> tried;
    for (const Score& score : scores(model, before)) {
        if (tried.size() >= looked_at || score.gain < believed / 2.0) break;
        auto one = fit_with(model, before, score.hypothesis);
        if (!one) continue;
        const double extra = one->guess.extra[one->guess.extra.size() - 1];
        if (!(extra > 0.0) && score.hypothesis.kind != Suspicion::Kind::slip) continue;
        tried.emplace_back((before.chi_squared - one->chi_squared) / 2.0 + log_odds(model.rig(), score.hypothesis),
                           std::move(*one));
    }
    std::stable_sort(tried.begin(), tried.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    for (auto& [weight, one] : tried) {
        round.weights.push_back(weight);
        round.fits.push_back(std::move(one));
    }
    return round;
}

/// Does no current flow through what a reading is across or around, as far as is known?
bool without_current(const Shown& reading, const Model& model) {
    if (!reading.probe.drop() && !reading.probe.clamp()) return false;
    const auto flows = model.flows(model.first(), {}, model.state_of(reading));
    if (!flows) return false;
    const std::vector<Resistance> all = model.resistances(model.first(), {});
    return std::abs(shown(model.rig(), reading.probe, *flows, all)) < 1e-9;
}

/// More than a meter is off by, or sleeping electronics take, where nothing should be.
bool shows_something(const Shown& reading, const Meter& meter) {
    return reading.probe.clamp() ? amperes(reading.value) > most_asleep(meter)
                                 : reading.value > 3.0 * reading.uncertainty + 0.005;
}

/// What tells nothing of joints, because nothing flows there; and with it, what was read beside such a one that shows that
/// something does.
void drop_unused(const Rig& rig, Sifted& sifted, const System& system, const Tables& tables) {
    const Model model(rig, sifted, system, tables);
    const Meter meter = meter_of(system.complete);
    std::vector<bool> dropped(sifted.used.size());
    std::vector<RigState> in_doubt;
    for (std::size_t i = 0; i < sifted.used.size(); ++i) {
        Shown& reading = sifted.used[i];
        if (!without_current(reading, model)) continue;
        const auto* through = std::get_if<Probe::Through>(&reading.probe.what);
        // The charger's own runs have their own remarks, and its sleep is not for a load to explain.
        const bool charger = through && (through->section == rig.feed || through->section == rig.output);
        const bool something = !charger && shows_something(reading, meter);
        if (through && !something) {
            // What sleeps may take that much.
            reading.uncertainty = std::max(reading.uncertainty, in_amperes(most_asleep(meter)) / nineteen_in_twenty);
            continue;
        }
        dropped[i] = true;
        if (something) {
            // Once for each state.
            if (std::find(in_doubt.begin(), in_doubt.end(), reading.state) != in_doubt.end()) continue;
            in_doubt.push_back(reading.state);
        }
        sifted.remarks.push_back(
            {something ? Remark::Kind::with_missing : Remark::Kind::no_current,
             reading.number,
             {},
             reading.probe.clamp() ? Measure{amperes(reading.value)} : Measure{volts(reading.value)}});
    }
    Sifted kept{.remarks = std::move(sifted.remarks), .used = {}, .idle = {}, .anchors = {}, .next = sifted.next};
    for (std::size_t i = 0; i < sifted.used.size(); ++i) {
        const bool unclear = std::find(in_doubt.begin(), in_doubt.end(), sifted.used[i].state) != in_doubt.end();
        if (dropped[i] || unclear) continue;
        kept.used.push_back(std::move(sifted.used[i]));
        kept.idle.push_back(sifted.idle[i]);
        kept.anchors.push_back(sifted.anchors[i]);
    }
    sifted = std::move(kept);
}

}  // namespace

std::vector<Shown> readings_of(const Rig& rig, const System& system, std::vector<Remark>& remarks) {
    const Meter meter = meter_of(system.complete);
    std::vector<Shown> readings;
    for (std::size_t i = 0; i < system.complete.readings.size(); ++i) {
        const ReadingKeys& keys = system.complete.readings[i];
        if (!keys.across && !keys.through) continue;
        const auto probe = keys.across ? probe_across(rig, *keys.across) : probe_through(rig, *keys.through);
        const bool has_value = keys.across ? keys.voltage.has_value() : keys.current.has_value();
        if (!probe || !has_value) {
            remarks.push_back({Remark::Kind::not_understood, i});
            continue;
        }
        Shown reading{.number = i,
                      .probe = *probe,
                      .state = {keys.engine.value_or(Engine::off), keys.with.value_or(std::vector<std::string>{}),
                                keys.charger == ChargerSwitch::off},
                      .value = keys.across ? in_volts(keys.voltage->value) : in_amperes(keys.current->value),
                      .uncertainty = 0.0};
        std::sort(reading.state.with.begin(), reading.state.with.end());
        if (reading.probe.drop() && reading.value < 0.0) {
            if (-reading.value > 2.0 * meter.uncertainty(reading.probe, reading.value))
                remarks.push_back({Remark::Kind::leads_swapped, i, {}, Measure{volts(reading.value)}});
            reading.value = -reading.value;
        }
        // A clamp may be put on either way round.
        if (reading.probe.clamp()) reading.value = std::abs(reading.value);
        reading.uncertainty = meter.uncertainty(reading.probe, reading.value);
        const double own = keys.across ? in_volts(keys.voltage->half_width) : in_amperes(keys.current->half_width);
        if (own > 0.0) reading.uncertainty = own / nineteen_in_twenty;
        reading.uncertainty = std::max(reading.uncertainty, Meter::finest(*probe));
        readings.push_back(std::move(reading));
    }
    return readings;
}

namespace {

Stage stage_of(const RigState& state) {
    switch (state.engine) {
        case Engine::off: return Stage::engine_off;
        case Engine::idling: return Stage::idling;
        case Engine::driving: return Stage::driving;
    }
    return Stage::engine_off;
}

/// Turns fits into an answer.
class Answering {
public:
    Answering(const Model& model, const System& system, const Plan& plan, const Tables& tables)
        : model_(model), rig_(model.rig()), system_(system), plan_(plan), tables_(tables) {}

    Diagnosis answer() {
        auto sound = fit(model_, {}, model_.first());
        if (!sound) {
            diagnosis_.verdict = Verdict::contradiction;
            return diagnosis_;
        }
        Explanation found = one_after_the_other(*sound);
        if (!fits(found.best) || (found.best.faults.size() > 1 && has_slip(found.best)))
            if (auto pair = pairs(*sound, found.best)) found = std::move(*pair);
        const Fit& best = found.best;
        if (found.open) ask(*found.open);
        for (std::size_t f = 0; f < best.faults.size(); ++f) {
            Suspicion suspicion = in_words(best, f);
            suspicion.accused = found.accused[f];
            diagnosis_.suspects.push_back(std::move(suspicion));
        }
        auto& others = found.others;
        std::stable_sort(others.begin(), others.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        for (auto& other : others) {
            Suspicion& suspicion = other.second;
            const auto known =
                std::any_of(diagnosis_.suspects.begin(), diagnosis_.suspects.end(), [&](const auto& one) {
                    return one.element == suspicion.element && one.run == suspicion.run && one.kind == suspicion.kind &&
                           one.reading == suspicion.reading;
                });
            if (known) continue;
            // More unsure than it is large, and others explain it better: no finding.
            if (suspicion.extra && *suspicion.uncertainty > *suspicion.extra && other.first < 0.3) continue;
            suspicion.odds = other.first;
            diagnosis_.suspects.push_back(std::move(suspicion));
        }
        const bool all_slips = std::all_of(best.faults.begin(), best.faults.end(), is_slip);
        diagnosis_.verdict = !fits(best)           ? Verdict::contradiction
                             : best.faults.empty() ? Verdict::nothing_wrong
                             : found.open          ? Verdict::several
                             : all_slips           ? Verdict::contradiction
                                                   : Verdict::found;
        if (best.faults.empty() && diagnosis_.verdict == Verdict::nothing_wrong) diagnosis_.suspects.clear();
        compare(best);
        return diagnosis_;
    }

private:
    /// What was found, and what else it may be.
    struct Explanation {
        Fit best;
        std::vector<bool> accused;  ///< of each of its faults: it stands out
        std::vector<std::pair<double, Suspicion>> others;
        std::optional<Round> open;  ///< what one more reading should tell apart
    };

    static bool is_slip(const Hypothesis& fault) { return fault.kind == Suspicion::Kind::slip; }
    static bool has_slip(const Fit& one) { return std::any_of(one.faults.begin(), one.faults.end(), is_slip); }

    /// The fault that explains most, then the one that explains most of the rest, and so on.
    [[nodiscard]] Explanation one_after_the_other(const Fit& sound) const {
        Explanation found{.best = sound, .accused = {}, .others = {}, .open = {}};
        while (one_more(found)) {
        }
        return found;
    }

    /// False where nothing more is to be found.
    bool one_more(Explanation& found) const {
        if (found.best.faults.size() >= most_faults) return false;
        Round round = look_for_one_more(model_, found.best);
        const bool enough = !round.fits.empty() && found.best.chi_squared - round.fits.front().chi_squared > believed &&
                            // What no joint is behind must show more clearly than that.
                            round.weights.front() > believed / 2.0 - 1.5;
        if (!enough) {
            if (found.best.faults.empty())
                for (std::size_t i = 0; i < round.fits.size(); ++i)
                    found.others.emplace_back(std::exp(round.weights[i] - round.weights[0]),
                                              in_words(round.fits[i], round.fits[i].faults.size() - 1));
            return false;
        }
        const double margin = round.fits.size() > 1 ? round.weights[0] - round.weights[1] : std::log(stands_out) + 1.0;
        const bool alone = margin >= std::log(stands_out);
        found.accused.push_back(alone);
        for (std::size_t i = 1; i < round.fits.size(); ++i)
            if (round.weights[i] > round.weights[0] - 7.0)
                found.others.emplace_back(std::exp(round.weights[i] - round.weights[0]),
                                          in_words(round.fits[i], round.fits[i].faults.size() - 1));
        found.best = round.fits.front();
        if (!alone && !found.open) found.open = std::move(round);
        return true;
    }

    /// How much an explanation explains, as a logarithm: each fault has to lower χ² by `believed`.
    [[nodiscard]] double weight(const Fit& one) const {
        double sum = -one.chi_squared / 2.0;
        for (const Hypothesis& fault : one.faults) sum += log_odds(rig_, fault) - believed / 2.0;
        return sum;
    }

    /// Of the likeliest single faults each with what explains most beside it. Empty when no pair is better than what is at
    /// hand: one that explains everything before one that does not, then the fewest faults, then the heaviest.
    [[nodiscard]] std::optional<Explanation> pairs(const Fit& sound, const Fit& at_hand) const {
        constexpr std::size_t first_ones = 8;
        Round round;
        std::vector<std::pair<double, Fit>> tried;
        std::size_t count = 0;
        for (const Score& score : scores(model_, sound)) {
            if (count++ >= first_ones) break;
            auto first = fit_with(model_, sound, score.hypothesis);
            if (!first) continue;
            for (Fit& both : look_for_one_more(model_, *first).fits) {
                const bool known = std::any_of(tried.begin(), tried.end(),
                                               [&](const auto& one) { return same_faults(one.second, both); });
                if (!known && all_above_zero(both)) tried.emplace_back(weight(both), std::move(both));
            }
        }
        if (tried.empty()) return {};
        std::stable_sort(tried.begin(), tried.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
        const Fit& best = tried.front().second;
        const bool better = fits(best) != fits(at_hand)                ? fits(best)
                            : fits(best) && at_hand.faults.size() != 2 ? at_hand.faults.size() > 2
                                                                       : weight(best) >= weight(at_hand) - 1e-3;
        if (!better) return {};
        Explanation found{.best = best, .accused = {}, .others = {}, .open = {}};
        // What stands out is in everything that explains nearly as much.
        for (const Hypothesis& fault : best.faults) {
            const auto other = std::find_if(tried.begin(), tried.end(), [&](const auto& one) {
                return std::find(one.second.faults.begin(), one.second.faults.end(), fault) == one.second.faults.end();
            });
            found.accused.push_back(other == tried.end() || tried.front().first - other->first >= std::log(stands_out));
        }
        for (std::size_t i = 1; i < tried.size(); ++i) {
            const auto& [heavy, one] = tried[i];
            if (heavy < tried.front().first - 7.0) break;
            for (std::size_t f = 0; f < one.faults.size(); ++f)
                if (std::find(best.faults.begin(), best.faults.end(), one.faults[f]) == best.faults.end())
                    found.others.emplace_back(std::exp(heavy - tried.front().first), in_words(one, f));
        }
        const bool open = std::find(found.accused.begin(), found.accused.end(), false) != found.accused.end();
        for (auto& [heavy, one] : tried) {
            round.weights.push_back(heavy);
            round.fits.push_back(std::move(one));
        }
        if (open) found.open = std::move(round);
        while (!fits(found.best) && one_more(found)) {
        }
        return found;
    }

    /// A joint with less than nothing too much explains nothing.
    static bool all_above_zero(const Fit& one) {
        for (std::size_t f = 0; f < one.faults.size(); ++f)
            if (!is_slip(one.faults[f]) && !(one.guess.extra[static_cast<Eigen::Index>(f)] > 0.0)) return false;
        return true;
    }

    static bool same_faults(const Fit& a, const Fit& b) {
        return a.faults.size() == b.faults.size() &&
               std::is_permutation(a.faults.begin(), a.faults.end(), b.faults.begin());
    }

    /// Is what is left within what chance leaves? χ² of as many readings, less those that the faults use up, some four
    /// standard deviations above its mean.
    [[nodiscard]] bool fits(const Fit& best) const {
        const double left = std::max(1.0, static_cast<double>(model_.size()) - static_cast<double>(best.faults.size()));
        return best.chi_squared < left + 4.0 * std::sqrt(2.0 * left) + 4.0;
    }

    [[nodiscard]] Suspicion in_words(const Fit& fit, std::size_t which) const {
        const Hypothesis& fault = fit.faults[which];
        const auto index = static_cast<Eigen::Index>(which);
        const double extra = fit.guess.extra[index];
        const double spread = nineteen_in_twenty * std::sqrt(std::max(fit.covariance(index, index), 0.0));
        Suspicion suspicion{.kind = fault.kind, .run = {}, .element = {}};
        if (fault.kind == Suspicion::Kind::slip) {
            suspicion.reading = model_.readings()[fault.index].number;
            suspicion.too_little = extra < 0.0 && model_.readings()[fault.index].probe.drop();
            return suspicion;
        }
        const bool gauge = fault.kind == Suspicion::Kind::gauge;
        const std::size_t section = gauge ? fault.index : rig_.elements[fault.index].section;
        suspicion.run = rig_.sections[section].run;
        suspicion.fuse = !gauge && rig_.elements[fault.index].element.kind == Element::Kind::fuse;
        if (!gauge) suspicion.element = rig_.elements[fault.index].element.name;
        Resistance each = milliohms(1.0);
        if (gauge) {
            each = {};
            for (const std::size_t element : rig_.sections[section].elements)
                if (rig_.elements[element].element.kind == Element::Kind::cable)
                    each += rig_.elements[element].expected;
            suspicion.looks_like = nearest_size(section, 1.0 + extra);
        }
        suspicion.extra = extra * each;
        suspicion.uncertainty = spread * each;
        Current most{};
        for (std::size_t state = 0; state < model_.states().size(); ++state)
            if (const auto flows = model_.flows(fit.guess, fit.faults, state))
                most = std::max(most, flows->current[section]);
        suspicion.at = most;
        suspicion.heat = most * most * *suspicion.extra;
        return suspicion;
    }

    /// The size whose resistance is nearest to so many times that of the run's own.
    [[nodiscard]] std::optional<Gauge> nearest_size(std::size_t section, double times) const {
        const Candidate* taken = plan_.runs[rig_.sections[section].plan_run].taken();
        if (!taken) return {};
        const auto own = conductor_of(tables_, taken->size);
        if (!own) return {};
        const auto resistance = [](const ConductorRow& row) {
            return resistance_per_length(row, Coating::plain, celsius(20));
        };
        std::optional<Gauge> nearest;
        double least = 0.0;
        for (const ConductorRow& row : tables_.conductors) {
            if (row.gauge.system != taken->size.system) continue;
            const double off = std::abs(std::log(in_ratio(resistance(row) / resistance(*own)) / times));
            if (!nearest || off < least) {
                nearest = row.gauge;
                least = off;
            }
        }
        return nearest == taken->size ? std::nullopt : nearest;
    }

    /// What a sound vehicle would show from the same batteries and loads, beside what was shown.
    void compare(const Fit& best) {
        Guess sound = best.guess;
        sound.extra.setZero();
        // Joints and cables as they should be; batteries, charger and loads as they are.
        for (const auto& [from, to] : model_parts()) sound.bounded.segment(from, to - from).setZero();
        const auto expected = model_.predict(sound, best.faults);
        const auto explained = model_.predict(best.guess, best.faults);
        const auto slopes = model_.slopes(sound, {}, {});
        if (!expected || !explained || !slopes) return;
        for (Eigen::Index i = 0; i < model_.size(); ++i) {
            const Shown& reading = model_.readings()[static_cast<std::size_t>(i)];
            double spread = 1.0;
            for (const auto& [from, to] : model_parts())
                spread += slopes->row(i).segment(from, to - from).squaredNorm();
            diagnosis_.compared.push_back({.number = reading.number,
                                           .clamp = reading.probe.clamp(),
                                           .shown = reading.value,
                                           .expected = (*expected)[i],
                                           .tolerance = nineteen_in_twenty * reading.uncertainty * std::sqrt(spread),
                                           .explained = (*explained)[i]});
        }
    }

    /// Where the unknowns of joints and cables stand.
    [[nodiscard]] std::array<std::pair<Eigen::Index, Eigen::Index>, 1> model_parts() const {
        return {
            {{0, model_.unknowns() - static_cast<Eigen::Index>(1 + rig_.loads.size() + 3 * model_.states().size())}}};
    }

    /// What to measure next: the probe at which the best explanation and its rivals differ most.
    void ask(const Round& round) {
        const Fit& best = round.fits.front();
        std::vector<std::size_t> sections;
        for (std::size_t i = 0; i < round.fits.size() && round.weights[i] > round.weights[0] - 7.0; ++i) {
            for (const Hypothesis& fault : round.fits[i].faults) {
                if (is_slip(fault)) {
                    const auto* through = std::get_if<Probe::Through>(&model_.readings()[fault.index].probe.what);
                    if (through) sections.push_back(through->section);
                    continue;
                }
                sections.push_back(fault.kind == Suspicion::Kind::gauge ? fault.index
                                                                        : rig_.elements[fault.index].section);
            }
        }
        std::sort(sections.begin(), sections.end());
        sections.erase(std::unique(sections.begin(), sections.end()), sections.end());
        const Meter meter = meter_of(system_.complete);
        double most = 0.5;
        std::optional<Probe> asked;
        std::size_t asked_in = 0;
        for (const std::size_t section : sections) {
            const auto state = busiest(best, section);
            if (!state) continue;
            for (PlannedReading& candidate : candidates(section, *state)) {
                const auto probe = candidate.through.empty() ? probe_across(rig_, candidate.across)
                                                             : probe_through(rig_, candidate.through);
                if (!probe || measured(*probe, model_.states()[*state])) continue;
                std::vector<double> values;
                for (const Fit& one : round.fits)
                    if (const auto flows = model_.flows(one.guess, one.faults, *state)) {
                        const double value = shown(rig_, *probe, *flows, model_.resistances(one.guess, one.faults));
                        values.push_back(probe->drop() ? std::abs(value) : value);
                    } else {
                        values.push_back(0.0);
                    }
                double apart = 0.0;
                for (std::size_t i = 1; i < values.size(); ++i) {
                    const double off = (values[i] - values[0]) / meter.uncertainty(*probe, values[0]);
                    apart += std::exp(round.weights[i] - round.weights[0]) * std::min(off * off, 50.0);
                }
                if (apart <= most) continue;
                most = apart;
                asked = *probe;
                asked_in = *state;
                diagnosis_.next = std::move(candidate);
            }
        }
        // The whole test plan is worked out for the one that is asked for.
        if (asked) as_it_should(*diagnosis_.next, *asked, asked_in);
    }

    /// What a sound vehicle would show there: as the test plan has it, or else by the same limits.
    void as_it_should(PlannedReading& reading, const Probe& probe, std::size_t state) const {
        const TestPlan plan = test_plan(system_, plan_, tables_);
        for (const PlannedReading& planned : plan.readings)
            if (planned.stage == reading.stage && planned.proves == reading.proves &&
                planned.across == reading.across && planned.through == reading.through &&
                planned.with == reading.with && planned.most) {
                reading = planned;
                reading.in_doubt = false;
                return;
            }
        const auto limits = TestLimits(rig_, system_, plan_, tables_).of(probe, model_.states()[state]);
        if (!limits || !limits->tolerance) return;
        const auto measure = [&](double x) { return probe.clamp() ? Measure{amperes(x)} : Measure{volts(x)}; };
        reading.range = probe.clamp()                                       ? MeterRange::amperes
                        : volts(limits->expected) <= Meter::millivolt_range ? MeterRange::millivolts
                                                                            : MeterRange::volts;
        reading.expected = measure(limits->expected);
        reading.tolerance = measure(*limits->tolerance);
        reading.most = measure(*limits->most);
        reading.at = limits->at;
    }

    /// The state in which most flows through a section.
    [[nodiscard]] std::optional<std::size_t> busiest(const Fit& best, std::size_t section) const {
        std::optional<std::size_t> found;
        Current most{};
        for (std::size_t state = 0; state < model_.states().size(); ++state) {
            const auto flows = model_.flows(best.guess, best.faults, state);
            if (!flows || !(flows->current[section] > most)) continue;
            most = flows->current[section];
            found = state;
        }
        return found;
    }

    [[nodiscard]] std::vector<PlannedReading> candidates(std::size_t section, std::size_t state) const {
        const RigSection& run = rig_.sections[section];
        const RigState& now = model_.states()[state];
        PlannedReading reading{.id = "next",
                               .stage = stage_of(now),
                               .proves = Proves::current,
                               .run = run.run,
                               .with = now.with,
                               .range = MeterRange::millivolts};
        std::vector<PlannedReading> all;
        reading.through = run.run;
        all.push_back(reading);
        reading.through.clear();
        reading.proves = Proves::plus_side;
        reading.across = {run.near + " +", run.far + " +"};
        all.push_back(reading);
        reading.proves = Proves::minus_side;
        reading.across = {run.far + " -", run.near + " -"};
        all.push_back(reading);
        reading.proves = Proves::joint;
        for (const std::size_t element : run.elements) {
            if (rig_.elements[element].element.kind == Element::Kind::cable ||
                rig_.elements[element].element.kind == Element::Kind::body)
                continue;
            reading.across = {rig_.elements[element].element.name};
            all.push_back(reading);
        }
        return all;
    }

    [[nodiscard]] bool measured(const Probe& probe, const RigState& state) const {
        return std::any_of(model_.readings().begin(), model_.readings().end(), [&](const Shown& reading) {
            if (!(reading.state == state) || reading.probe.what.index() != probe.what.index()) return false;
            if (const auto* over = std::get_if<Probe::Over>(&probe.what))
                return std::get<Probe::Over>(reading.probe.what).element == over->element;
            if (const auto* through = std::get_if<Probe::Through>(&probe.what))
                return std::get<Probe::Through>(reading.probe.what).section == through->section;
            const auto same = [](const Probe::Point& a, const Probe::Point& b) {
                return a.at == b.at && a.section == b.section && a.plus == b.plus;
            };
            const auto& a = std::get<Probe::Between>(probe.what);
            const auto& b = std::get<Probe::Between>(reading.probe.what);
            return (same(a.red, b.red) && same(a.black, b.black)) || (same(a.red, b.black) && same(a.black, b.red));
        });
    }

    const Model& model_;
    const Rig& rig_;
    const System& system_;
    const Plan& plan_;
    const Tables& tables_;
    Diagnosis diagnosis_;
};

void gravest_first(std::vector<Remark>& remarks) {
    std::stable_sort(remarks.begin(), remarks.end(), [](const Remark& a, const Remark& b) { return a.kind < b.kind; });
}

/// Adds the readings beyond their limits, and puts those limits beside them.
void tell_beyond(std::vector<Remark> beyond, const std::vector<Shown>& readings, const TestLimits& limits,
                 Diagnosis& diagnosis) {
    const bool explained = diagnosis.verdict == Verdict::found || diagnosis.verdict == Verdict::several;
    for (Remark& remark : beyond) {
        // What flows where nothing is on has been told.
        const bool known = std::any_of(diagnosis.remarks.begin(), diagnosis.remarks.end(),
                                       [&](const Remark& one) { return one.grave() && one.reading == remark.reading; });
        remark.explained = explained;
        if (!known) diagnosis.remarks.push_back(std::move(remark));
    }
    for (Compared& row : diagnosis.compared) {
        const auto reading =
            std::find_if(readings.begin(), readings.end(), [&](const Shown& one) { return one.number == row.number; });
        const auto right = limits.of(reading->probe, reading->state);
        if (!right || !right->passed_by(reading->value)) continue;
        row.beyond = true;
        row.expected = right->expected;
        row.tolerance = right->tolerance.value_or(std::abs(*right->passed_by(reading->value) - right->expected));
    }
}

/// The current beside a drop that is beyond its limit: it tells whether there is too much resistance or too much current.
std::optional<Ask> ask_for_current(const Rig& rig, const std::vector<Shown>& readings, const Diagnosis& diagnosis) {
    for (const Remark& remark : diagnosis.remarks) {
        if (remark.kind != Remark::Kind::beyond || !remark.in_way || remark.flows) continue;
        const auto drop = std::find_if(readings.begin(), readings.end(),
                                       [&](const Shown& one) { return one.number == remark.reading; });
        if (drop == readings.end()) continue;
        const auto probe = probe_through(rig, remark.about);
        if (!probe) continue;
        return Ask{.probe = *probe,
                   .state = drop->state,
                   .across = {},
                   .through = remark.about,
                   .run = remark.about,
                   .proves = Proves::current};
    }
    return {};
}

/// Where to measure for a break, with what a whole way shows there.
PlannedReading in_full(const Ask& next, const System& system, const Plan& plan, const Tables& tables) {
    PlannedReading reading{.id = "next",
                           .stage = stage_of(next.state),
                           .proves = next.proves,
                           .run = next.run,
                           .across = next.across,
                           .through = next.through,
                           .with = next.state.with,
                           .range = next.probe.clamp() ? MeterRange::amperes : MeterRange::volts};
    const TestPlan planned = test_plan(system, plan, tables);
    for (const PlannedReading& one : planned.readings)
        if (one.stage == reading.stage && one.across == reading.across && one.through == reading.through &&
            one.with == reading.with && one.expected) {
            reading = one;
            reading.in_doubt = false;
            return reading;
        }
    if (next.probe.clamp()) return reading;
    // Half a volt is lost on no sound way; the battery is as it was found.
    if (next.probe.drop()) {
        reading.expected = Measure{Voltage{}};
        reading.tolerance = reading.most = Measure{volts(0.5)};
    } else {
        reading.expected = Measure{rested_starter};
        reading.least = Measure{volts(11.5)};
    }
    return reading;
}

}  // namespace

Diagnosis diagnose(const Rig& rig, const std::vector<Shown>& readings, const System& system, const Plan& plan,
                   const Tables& tables) {
    const TestLimits limits(rig, system, plan, tables);
    Sifted sifted = sift(rig, readings, limits, system, tables);
    const auto next = sifted.next;
    std::vector<Remark> beyond = beyond_limits(rig, readings, sifted, limits);
    drop_unused(rig, sifted, system, tables);
    Diagnosis diagnosis;
    const bool enough = std::any_of(sifted.used.begin(), sifted.used.end(), [&](const Shown& reading) {
        return !reading.probe.clamp() && (reading.state.charger_runs() || !reading.state.with.empty());
    });
    if (enough) diagnosis = Answering(Model(rig, sifted, system, tables), system, plan, tables).answer();
    diagnosis.remarks = std::move(sifted.remarks);
    tell_beyond(std::move(beyond), readings, limits, diagnosis);
    gravest_first(diagnosis.remarks);
    const bool grave =
        std::any_of(diagnosis.remarks.begin(), diagnosis.remarks.end(), [](const Remark& one) { return one.grave(); });
    const bool unexplained = diagnosis.suspects.empty() || sifted.used.size() < 2;
    if (grave && (diagnosis.verdict == Verdict::nothing_wrong || diagnosis.verdict == Verdict::too_little ||
                  (diagnosis.verdict == Verdict::contradiction && unexplained))) {
        diagnosis.verdict = Verdict::plain;
        diagnosis.suspects.clear();
    }
    // The break comes first: what lies behind it cannot be judged.
    if (next)
        diagnosis.next = in_full(*next, system, plan, tables);
    else if (!diagnosis.next && diagnosis.verdict == Verdict::plain)
        if (const auto current = ask_for_current(rig, readings, diagnosis))
            diagnosis.next = in_full(*current, system, plan, tables);
    return diagnosis;
}

Diagnosis diagnose(const System& system, const Plan& plan, const Tables& tables) {
    const Rig rig = rig_of(system, plan, tables);
    std::vector<Remark> remarks;
    const std::vector<Shown> readings = readings_of(rig, system, remarks);
    Diagnosis diagnosis = diagnose(rig, readings, system, plan, tables);
    diagnosis.remarks.insert(diagnosis.remarks.end(), remarks.begin(), remarks.end());
    gravest_first(diagnosis.remarks);
    return diagnosis;
}

}  // namespace voltwright
