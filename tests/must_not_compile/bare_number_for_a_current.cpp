// error: conversion from 'double' to

#include "voltwright/units/literals.hpp"

using namespace voltwright;
using namespace voltwright::literals;

#ifdef BROKEN
const Current current = 25.0;
#else
const Current current = 25_A;
#endif
