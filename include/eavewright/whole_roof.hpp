// SPDX-License-Identifier: BSL-1.0
#pragma once

// The walk as one function, and its result as JSON. Leaves out drawing.

#include <eavewright/whole_roof/description.hpp>
#include <eavewright/whole_roof/placed_pieces.hpp>
#include <eavewright/whole_roof/result.hpp>
#include <eavewright/whole_roof/result_json.hpp>
#include <eavewright/whole_roof/roof_order.hpp>
#include <eavewright/whole_roof/site_steps.hpp>
#include <eavewright/whole_roof/whole_roof.hpp>
