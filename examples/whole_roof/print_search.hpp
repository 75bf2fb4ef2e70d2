// SPDX-License-Identifier: BSL-1.0
#pragma once

// What a search over layouts of the sheets would save.

#include <eavewright/order/search_layouts.hpp>
#include <eavewright/units/tick.hpp>

#include <iosfwd>

/// `applied` says whether the deck was laid as found.
void print_search(std::ostream& out, const eavewright::FoundLayout& found, bool applied, eavewright::Tick tick);
