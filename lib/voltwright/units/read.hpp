#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <variant>

namespace voltwright {

/// Why a text is not the quantity that was asked for.
struct Unreadable {
    /// One clause without a full stop, in the words of a fitter: "this is a voltage; a length is wanted".
    std::string why;
    /// What to write instead, or empty: `"6 m"`.
    std::string hint;
    /// Where in the text the trouble begins, in bytes.
    std::size_t at = 0;
};

/// Either a value or the reason why there is none.
template <class T>
class Read {
public:
    Read(T value) : content_(std::move(value)) {}
    Read(Unreadable reason) : content_(std::move(reason)) {}

    [[nodiscard]] explicit operator bool() const { return content_.index() == 0; }
    [[nodiscard]] const T& operator*() const { return std::get<0>(content_); }
    [[nodiscard]] const T* operator->() const { return &std::get<0>(content_); }
    [[nodiscard]] const Unreadable& reason() const { return std::get<1>(content_); }

private:
    std::variant<T, Unreadable> content_;
};

}  // namespace voltwright
