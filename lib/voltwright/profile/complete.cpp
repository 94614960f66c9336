#include "voltwright/profile/complete.hpp"

#include "voltwright/profile/section.hpp"

namespace voltwright {

Profile complete(const Profile& given, const Tables& tables) {
    Profile profile = given;
    for (const SectionRow& section : sections())
        for (std::size_t i = 0; i < section.count(profile); ++i)
            complete_section(section.keys, section.at(profile, i), profile, tables, i);
    return profile;
}

}  // namespace voltwright
