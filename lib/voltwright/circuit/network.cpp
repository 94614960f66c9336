#include "voltwright/circuit/network.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace voltwright {

namespace {

constexpr int most_sweeps = 40, most_newton_steps = 60;
constexpr double settled = 1e-13;

using Conductance = units::quantity<si::conductance>;

struct Draw {
    Current current;
    Conductance slope;  ///< more for each volt more
};

Draw draw_at(const NetworkSection& section, Voltage v) {
    struct {
        Voltage v;
        Draw operator()(Power power) const {
            const Current current = power / v;
            return {current, -current / v};
        }
        Draw operator()(Current current) const { return {current, {}}; }
        Draw operator()(Resistance resistance) const { return {v / resistance, 1.0 / resistance}; }
    } at{v};
    Draw sum{};
    for (const NetworkLoad& load : section.loads) {
        const Draw one = std::visit(at, load);
        sum.current += one.current;
        sum.slope += one.slope;
    }
    return sum;
}

class Sweep {
public:
    Sweep(Voltage source, std::span<const NetworkSection> sections)
        : source_(source), sections_(sections), v_(sections.size(), source), i_(sections.size()) {
        for (std::size_t s = 0; s < sections.size(); ++s)
            if (sections[s].from && *sections[s].from >= s)
                throw std::logic_error("a section stands before the one that it goes on from");
    }

    std::optional<NetworkAnswer> solve() && {
        bool still = false;
        for (; sweeps_ < most_sweeps && !still; ++sweeps_) {
            const double moved = sweep();
            if (!(moved < 1.0)) break;
            still = moved < settled;
        }
        if (!still && !newton()) return {};
        return answer();
    }

private:
    /// Back and forth once; how far the voltages moved, as a share of the source's.
    double sweep() {
        backward();
        double moved = 0.0;
        for (std::size_t s = 0; s < sections_.size(); ++s) {
            const Voltage next = before(s) - i_[s] * sections_[s].loop;
            // Past the nose of its power a sweep falls without end.
            if (!(next > 0.01 * source_)) return 2.0;
            moved = std::max(moved, std::abs(double((next - v_[s]) / source_)));
            v_[s] = next;
        }
        return moved;
    }

    void backward() {
        std::fill(i_.begin(), i_.end(), Current{});
        for (std::size_t s = sections_.size(); s-- > 0;) {
            i_[s] += draw_at(sections_[s], v_[s]).current;
            if (sections_[s].from) i_[*sections_[s].from] += i_[s];
        }
    }

    [[nodiscard]] Voltage before(std::size_t s) const { return sections_[s].from ? v_[*sections_[s].from] : source_; }

    /// Newton's method on all voltages: on a tree its linear system is solved by one sweep back and one forth.
    ///
    ///     V_s + R_s·(I_s(V_s) + Σ I of the children) − V_from = 0
    ///
    /// Linear in the steps: δI_s = a_s + b_s·δV_from, from the ends inwards.
    bool newton() {
        std::fill(v_.begin(), v_.end(), source_);
        std::vector<Current> a(v_.size()), own(v_.size());
        std::vector<Conductance> b(v_.size()), slope(v_.size());
        for (int step = 0; step < most_newton_steps; ++step, ++sweeps_) {
            // Currents as the voltages have them now: what is wrong is in Ohm's law of each section.
            for (std::size_t s = 0; s < v_.size(); ++s) {
                const Draw draw = draw_at(sections_[s], v_[s]);
                own[s] = draw.current;
                slope[s] = draw.slope;
            }
            // i = own + Σ children; v = v_from − R·i, all at the new voltages: i_s = a_s + b_s·v_from.
            std::vector<Current> sum_a(v_.size());
            std::vector<Conductance> sum_b(v_.size());
            for (std::size_t s = v_.size(); s-- > 0;) {
                const Conductance behind = slope[s] + sum_b[s];
                const Current constant = own[s] - slope[s] * v_[s] + sum_a[s];
                const double stiff = 1.0 + sections_[s].loop * behind;
                if (!(stiff > 1e-12)) return false;
                a[s] = constant / stiff;
                b[s] = behind / stiff;
                if (sections_[s].from) {
                    sum_a[*sections_[s].from] += a[s];
                    sum_b[*sections_[s].from] += b[s];
                }
            }
            double moved = 0.0;
            for (std::size_t s = 0; s < v_.size(); ++s) {
                const Voltage from = before(s);
                const Voltage next = from - (a[s] + b[s] * from) * sections_[s].loop;
                if (!(next > Voltage{})) return false;
                moved = std::max(moved, std::abs(double((next - v_[s]) / source_)));
                v_[s] = next;
            }
            if (moved < settled) {
                backward();
                return true;
            }
        }
        // At the nose itself Newton's steps only halve: so near that nobody can tell.
        backward();
        return std::all_of(v_.begin(), v_.end(), [&](const Voltage& v) { return v > 0.01 * source_; }) &&
               residual_small();
    }

    [[nodiscard]] bool residual_small() const {
        for (std::size_t s = 0; s < v_.size(); ++s)
            if (abs(before(s) - i_[s] * sections_[s].loop - v_[s]) > 1e-9 * source_) return false;
        return true;
    }

    NetworkAnswer answer() {
        backward();
        NetworkAnswer answer{std::move(v_), std::move(i_), Current{}, sweeps_};
        for (std::size_t s = 0; s < sections_.size(); ++s)
            if (!sections_[s].from) answer.source += answer.current[s];
        return answer;
    }

    Voltage source_;
    std::span<const NetworkSection> sections_;
    std::vector<Voltage> v_;
    std::vector<Current> i_;
    int sweeps_ = 0;
};

}  // namespace

std::optional<NetworkAnswer> solve_network(Voltage source, std::span<const NetworkSection> sections) {
    return Sweep(source, sections).solve();
}

}  // namespace voltwright
