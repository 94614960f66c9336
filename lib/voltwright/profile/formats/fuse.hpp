#pragma once

#include "voltwright/profile/format.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// "50 A SF30", or a list of such.
template <>
struct Format<std::vector<FuseChoice>> {
    static bool read(const Entry& entry, const std::string& path, std::vector<FuseChoice>& value, Faults& faults);
    static std::string write(const std::vector<FuseChoice>& value);
    static Checked measures(const std::vector<FuseChoice>& value);
    static Shape shape();
};

/// A fuse or "none".
template <>
struct Format<PostFuse> {
    static bool read(const Entry& entry, const std::string& path, PostFuse& value, Faults& faults);
    static std::string write(const PostFuse& value);
    static Checked measures(const PostFuse& value);
    static Shape shape();
};

/// A fuse or "none", alone or by the end of the run where it sits.
template <>
struct Format<GivenFuses> {
    static bool read(const Entry& entry, const std::string& path, GivenFuses& value, Faults& faults);
    static std::string write(const GivenFuses& value);
    static Checked measures(const GivenFuses& value);
    static Shape shape();
};

}  // namespace voltwright
