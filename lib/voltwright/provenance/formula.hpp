#pragma once

#include "voltwright/provenance/cited.hpp"
#include "voltwright/units/gauge.hpp"
#include "voltwright/units/measure.hpp"
#include "voltwright/units/spread.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <variant>
#include <vector>

/// Explaining without doubling. A model returns a struct that holds its inputs and its results. One row describes each
/// field (symbol, words, JSON key), one names the equation and its source. Structs nest: a drop holds the resistance,
/// which holds the cited row of its table. What a page explains is what was computed, and the same rows name the JSON keys.
namespace voltwright {

/// An equation in the symbols of its struct's fields, and the publication it is from.
struct Equation {
    std::string_view form;
    std::string_view source;
};

/// One field of a model's struct.
template <class Struct, class Member>
struct FieldRow {
    Member Struct::*member;
    std::string_view symbol;  ///< as the equation writes it; empty when no equation does
    std::string_view words;
    std::string_view json;  ///< the key in the answer, with its unit: `drop_V`; empty when it is not answered
};

template <class Struct, class Member>
constexpr FieldRow<Struct, Member> field(Member Struct::*member, std::string_view symbol, std::string_view words,
                                         std::string_view json = {}) {
    return {member, symbol, words, json};
}

/// Specialised for each model's struct in a header beside its own, `fault_description.hpp` for `fault.hpp`, so that only what explains pays for it:
///
///     static constexpr Equation equation    its equation, or {} where it only gathers
///     static constexpr auto fields          a tuple of field(…) rows, one for each member, in order
///     static constexpr auto result          the member that the equation gives
template <class T>
struct Described;

template <class T>
concept IsDescribed = requires {
    Described<T>::fields;
};

/// A value on its way to a page, with everything it was made from.
struct Explanation {
    std::string_view symbol, words, json;
    std::variant<std::monostate, Measure, std::string, int, bool> value;
    Equation equation = {};
    std::optional<Source> source;
    std::vector<Explanation> parts;
};

namespace detail {

template <class T>
struct IsOptional : std::false_type {};
template <class T>
struct IsOptional<std::optional<T>> : std::true_type {};
template <class T>
struct IsVector : std::false_type {};
template <class T>
struct IsVector<std::vector<T>> : std::true_type {};
template <class T>
struct IsCited : std::false_type {};
template <class T>
struct IsCited<Cited<T>> : std::true_type {};
template <class T>
struct IsSpread : std::false_type {};
template <class T>
struct IsSpread<Spread<T>> : std::true_type {};

template <class T>
concept HasShow = requires(const T& value) {
    std::string(show(value));
};

}  // namespace detail

/// The explanation of a value: a plain quantity or word is itself; a described struct is its result, with its equation
/// and a part for each other field; an empty optional is nothing.
template <class T>
Explanation explain(const T& value, std::string_view words = {}, std::string_view symbol = {},
                    std::string_view json = {}) {
    Explanation node{symbol, words, json, {}, {}, {}, {}};
    if constexpr (detail::IsOptional<T>::value) {
        if (value) return explain(*value, words, symbol, json);
    } else if constexpr (detail::IsCited<T>::value) {
        node = explain(value.value, words, symbol, json);
        node.source = value.source;
    } else if constexpr (detail::IsSpread<T>::value) {
        node.value = Measure{value.value};
    } else if constexpr (detail::IsVector<T>::value) {
        for (const auto& element : value) node.parts.push_back(explain(element));
    } else if constexpr (IsDescribed<T>) {
        node.equation = Described<T>::equation;
        if constexpr (requires { Described<T>::result; }) {
            Explanation result = explain(value.*Described<T>::result);
            node.value = std::move(result.value);
        }
        std::apply(
            [&](const auto&... rows) {
                (node.parts.push_back(explain(value.*rows.member, rows.words, rows.symbol, rows.json)), ...);
            },
            Described<T>::fields);
        if constexpr (requires { value.source; })
            if constexpr (std::is_same_v<std::remove_cvref_t<decltype(value.source)>, Source>)
                node.source = value.source;
        if constexpr (requires { Described<T>::name(value); }) node.words = Described<T>::name(value);
    } else if constexpr (std::is_same_v<T, bool>) {
        node.value = value;
    } else if constexpr (std::is_same_v<T, int>) {
        node.value = value;
    } else if constexpr (std::is_convertible_v<T, std::string_view>) {
        node.value = std::string(std::string_view(value));
    } else if constexpr (requires { Measure{value}; }) {
        node.value = Measure{value};
    } else {
        static_assert(detail::HasShow<T>, "a field is a quantity, a word, or something described");
        node.value = std::string(show(value));
    }
    return node;
}

/// The part of that JSON key or those words, anywhere below; nullptr when there is none.
const Explanation* find_part(const Explanation& node, std::string_view name);

}  // namespace voltwright
