// SPDX-License-Identifier: BSL-1.0
#pragma once

// Every header of the library at once: for small programs and examples. Code that builds often includes what it uses.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_marks.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/read_pitch.hpp>
#include <eavewright/units/read_tape.hpp>
#include <eavewright/units/text_cursor.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>
#include <eavewright/version.hpp>
