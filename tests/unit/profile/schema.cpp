#include "unit/profile/reading.hpp"

#include "voltwright/report/key_reference.hpp"
#include "voltwright/report/schema.hpp"

#include <fstream>
#include <sstream>

namespace voltwright {

TEST_CASE("shared/profile.schema.json is what the key table makes") {
    std::ifstream file(VOLTWRIGHT_TOP_FOLDER "/shared/profile.schema.json");
    REQUIRE(file);
    std::ostringstream text;
    text << file.rdbuf();
    CHECK(text.str() == profile_schema());
}

TEST_CASE("the reference of keys names every key") {
    const std::string page = key_reference(false), markdown = key_reference(true);
    for (const SectionRow& section : sections())
        for (const Key& key : section.keys) {
            CAPTURE(key.name);
            CHECK(page.find("\n  " + std::string(key.name) + " ") != std::string::npos);
            CHECK(markdown.find("| `" + std::string(key.name) + "` |") != std::string::npos);
        }
    CHECK(markdown.find("`rated.around`") != std::string::npos);
}

}  // namespace voltwright
