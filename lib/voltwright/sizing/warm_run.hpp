#pragma once

#include "voltwright/sizing/ampacity.hpp"
#include "voltwright/sizing/cable_run.hpp"
#include "voltwright/sizing/rules.hpp"

#include <optional>

namespace voltwright {

/// The conductors of a run in one size.
struct Conductors {
    ConductorRow out;
    std::optional<ConductorRow> back;  ///< empty with a body return

    [[nodiscard]] const ConductorRow& thinner() const { return back && back->area < out.area ? *back : out; }
};

/// Throws std::logic_error for a size that is not in the tables.
Conductors conductors_of(const CableRun& run, Gauge size, const Tables& tables);

/// The conductors of a run of one size, and how warm a current makes them.
struct WarmRun {
    struct Temperatures {
        Temperature out, back;
    };

    Length length;
    ConductorRow out;
    std::optional<ConductorRow> back;  ///< empty with a body return
    std::optional<Ampacity> out_limit, back_limit;
    Temperature around;  ///< averaged along its way
    Resistance fixed;    ///< joints, and the body as return
    Temperature hottest =
        celsius(1083);  ///< copper melts there; with what runs for a short time its insulation's rating

    /// Where they settle with this current; at most `hottest`, and `around` where no ampacity is known.
    [[nodiscard]] Temperatures at(Current current) const;
    [[nodiscard]] Resistance loop(Temperatures conductors) const;
};

/// Who says that cables lie together loaded is believed at 12 V too, though 33 CFR 183.435(b) binds its factors from 50 V
/// only: copper is as hot at any voltage, and a maker's page for 105 degC boat cable prints the same factors without one.
Voltage where_bundles_count(const Rules& rules, const Tables& tables);

/// With this ampacity of its thinner conductor, and joints and body of this resistance.
WarmRun warm_run(const CableRun& run, const Conductors& both, const std::optional<Ampacity>& of_thinner,
                 const RunResistance& resistance, const Rules& rules, const Tables& tables);

/// A resistance with the run's conductors at these temperatures.
RunResistance with_conductors_at(const Conductors& both, RunResistance resistance, WarmRun::Temperatures temperatures);

}  // namespace voltwright
