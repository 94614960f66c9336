#pragma once

#include "voltwright/profile/formats/reading.hpp"
#include "voltwright/profile/words.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace voltwright {

namespace formats {

/// The index of `entry` among `words`, or a fault with the nearest.
std::optional<std::size_t> read_word(const Entry& entry, const std::string& path,
                                     std::span<const std::string_view> words, Faults& faults);

}  // namespace formats

template <HasWords E>
struct Format<E> {
    static bool read(const Entry& entry, const std::string& path, E& value, Faults& faults) {
        const auto index = formats::read_word(entry, path, Words<E>::all, faults);
        if (index) value = static_cast<E>(*index);
        return index.has_value();
    }
    static std::string write(const E& value) { return formats::toml_quoted(show(value)); }
    static Checked measures(const E&) { return {}; }
    static Shape shape() { return formats::with_words("a word", {Words<E>::all.begin(), Words<E>::all.end()}); }
};

}  // namespace voltwright
