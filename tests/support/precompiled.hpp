// SPDX-License-Identifier: BSL-1.0
#pragma once

// What nearly every test source includes of others; made ready once. Never included by name.

#include <boost/units/base_units/angle/radian.hpp>
#include <boost/units/base_units/us/inch.hpp>
#include <boost/units/base_units/us/pound.hpp>
#include <boost/units/base_units/us/pound_force.hpp>
#include <boost/units/get_dimension.hpp>
#include <boost/units/make_system.hpp>
#include <boost/units/physical_dimensions/area.hpp>
#include <boost/units/physical_dimensions/energy.hpp>
#include <boost/units/physical_dimensions/force.hpp>
#include <boost/units/physical_dimensions/length.hpp>
#include <boost/units/physical_dimensions/plane_angle.hpp>
#include <boost/units/physical_dimensions/pressure.hpp>
#include <boost/units/physical_dimensions/surface_tension.hpp>
#include <boost/units/physical_dimensions/volume.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/length.hpp>

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <fstream>
#include <functional>
#include <map>
#include <optional>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>
