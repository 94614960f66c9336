#include "voltwright/profile/contradictions.hpp"

#include "voltwright/profile/complete.hpp"
#include "voltwright/profile/section.hpp"

namespace voltwright {

Faults find_contradictions(const Profile& profile, const Profile& completed, const Tables& tables) {
    Faults faults;
    const WholeProfile whole{profile, completed, tables};
    for (const SectionRow& section : sections())
        if (section.contradictions) section.contradictions(whole, faults);
    return faults;
}

Faults find_contradictions(const Profile& profile, const Tables& tables) {
    return find_contradictions(profile, complete(profile, tables), tables);
}

}  // namespace voltwright
