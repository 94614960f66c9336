// error: conversion from .* to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Length length = 16_mm2;
#else
const Length length = 16_mm;
#endif
