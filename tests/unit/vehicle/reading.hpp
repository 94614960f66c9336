#pragma once

#include "testing.hpp"

#include "voltwright/files/document.hpp"
#include "voltwright/vehicle/forms.hpp"
#include "voltwright/vehicle/keys.hpp"

#include <string>
#include <variant>

namespace voltwright::testing {

/// The whole of the simplest profile: everything else has a default.
inline const std::string simplest = R"(
[trip]
days   = 3
low    = "14 degC"
high   = "31 degC"
drives = "08:30-10:00"
[battery]
chemistry = "agm"
capacity  = "120 Ah"
[charger]
output = "25 A"
[[run]]
to     = "charger"
length = "6 m"
[[run]]
to     = "battery"
length = "1 m"
[[run]]
to     = "fridge"
length = "3 m"
[[fridge]]
draw  = "45 W"
rated = [{ around = "25 degC", a_day = "22 Ah" }]
)";

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
