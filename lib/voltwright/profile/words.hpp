#pragma once

#include "voltwright/profile/values.hpp"

#include <array>
#include <cstddef>
#include <string_view>
#include <type_traits>

namespace voltwright {

/// The words of an enumeration, in its order, as a profile writes them.
template <class E>
struct Words;
template <>
struct Words<Chemistry> {
    static constexpr std::array<std::string_view, 4> all = {"flooded", "agm", "gel", "lfp"};
};
template <>
struct Words<Alternator> {
    static constexpr std::array<std::string_view, 2> all = {"plain", "smart"};
};
template <>
struct Words<Coupling> {
    static constexpr std::array<std::string_view, 3> all = {"dc-dc", "relay", "none"};
};
template <>
struct Words<Wake> {
    static constexpr std::array<std::string_view, 2> all = {"voltage", "ignition"};
};
template <>
struct Words<Regulator> {
    static constexpr std::array<std::string_view, 2> all = {"mppt", "pwm"};
};
template <>
struct Words<AmpacityBasis> {
    static constexpr std::array<std::string_view, 2> all = {"us-33-cfr-183", "iso-13297"};
};
template <>
struct Words<Engine> {
    static constexpr std::array<std::string_view, 3> all = {"off", "idling", "driving"};
};
template <>
struct Words<ChargerSwitch> {
    static constexpr std::array<std::string_view, 2> all = {"on", "off"};
};
template <>
struct Words<Have> {
    static constexpr std::array<std::string_view, 4> all = {"cable", "fuse", "cable, fuse", "nothing"};
};
template <>
struct Words<SizeSeries> {
    static constexpr std::array<std::string_view, 2> all = {"awg", "metric"};
};

template <class E>
concept HasWords = std::is_enum_v<E> && requires {
    Words<E>::all;
};

/// The word of a value: "agm".
template <HasWords E>
std::string_view show(E value) {
    return Words<E>::all[static_cast<std::size_t>(value)];
}

}  // namespace voltwright
