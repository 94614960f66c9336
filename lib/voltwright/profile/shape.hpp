#pragma once

#include "voltwright/units/dimension.hpp"

#include <span>
#include <string_view>
#include <vector>

namespace voltwright {

class Key;

/// What a value looks like when written, for whoever describes it to people and editors.
struct Shape {
    enum class Kind {
        quantity,     ///< text with a unit of one of `dimensions`
        gauge,        ///< a conductor's size
        stud,         ///< the thread of a terminal
        whole,        ///< a whole number
        flag,         ///< true or false
        text,         ///< free text
        word,         ///< one of `words`
        date,         ///< a TOML date
        clock,        ///< "18:30"
        window,       ///< "18:30-22:00"
        days,         ///< "2-4", a day, or a list of days
        list,         ///< of `parts[0]`
        one_or_list,  ///< one `parts[0]`, or a list of it
        any_of,       ///< one of `parts`
        section,      ///< named things of `keys`
        named,        ///< names chosen by the user, each with a `parts[0]`
    };
    Kind kind;
    std::string_view says;  ///< "a cable size such as \"8 AWG\""
    std::vector<Dimension> dimensions = {};
    std::vector<std::string_view> words = {};
    std::vector<Shape> parts = {};
    std::span<const Key> keys = {};
    std::string_view example = {};  ///< a well-formed value as TOML, where the kind does not say it all
};

}  // namespace voltwright
