#include "voltwright/profile/check.hpp"

#include "voltwright/profile/section.hpp"

namespace voltwright {

Faults missing_keys(const Profile& profile) {
    Faults faults;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile) && !(section.left_out && section.left_out(profile)); ++i)
            add_missing_keys(section.keys, section.look(profile, i), path_of(section, i), faults);
    return faults;
}

Faults out_of_range(const Profile& profile) {
    Faults faults;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile); ++i)
            check_section(section.keys, section.look(profile, i), path_of(section, i), faults);
    return faults;
}

}  // namespace voltwright
