#include "cli/verb.hpp"
#include "voltwright/report/listing.hpp"

namespace voltwright::cli {

namespace {

int run_new(const Call& call) { return call.answer(new_profile(built_in_tables())); }

}  // namespace

extern const Verb new_verb;
constinit const Verb new_verb = {
    .name = "new",
    .group = Group::plan,
    .line = "a profile to fill in, with every other key as a comment",
    .run = run_new,
};

}  // namespace voltwright::cli
