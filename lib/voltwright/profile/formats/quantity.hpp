#pragma once

#include "voltwright/profile/format.hpp"
#include "voltwright/units/read.hpp"
#include "voltwright/units/spread.hpp"

#include <string>
#include <string_view>

namespace voltwright {

/// "6.5 m", "31 +- 3 degC": any quantity with its unit and, if it has one, its spread.
template <class Q>
struct Format<Spread<Q>> {
    static bool read(const Entry& entry, const std::string& path, Spread<Q>& value, Faults& faults);
    static std::string write(const Spread<Q>& value);
    static Checked measures(const Spread<Q>& value);
    static Shape shape();
};

extern template struct Format<Spread<Current>>;
extern template struct Format<Spread<Voltage>>;
extern template struct Format<Spread<Resistance>>;
extern template struct Format<Spread<Power>>;
extern template struct Format<Spread<Energy>>;
extern template struct Format<Spread<Charge>>;
extern template struct Format<Spread<Length>>;
extern template struct Format<Spread<Area>>;
extern template struct Format<Spread<Volume>>;
extern template struct Format<Spread<Duration>>;
extern template struct Format<Spread<Mass>>;
extern template struct Format<Spread<Angle>>;
extern template struct Format<Spread<Ratio>>;
extern template struct Format<Spread<Temperature>>;

namespace formats {

/// "105 degC xlpe" is a temperature and "xlpe": the longest part in front that reads as the quantity.
template <class Q>
struct WithWords {
    Read<Spread<Q>> quantity;
    std::string_view words;
};
template <class Q>
WithWords<Q> split_words(std::string_view text);
extern template WithWords<Current> split_words<Current>(std::string_view text);
extern template WithWords<Temperature> split_words<Temperature>(std::string_view text);

}  // namespace formats

}  // namespace voltwright
