#include "cli/completions/completions.hpp"

#include "cli/verb.hpp"

namespace voltwright::cli {

namespace {

std::vector<std::string> shells() { return {"bash", "zsh", "fish"}; }

int run_completions(const Call& call) {
    const std::string shell = call.text("SHELL");
    if (shell == "bash") return call.answer(completions_for_bash());
    if (shell == "zsh") return call.answer(completions_for_zsh());
    if (shell == "fish") return call.answer(completions_for_fish());
    return call.complain("completions: SHELL is one of bash, zsh, fish; this is \"" + shell + "\"");
}

constexpr Argument completions_arguments[] = {{"SHELL", "bash, zsh or fish", true, shells}};

}  // namespace

extern const Verb completions_verb;
constinit const Verb completions_verb = {
    .name = "completions",
    .group = Group::look,
    .line = "what lets a shell complete this command line, for its start-up file",
    .arguments = completions_arguments,
    .run = run_completions,
};

}  // namespace voltwright::cli
