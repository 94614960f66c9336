#pragma once

#include "voltwright/provenance/source.hpp"

namespace voltwright {

/// A value together with where it comes from.
template <class T>
struct Cited {
    T value;
    Source source;
};

}  // namespace voltwright
