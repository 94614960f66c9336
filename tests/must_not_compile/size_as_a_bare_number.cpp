// error: conversion from 'int' to

#include "voltwright/units/gauge.hpp"
#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Gauge size = 8;
#else
const Gauge size = awg(8);
#endif
