#pragma once

#include "testing.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/profile/fault.hpp"
#include "voltwright/profile/read_profile.hpp"
#include "voltwright/profile/section.hpp"
#include "voltwright/units/parse.hpp"
#include "voltwright/units/show.hpp"

#include <fstream>
#include <iterator>
#include <string>
#include <variant>

namespace voltwright::testing {

/// The whole of the simplest profile, the example of that name: everything else has a default.
inline const std::string simplest = [] {
    std::ifstream file(VOLTWRIGHT_TOP_FOLDER "/examples/profiles/simplest.toml");
    return std::string{std::istreambuf_iterator<char>(file), {}};
}();

inline Entry tree(std::string toml) {
    auto read = read_document_text("test", std::move(toml));
    if (const auto* diagnostics = std::get_if<Diagnostics>(&read)) FAIL(diagnostics->at(0).what);
    return std::get<Document>(read).root;
}

inline Profile sound(const std::string& toml) {
    Faults faults;
    Profile profile = read_profile(tree(toml), faults);
    for (const Fault& fault : faults) FAIL_CHECK(fault.path << ": " << fault.what << " (" << fault.hint << ")");
    return profile;
}

inline Faults faults_of(const std::string& toml) {
    Faults faults;
    (void)read_profile(tree(toml), faults);
    return faults;
}

}  // namespace voltwright::testing
