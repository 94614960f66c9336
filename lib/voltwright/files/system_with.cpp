#include "voltwright/files/system_with.hpp"

#include "voltwright/profile/override.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <optional>
#include <utility>
#include <vector>

namespace voltwright {

SystemWith system_with(const LoadedSystem& profile, const Tables& tables) {
    return [&profile, &tables](const std::vector<Change>& changes) -> std::optional<System> {
        Entry root = profile.document.root;
        for (const Change& change : changes)
            if (set(root, change.key, read_override_value(change.value))) return {};
        Faults faults;
        const Profile changed = read_profile(root, faults);
        if (!faults.empty()) return {};
        auto system = resolve(changed, tables);
        if (!system) return {};
        return *std::move(system);
    };
}

}  // namespace voltwright
