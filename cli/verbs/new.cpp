#include "cli/verb.hpp"
#include "voltwright/report/listing.hpp"

#include <sys/stat.h>

namespace voltwright::cli {

namespace {

int run(const Call& call) {
    // The one verb that makes a profile must not cost anybody theirs.
    const std::string path = call.text("-o", "-");
    struct stat about = {};
    if (path != "-" && ::stat(path.c_str(), &about) == 0 && S_ISREG(about.st_mode) && about.st_size > 0)
        return call.complain(path + " is there already and was left as it is; choose another name");
    return call.answer(new_profile(built_in_tables()));
}

}  // namespace

extern const Verb new_verb;
constinit const Verb new_verb = {
    .name = "new",
    .group = Group::plan,
    .line = "the simplest profile, with every other key as a comment",
    .run = run,
};

}  // namespace voltwright::cli
