// error: conversion from .* to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Energy energy = 120_Ah;
#else
const Energy energy = 120_Ah * 12_V;
#endif
