#pragma once

#include <concepts>
#include <type_traits>
#include <utility>

namespace voltwright {

/// A value that has to be given: a struct that holds one cannot leave it out silently.
template <class T>
class Needed {
public:
    constexpr Needed(T value) : value_(std::move(value)) {}
    template <class U>
    requires(std::convertible_to<U, T> && !std::same_as<std::remove_cvref_t<U>, T> &&
             !std::same_as<std::remove_cvref_t<U>, Needed>) constexpr Needed(U&& value)
        : value_(std::forward<U>(value)) {}
    constexpr operator const T&() const { return value_; }
    constexpr const T& operator*() const { return value_; }
    constexpr const T* operator->() const { return &value_; }

private:
    T value_;
};

}  // namespace voltwright
