// SPDX-License-Identifier: BSL-1.0
// A number becomes a length only with its unit named.
// expected: conversion from 'double' to non-scalar type 'eavewright::Length'
// expected: no viable conversion from 'double' to 'eavewright::Length'
#include <eavewright/units/length.hpp>

eavewright::Length tail();
eavewright::Length tail() {
#ifdef MUST_NOT_COMPILE
    eavewright::Length length = 12.0;
#else
    eavewright::Length length = eavewright::Length::from_inches(12.0);
#endif
    return length;
}
