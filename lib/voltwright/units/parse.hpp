#pragma once

#include "voltwright/units/dimension.hpp"
#include "voltwright/units/gauge.hpp"
#include "voltwright/units/measure.hpp"
#include "voltwright/units/read.hpp"
#include "voltwright/units/spread.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace voltwright {

/// Reads a quantity with its unit and, if it has one, its spread: "25 A", "6.5m", "31 ± 3 degC", "19 ft", "5 %".
///
/// Number, unit, then optionally `±` or `+-` and a half width, which may repeat the unit; the unit may also stand only
/// at the end ("31 ± 3 degC"). A half width in per cent is of the value, unless the quantity is itself a ratio. Numbers
/// have a point, not a comma. Every unit of the quantity's dimension is understood (see `units_of`), with or without a
/// blank before it; blanks around are ignored. The range is not checked here: that is the key table's business.
///
/// Errors: no number, no unit, an unknown unit (with the nearest known), a unit of another dimension (both are named),
/// a decimal comma, a negative half width, trailing text, a number that is not finite.
template <class Q>
Read<Spread<Q>> parse(std::string_view text);

extern template Read<Spread<Current>> parse<Current>(std::string_view);
extern template Read<Spread<Voltage>> parse<Voltage>(std::string_view);
extern template Read<Spread<Resistance>> parse<Resistance>(std::string_view);
extern template Read<Spread<Power>> parse<Power>(std::string_view);
extern template Read<Spread<Energy>> parse<Energy>(std::string_view);
extern template Read<Spread<Charge>> parse<Charge>(std::string_view);
extern template Read<Spread<Length>> parse<Length>(std::string_view);
extern template Read<Spread<Area>> parse<Area>(std::string_view);
extern template Read<Spread<Volume>> parse<Volume>(std::string_view);
extern template Read<Spread<Duration>> parse<Duration>(std::string_view);
extern template Read<Spread<Mass>> parse<Mass>(std::string_view);
extern template Read<Spread<Angle>> parse<Angle>(std::string_view);
extern template Read<Spread<Ratio>> parse<Ratio>(std::string_view);
extern template Read<Spread<Temperature>> parse<Temperature>(std::string_view);
extern template Read<Spread<TemperatureRise>> parse<TemperatureRise>(std::string_view);

/// What is the dimension of this text, if it reads as any quantity at all? Used to tell "45 W" from "3.5 A" where a
/// key takes either, and to say what was given where another was wanted.
std::optional<Dimension> dimension_of(std::string_view text);

/// "a length", "a current", "a resistance": with its article.
std::string_view name_of(Dimension dimension);
/// A well-formed example of the dimension: "6.5 m", "25 A".
std::string_view example_of(Dimension dimension);
/// The units understood, preferred one first: "A, mA".
std::string_view units_of(Dimension dimension);

/// The nearest of `known` to `word` by edit distance, or nothing when none is near (a third of its letters).
template <class Words>
std::optional<std::string_view> nearest_word(std::string_view word, const Words& known);

/// Edit distance with transpositions counted once; case is ignored.
std::size_t edit_distance(std::string_view a, std::string_view b);

template <class Words>
std::optional<std::string_view> nearest_word(std::string_view word, const Words& known) {
    std::optional<std::string_view> best;
    std::size_t least = word.size() / 3 + 1;
    for (const std::string_view candidate : known)
        if (const std::size_t d = edit_distance(word, candidate); d <= least && (!best || d < least)) {
            best = candidate;
            least = d;
        }
    return best;
}

}  // namespace voltwright
