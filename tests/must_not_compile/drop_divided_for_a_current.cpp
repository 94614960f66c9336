// error: conversion from .* to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Current current = 4_Ohm / 12_V;
#else
const Current current = 12_V / 4_Ohm;
#endif
