#pragma once

#include <string>

/// What lets a shell complete the program's command line, made from the verbs' own descriptions and the key table.
namespace voltwright::cli {

std::string completions_for_bash();
std::string completions_for_zsh();
std::string completions_for_fish();

}  // namespace voltwright::cli
