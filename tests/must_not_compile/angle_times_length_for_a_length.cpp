// error: conversion from .* to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Length arc = 6_m * 30_deg;
#else
const Length arc = 6_m * 0.5;
#endif
