// What a shared object asks of the archives.
#include <voltwright/files/load.hpp>
#include <voltwright/planning/plan.hpp>

#include <string>

extern "C" int holds(const char* profile) {
    const auto loaded = voltwright::load_system_text("profile", profile);
    return loaded ? static_cast<int>(voltwright::make_plan(loaded->system).holds()) : -1;
}
