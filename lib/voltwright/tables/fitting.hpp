#pragma once

#include "voltwright/provenance/source.hpp"
#include "voltwright/units/quantities.hpp"

#include <optional>
#include <string_view>

namespace voltwright {

/// The share of a tube's bore that so many cables may take.
struct FillRow {
    int from;  ///< cables in the tube
    std::optional<int> to;
    Ratio most;
    Source source;
};

/// One size of corrugated tube.
struct TubeRow {
    std::string_view tube;  ///< "NW 17", as it is sold
    Length bore;
    Length outside;
    Source source;
};

/// How far apart a kind of cable is supported.
struct SupportSpacingRow {
    std::string_view cable;  ///< `cable`, `battery cable`
    Length apart;
    std::optional<Length> first_within;  ///< of the terminal
    Source source;
};

/// The hole in a lug for a stud.
struct StudRow {
    std::string_view stud;  ///< "M8"
    Length diameter;
    Length hole;
    Source source;
};

/// For which studs shops keep a lug of one size.
struct LugRow {
    std::string_view lug;      ///< "16 mm2"
    Area over, to;             ///< conductors above the one area, up to the other
    Length smallest, largest;  ///< studs, and all of the stud table between
    Source source;
};

/// One size of heat-shrink tube.
struct ShrinkTubeRow {
    Ratio ratio;      ///< before over after: 3 for "3:1"
    Length supplied;  ///< inner diameter before
    Source source;
};

/// What cable weighs.
struct CableMassRow {
    std::string_view cable;
    MassPerLength copper;    ///< of each square millimetre of copper
    Ratio low, usual, high;  ///< times that, the whole cable
    Source source;
};

}  // namespace voltwright
