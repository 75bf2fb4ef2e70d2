// SPDX-License-Identifier: BSL-1.0
#pragma once

// The adjustment of networks, compiled once in networks.cpp: Eigen takes its time, and a dozen tests call it.

#include <eavewright/squaring/network.hpp>

extern template eavewright::AdjustedNetwork<eavewright::PlaneCorner> eavewright::adjust_network(
    const eavewright::PlaneNetwork&, const eavewright::NetworkLevels&);
extern template eavewright::AdjustedNetwork<eavewright::BuildingPoint> eavewright::adjust_network(
    const eavewright::BuildingNetwork&, const eavewright::NetworkLevels&);
