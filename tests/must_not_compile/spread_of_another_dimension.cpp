// error: conversion from .* to

#include "voltwright/units/literals.hpp"
#include "voltwright/units/spread.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Spread<Area> size{16_mm2, 1_mm2};
const Spread<Length> length = size;
#else
const Spread<Area> size{16_mm2, 1_mm2};
const Spread<Area> same = size;
#endif
