// error: conversion from .* to

#include "voltwright/units/literals.hpp"
#include "voltwright/units/measure.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Measure measure = 6_m;
const Length length = measure;
#else
const Measure measure = 6_m;
const Length length = std::get<Length>(measure);
#endif
