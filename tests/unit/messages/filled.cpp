#include "voltwright/messages/filled.hpp"

#include <doctest/doctest.h>

#include <optional>
#include <stdexcept>
#include <string>

using namespace voltwright;

namespace {

std::optional<std::string> words_of(std::string_view name) {
    if (name == "about") return "{found} <pump>";
    if (name == "found") return "7 A";
    return {};
}

}  // namespace

TEST_CASE("names in braces are filled once: what a profile calls a thing is never read as a name or an optional part") {
    CHECK(filled("{about}: it draws {found}.", words_of) == "{found} <pump>: it draws 7 A.");
}

TEST_CASE("a brace with a space behind it is a profile's own, and stays") {
    CHECK(filled("fuse = { starter = \"{found}\" }.", words_of) == "fuse = { starter = \"7 A\" }.");
}

TEST_CASE(
    "an optional part is left out where one of its names has no words, and stays without its signs where all have") {
    CHECK(filled("It falls< to {found}><, first {when}>.", words_of) == "It falls to 7 A.");
    CHECK(filled("<{when} >It falls.", words_of) == "It falls.");
}

TEST_CASE("a name without words outside an optional part is our own mistake") {
    CHECK_THROWS_AS(filled("It falls {when}.", words_of), std::logic_error);
}
