#pragma once

#include "voltwright/provenance/cited.hpp"
#include "voltwright/tables/tables.hpp"

#include <optional>
#include <span>

/// What a cable needs besides copper: a tube, supports, lugs, heat-shrink.
namespace voltwright {

/// How full cables make a tube.
///
///     f = ΣS/S_b
///
/// ΣS    what the cables take, π/4 times the sum of the squares of their outside diameters
/// S_b   the tube's bore, π/4·d²
///
/// Source: NEC, chapter 9, table 1: one cable may take 53 %, two 31 %, more 40 % together.
struct TubeFill {
    int cables;
    Area taken;
    Area bore;
    Ratio fill;
    Cited<Ratio> most;

    [[nodiscard]] bool fits() const { return fill <= most.value; }
};

/// Area of a circle.
Area circle(Length diameter);

/// Empty without cables.
std::optional<TubeFill> tube_fill(std::span<const Length> outsides, Length bore, const Tables& tables);

/// The narrowest tube that the cables may share; nullptr when none is wide enough.
const TubeRow* tube_for(std::span<const Length> outsides, const Tables& tables);

/// Outside diameter of a single core. Of "auto" cable it is the name itself; empty where no table has it.
std::optional<Length> outside_of(const ConductorRow& conductor);

/// For which parts a heat-shrink tube is right.
///
///     d ≥ 1.1·D/r        d ≤ 0.8·D        d ≤ D − 0.75·(D − D/r)
///
/// D   inner diameter as supplied      r   shrink ratio
///
/// Makers and sellers disagree. One rule: the tube shrinks by at least 20 % and keeps at least 10 % in hand (the first
/// two). Another: at least 75 % of the shrink is used (the third). A third rule, a tube 20 to 30 % larger than the part,
/// leaves nothing in common with the second, and is left out; taken is where the first two overlap, and where they leave
/// a gap between two tubes, the first alone. Source: a maker's guide and a seller's page for heat-shrink tube.
struct ShrinkWindow {
    Length supplied;
    Ratio ratio;
    Length recovered;  ///< D/r
    Length from;
    Length to;       ///< by both rules
    Length to_most;  ///< by the first alone
};
ShrinkWindow shrink_window(Length supplied, Ratio ratio);

/// The narrowest tube of a ratio whose window holds the part; else the narrowest by the first rule alone. nullptr when
/// nothing fits.
const ShrinkTubeRow* shrink_for(Length part, Ratio ratio, const Tables& tables);

/// Supports of a cable: one at each end, and no two further apart than allowed.
///
///     n = L/s, rounded up, + 1
///
/// Source: the spacing from ISO 10133, 7.3 and 7.4; that each end has one: common practice.
int supports(Length cable, Length apart);

/// Mass of single-core cable, its insulation too.
///
///     m = m'·S·k·L
///
/// m'   mass of copper per length and area, 8.89 g/m for each mm²      k   the whole cable over its copper, 1.25 to 1.4
struct CableMass {
    MassPerLength copper;  ///< of each square millimetre
    Area area;
    Ratio factor;
    Length length;
    Mass mass;
};
CableMass cable_mass(const ConductorRow& conductor, Length length, const Tables& tables);

/// Is a lug kept for a conductor of this area that has a hole for the stud? Also where no lug is known at all: then
/// nothing can be said.
bool lug_takes(Area conductor, Length stud, const Tables& tables);

/// The stud nearest to this one for which a lug for a conductor of this area is kept; nullptr when no lug is known.
const StudRow* nearest_stud(Area conductor, Length stud, const Tables& tables);

}  // namespace voltwright
