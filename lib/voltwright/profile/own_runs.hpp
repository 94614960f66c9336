#pragma once

#include <string_view>

namespace voltwright {

/// What the plan calls a run that it adds by itself, from a battery's post with the main fuse to a fuse block, where the
/// profile has no such name.
struct OwnRun {
    std::string_view run, block;
};
inline constexpr OwnRun own_run_of_house{"main", "fuse block"};
inline constexpr OwnRun own_run_of_starter{"starter main", "starter fuse block"};
inline constexpr OwnRun own_runs[] = {own_run_of_house, own_run_of_starter};

}  // namespace voltwright
