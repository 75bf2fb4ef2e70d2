// SPDX-License-Identifier: BSL-1.0
#pragma once

// What lies on the purlins, and what goes with it: deck, steel, air, handling.

#include "json_fields.hpp"

#include <eavewright/whole_roof/description.hpp>

/// The deck; its thickness goes into the shape's build-up.
[[nodiscard]] eavewright::DeckPlan read_deck(JsonFields deck, eavewright::Length& thickness);
[[nodiscard]] eavewright::SteelPlan read_steel(JsonFields steel);
[[nodiscard]] eavewright::CoveringPlan read_covering(JsonFields covering);
[[nodiscard]] eavewright::DryInPlan read_underlayment(JsonFields underlayment);
[[nodiscard]] eavewright::AirPlan read_air(JsonFields air);
[[nodiscard]] eavewright::HandlingPlan read_handling(JsonFields handling);
