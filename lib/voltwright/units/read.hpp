#pragma once

#include "voltwright/units/result.hpp"

#include <cstddef>
#include <string>

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

/// A value read from a text, or the reason why there is none.
template <class T>
using Read = Result<T, Unreadable>;

}  // namespace voltwright
