#pragma once

#include <optional>

namespace voltwright {

/// What the profile says; empty where it says nothing. Defaults are filled in by complete(), and only there.
template <class T>
using Given = std::optional<T>;

}  // namespace voltwright
