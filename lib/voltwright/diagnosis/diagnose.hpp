#pragma once

#include "voltwright/diagnosis/diagnosis.hpp"
#include "voltwright/diagnosis/measurement.hpp"

#include <vector>

/// Which joint or cable is at fault, from what a meter showed.
namespace voltwright {

struct Plan;

/// The readings that cannot be judged here: behind a relay, those with the engine running. What flows then follows from the
/// state of the battery, which no reading tells. By their place in the profile's list.
std::vector<std::size_t> not_judged_readings(const System& system);

/// The extra resistance that explains the readings best.
///
///     y = f(r, s) + e
///     χ² = Σ ((y_i − f_i)/u_i)² + Σ ((r_k − r_k0)/σ_k)² + Σ ((s_j − s_j0)/σ_j)²
///
/// y, u     what was shown, and its standard uncertainty        f   what the circuit would show
/// r, σ     resistances of joints and cables, near what they should have
/// s        voltages of the batteries, the charger's output, the loads: within wide bounds, but a charger never gives
///          more than its output, nor takes a load more than is believable
///
/// χ² is made least by damped Gauss-Newton steps (Levenberg and Marquardt) through the solved circuit. A fault is one more
/// unknown without a prior: the extra resistance of one joint, a whole run in proportion, or the gross error of one reading.
/// That one is taken which lowers χ² most (the odds of a joint are higher than those of a cable or a gross error), if by
/// more than 12 (some 3.5 standard deviations, so that among some tens of joints hardly one is accused for nothing) and if it
/// is above zero; then again, up to three. Two faults can hide each other, a bad joint behind a reading that was noted
/// wrongly above all: where such a one is among what was found, or where it does not explain everything, pairs are tried
/// too, and fewer faults are believed before more. The uncertainty comes from the curvature of χ².
///
/// Before all that stand the limits of the test plan: a reading beyond its own is told, whatever explains it.
///
/// Source: weighted least squares with prior knowledge and forward selection, of statistics textbooks (from memory).
Diagnosis diagnose(const System& system, const Plan& plan, const Tables& tables = built_in_tables());

/// The same for a circuit and measurements at hand.
Diagnosis diagnose(const CircuitModel& model, const std::vector<Measurement>& measurements, const System& system,
                   const Plan& plan, const Tables& tables = built_in_tables());

}  // namespace voltwright
