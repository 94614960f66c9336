// error: conversion from .* to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const TemperatureRise rise = 31_degC;
#else
const TemperatureRise rise = 31_degC - 25_degC;
#endif
