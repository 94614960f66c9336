// error: conversion from .* to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Temperature around = 31_K;
#else
const Temperature around = 31_degC;
#endif
