#include "cli/load_profile.hpp"
#include "voltwright/files/toml.hpp"
#include "voltwright/report/listing.hpp"
#include "voltwright/report/listing_json.hpp"
#include "voltwright/report/toml_text.hpp"

#include <stdexcept>

namespace voltwright::cli {

namespace {

int run_show(const Call& call) {
    const auto profile = open_profile(call);
    if (!profile) return unusable;
    if (call.quiet()) return holds;
    const std::string listing = list_profile(profile->given, built_in_tables());
    if (!call.json()) return call.answer(call.style.unicode ? listing : toml_in_ascii(listing));
    const auto reread = read_toml(listing);
    const auto* root = std::get_if<Entry>(&reread);
    if (!root) throw std::logic_error("the listing of a profile does not read back");
    return call.answer(list_profile_json(*root, defaulted_keys(profile->given, built_in_tables())));
}

}  // namespace

extern const Verb show_verb;
constinit const Verb show_verb =
    profile_verb({.name = "show", .group = Group::look, .line = "the profile with every default filled in"}, run_show);

}  // namespace voltwright::cli
