#include "cli/manual.hpp"

#include "cli/verb.hpp"

namespace voltwright::cli {

namespace {

int run_manual(const Call& call) { return call.answer(manual()); }

}  // namespace

extern const Verb manual_verb;
constinit const Verb manual_verb = {
    .name = "manual",
    .group = Group::look,
    .line = "the manual page; to read it: voltwright manual | man -l -",
    .run = run_manual,
};

}  // namespace voltwright::cli
