#pragma once

#include "voltwright/profile/given.hpp"
#include "voltwright/profile/values.hpp"

#include <string>
#include <vector>

namespace voltwright {

/// A cable route, out and back. One member a key; what each means, its range and its default stand in its row.
struct RunKeys {
    Given<std::string> to;
    Given<Spread<Length>> length;
    Given<std::string> from, name;
    Given<ReturnPath> return_;
    Given<Gauge> return_size;
    Given<Insulation> insulation;
    Given<Way> where;
    Given<int> loaded_in_bundle;
    Given<std::vector<JointChoice>> joints;
    Given<Gauge> size;
    Given<GivenFuses> fuse;
    Given<Spread<Current>> breaking;
    Given<Have> have;
};

struct SectionRow;
/// Its rows, and what may contradict itself in it.
SectionRow run_section();

}  // namespace voltwright
