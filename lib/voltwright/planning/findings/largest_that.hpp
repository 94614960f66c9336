#pragma once

#include <optional>

namespace voltwright {

/// The largest whole number of steps, up to `most`, that does; nothing where not even `least` does. What does must do for
/// every smaller number too.
template <class Does>
std::optional<int> largest_that(int least, int most, Does does) {
    if (least > most || !does(least)) return {};
    while (least < most) {
        const int middle = least + (most - least + 1) / 2;
        if (does(middle))
            least = middle;
        else
            most = middle - 1;
    }
    return least;
}

}  // namespace voltwright
