#pragma once

#include "voltwright/units/quantities.hpp"
#include "voltwright/units/read.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// How a conductor's size is named. A bare number is never a size.
enum class GaugeSystem {
    awg,     ///< American Wire Gauge, the same as B&S: "8 AWG"
    metric,  ///< nominal cross-section: "10 mm2"
    trade,   ///< "auto" cable, named by its outside diameter: "6 mm auto"
};

/// A conductor's designation, not its copper: what is printed on the reel.
struct Gauge {
    GaugeSystem system;
    /// AWG number (1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3), square millimetres, or millimetres outside.
    double number;

    friend constexpr bool operator==(const Gauge&, const Gauge&) = default;
};

constexpr Gauge awg(int number) { return {GaugeSystem::awg, static_cast<double>(number)}; }
constexpr Gauge metric(double square_millimetres) { return {GaugeSystem::metric, square_millimetres}; }
constexpr Gauge trade(double millimetres_outside) { return {GaugeSystem::trade, millimetres_outside}; }

/// Diameter of a solid conductor of this AWG number.
///
///     d = 0.127 mm · 92^((36 − n)/39)
///
/// n   the number; 1/0 counts as 0, 2/0 as −1, 3/0 as −2, 4/0 as −3
///
/// Holds for 4/0 to 40 AWG. Source: ASTM B258 (formula from memory; the areas agree with the printed circular mils).
Length awg_diameter(int number);

/// Area of that solid conductor, π/4 · d². Stranded constructions do not hit it exactly; the size's own row counts.
Area awg_area(int number);

/// "8 AWG", "4/0 AWG", "10 mm2", "6 mm auto": the form that parse_gauge() reads back.
std::string show(Gauge gauge);

/// Reads a conductor's size: "8 AWG", "8 B&S", "4/0 AWG", "0000 AWG", "10 mm2", "10 mm²", "10 sq mm", "6 mm auto".
///
/// Errors: a bare number ("8": AWG or mm2?), "16 mm" (asked back: mm2, or a trade size by outside diameter, "16 mm auto"?),
/// "8 gauge" (AWG or mm2?), anything else.
Read<Gauge> parse_gauge(std::string_view text);

/// A cable as a shop is asked for it, "6 AWG, 105 degC": its size, and the temperature that its insulation is rated for. Of
/// a lower rating the same size carries less, so no page prints the one without the other.
std::string show_cable(Gauge size, Temperature insulation);

}  // namespace voltwright
