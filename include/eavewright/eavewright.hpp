// SPDX-License-Identifier: BSL-1.0
#pragma once

// Every header of the library at once: for small programs and examples. Code that builds often includes what it uses.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/version.hpp>
