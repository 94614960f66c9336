#include "cli/open.hpp"

#include "voltwright/profile/contradictions.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/override.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/report/diagnostics.hpp"
#include "voltwright/units/characters.hpp"
#include "voltwright/vehicle/resolve.hpp"

#include <algorithm>
#include <iterator>

#include <unistd.h>

namespace voltwright::cli {

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

/// What does not fit together, told at once with what could not be read; but not what only follows from that: a value
/// that is missing because it was unreadable.
void add_contradictions(const Profile& profile, Faults& faults) {
    Faults further;
    for (Fault& fault : find_contradictions(profile, built_in_tables())) {
        const std::string_view entry = entry_of(fault.path);
        const bool of_absence = fault.path.ends_with(".draw");  // nothing says what the fridge takes
        const bool follows = std::any_of(faults.begin(), faults.end(), [&](const Fault& read) {
            return read.path.starts_with(fault.path) || (of_absence && entry_of(read.path) == entry);
        });
        if (!follows) further.push_back(std::move(fault));
    }
    faults.insert(faults.end(), std::make_move_iterator(further.begin()), std::make_move_iterator(further.end()));
}

}  // namespace

int refuse(const Call& call, const Diagnostics& diagnostics) {
    const std::string text = show(diagnostics, call.error_style);
    for (std::string_view rest = text; !rest.empty();) {
        const ssize_t written = ::write(STDERR_FILENO, rest.data(), rest.size());
        if (written <= 0) break;
        rest.remove_prefix(static_cast<std::size_t>(written));
    }
    return unusable;
}

int refuse(const Call& call, const Document& document, const Faults& faults) {
    return refuse(call, locate(document, faults));
}

std::optional<Document> open_document(const Call& call, const std::string& path) {
    auto read = read_document(path);
    if (const auto* diagnostics = std::get_if<Diagnostics>(&read)) {
        refuse(call, *diagnostics);
        return {};
    }
    return std::get<Document>(std::move(read));
}

std::optional<OpenProfile> open_profile(const Call& call) {
    auto document = open_document(call, call.text("PROFILE"));
    if (!document) return {};
    return open_profile(call, *std::move(document), call.all("--set"));
}

std::optional<OpenProfile> open_profile(const Call& call, Document document, std::span<const std::string> sets) {
    Diagnostics wrong;
    for (const std::string& words : sets)
        if (auto diagnostic = apply(document, words)) wrong.push_back(std::move(*diagnostic));
    if (!wrong.empty()) {
        refuse(call, wrong);
        return {};
    }
    Faults faults;
    Profile given = read_profile(document.root, faults);
    if (!faults.empty()) {
        add_contradictions(given, faults);
        refuse(call, document, faults);
        return {};
    }
    auto system = resolve(given, built_in_tables());
    if (const auto* contradictions = std::get_if<Faults>(&system)) {
        refuse(call, document, *contradictions);
        return {};
    }
    return OpenProfile{std::move(document), std::move(given), std::get<System>(std::move(system))};
}

}  // namespace voltwright::cli
