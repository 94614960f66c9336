#include "voltwright/files/load.hpp"

#include "voltwright/profile/contradictions.hpp"
#include "voltwright/profile/override.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/units/characters.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <iterator>
#include <optional>
#include <string_view>
#include <utility>

namespace voltwright {

namespace {

/// `key=value` applied to the tree, or what is wrong with it.
std::optional<Diagnostic> apply(Document& document, const std::string& words) {
    const std::string said = "--set " + words;
    const auto refused = [&](std::string what, std::string hint) {
        return Diagnostic{document.name, {}, {}, std::move(what), std::move(hint), said};
    };
    if (first_that_is_not_utf8(words) < words.size()) return refused("this is not UTF-8 text", {});
    const std::size_t equals = words.find('=');
    if (equals == std::string::npos || equals == 0)
        return refused("a key and its value are wanted", "write it such as --set trip.days=12");
    const std::size_t last = words.find_last_not_of(" \t", equals - 1);
    if (last == std::string::npos || last >= equals)
        return refused("a key and its value are wanted", "write it such as --set trip.days=12");
    std::string_view text = std::string_view(words).substr(equals + 1);
    text.remove_prefix(std::min(text.find_first_not_of(" \t"), text.size()));
    Entry value = read_override_value(text);
    value.said = said;
    if (auto fault = set(document.root, std::string_view(words).substr(0, last + 1), std::move(value)))
        return refused(std::move(fault->what), std::move(fault->hint));
    return {};
}

/// "run[1]" of "run[1].where[0].place"
std::string_view entry_of(std::string_view path) { return path.substr(0, path.find('.')); }

/// Whether a contradiction only follows from what could not be read: a value is missing because it was unreadable.
bool follows_from(const Faults& unread, const Fault& fault) {
    const std::string_view entry = entry_of(fault.path);
    const bool of_absence = fault.path.ends_with(".draw");  // nothing says what the fridge takes
    return std::any_of(unread.begin(), unread.end(), [&](const Fault& read) {
        return read.path.starts_with(fault.path) || (of_absence && entry_of(read.path) == entry);
    });
}

void add_contradictions(const Profile& profile, const Tables& tables, Faults& faults) {
    Faults further;
    for (Fault& fault : find_contradictions(profile, tables))
        if (!follows_from(faults, fault)) further.push_back(std::move(fault));
    faults.insert(faults.end(), std::make_move_iterator(further.begin()), std::make_move_iterator(further.end()));
}

}  // namespace

Result<LoadedSystem, Diagnostics> load_system(Document document, std::span<const std::string> overrides,
                                              const Tables& tables) {
    Diagnostics refused;
    for (const std::string& words : overrides)
        if (auto diagnostic = apply(document, words)) refused.push_back(*std::move(diagnostic));
    if (!refused.empty()) return refused;

    Faults faults;
    Profile given = read_profile(document.root, faults);
    if (!faults.empty()) {
        add_contradictions(given, tables, faults);
        return locate(document, faults);
    }
    auto system = resolve(given, tables);
    if (!system) return locate(document, system.wrong());
    return LoadedSystem{std::move(document), std::move(given), *std::move(system)};
}

Result<LoadedSystem, Diagnostics> load_system(const std::string& path, std::span<const std::string> overrides,
                                              const Tables& tables) {
    auto document = read_document(path);
    if (!document) return document.wrong();
    return load_system(*std::move(document), overrides, tables);
}

Result<LoadedSystem, Diagnostics> load_system_text(std::string name, std::string text,
                                                   std::span<const std::string> overrides, const Tables& tables) {
    auto document = read_document_text(std::move(name), std::move(text));
    if (!document) return document.wrong();
    return load_system(*std::move(document), overrides, tables);
}

}  // namespace voltwright
