// SPDX-License-Identifier: BSL-1.0

#include "networks.hpp"

template eavewright::AdjustedNetwork<eavewright::PlaneCorner> eavewright::adjust_network(
    const eavewright::PlaneNetwork&, const eavewright::NetworkLevels&);
template eavewright::AdjustedNetwork<eavewright::BuildingPoint> eavewright::adjust_network(
    const eavewright::BuildingNetwork&, const eavewright::NetworkLevels&);
