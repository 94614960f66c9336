// error: conversion from .* to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Resistance resistance = ohms_per_kilometre(2.1);
#else
const Resistance resistance = ohms_per_kilometre(2.1) * 6_m;
#endif
