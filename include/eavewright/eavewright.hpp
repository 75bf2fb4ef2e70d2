// SPDX-License-Identifier: BSL-1.0
#pragma once

// Every header of the library at once: for small programs and examples. Code that builds often includes what it uses.

#include <eavewright/fastening/nails.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/framing/frames.hpp>
#include <eavewright/framing/purlin_pieces.hpp>
#include <eavewright/framing/purlin_rows.hpp>
#include <eavewright/framing/row_marks.hpp>
#include <eavewright/framing/supports.hpp>
#include <eavewright/roof/build_up.hpp>
#include <eavewright/roof/measured_plane.hpp>
#include <eavewright/roof/plane.hpp>
#include <eavewright/roof/shape.hpp>
#include <eavewright/squaring/closing.hpp>
#include <eavewright/squaring/diagonals.hpp>
#include <eavewright/squaring/four_corners.hpp>
#include <eavewright/squaring/four_sides.hpp>
#include <eavewright/squaring/linkage.hpp>
#include <eavewright/squaring/tape_error.hpp>
#include <eavewright/squaring/true_up.hpp>
#include <eavewright/squaring/true_up_pair.hpp>
#include <eavewright/tiling/bearing.hpp>
#include <eavewright/tiling/lane_frame.hpp>
#include <eavewright/tiling/sheets.hpp>
#include <eavewright/tiling/tile_sheets.hpp>
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
#include <eavewright/whole_roof.hpp>
#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/result_json.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>
#include <eavewright/writing/json.hpp>
