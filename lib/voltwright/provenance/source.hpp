#pragma once

#include <string_view>

namespace voltwright {

/// How a published figure is known. It travels with the value to the page.
enum class Standing {
    read,             ///< seen in the text of the named source
    read_weak,        ///< seen in a reprint, a forum or a shop's page, not at the publisher's
    memory,           ///< recalled from the named source, not seen
    recomputed,       ///< recalled, then reproduced from the source's own equation
    common_practice,  ///< common practice, no source
};

/// Where a value comes from.
struct Source {
    std::string_view id;    ///< short name, such as `iec-60228`
    std::string_view cite;  ///< the publication and the place in it
    Standing standing = Standing::read;
    std::string_view table = {};  ///< the table of data/ that holds it, such as `conductors/awg`; empty for a formula's
    int line = 0;                 ///< the line of the row in that table; 0 when there is none
    std::string_view note = {};   ///< what the row itself adds: "the 2nd edition prints 4.3"
};

/// "read", "read in a reprint", "from memory", "from memory, recomputed", "common practice, no source".
std::string_view show(Standing standing);

}  // namespace voltwright
