#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/gauge.hpp"

#include <optional>
#include <span>

namespace voltwright {

/// One size of stranded copper conductor, as its table prints it.
struct ConductorRow {
    Gauge gauge;
    Area area;                            ///< AWG: the printed circular mils. Metric: the nominal cross-section.
    ResistancePerLength plain;            ///< bare copper, at the temperature `resistance_at`
    ResistancePerLength tinned;           ///< each strand tinned, at the same temperature
    Temperature resistance_at;            ///< 75 degC for the handbook's AWG rows, 20 degC for IEC 60228
    std::optional<Length> outside;        ///< over the insulation of a single core, about
    std::optional<MassPerLength> copper;  ///< mass of the copper alone, where printed
    Source source;
    PerKelvin coefficient = {};  ///< of its resistance, referred to 20 degC: a constant of the whole table
    Source coefficient_source = {};
};

/// "Auto" cable, named by its outside diameter: what copper is in it.
struct TradeSizeRow {
    Gauge gauge;
    Area area;  ///< of the strands together
    Source source;
};

}  // namespace voltwright
