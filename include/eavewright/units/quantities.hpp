// SPDX-License-Identifier: BSL-1.0
#pragma once

// Angle, Area, Volume, Force, Pressure, LineLoad, Moment, SecondMoment and Mass on Boost.Units, and the named readers
// through which they are read.

#include <eavewright/units/length.hpp>

#include <boost/units/base_units/angle/radian.hpp>
#include <boost/units/base_units/us/pound.hpp>
#include <boost/units/physical_dimensions/energy.hpp>
#include <boost/units/physical_dimensions/force.hpp>
#include <boost/units/physical_dimensions/plane_angle.hpp>
#include <boost/units/physical_dimensions/pressure.hpp>
#include <boost/units/physical_dimensions/surface_tension.hpp>

namespace eavewright {

using Angle = boost::units::quantity<boost::units::angle::radian_base_unit::unit_type>;
using Force = boost::units::quantity<boost::units::unit<boost::units::force_dimension, InchSystem>>;
using Pressure = boost::units::quantity<boost::units::unit<boost::units::pressure_dimension, InchSystem>>;
/// Force by the length it is spread over.
using LineLoad = boost::units::quantity<boost::units::unit<boost::units::surface_tension_dimension, InchSystem>>;
/// Force times its lever, in a bending member.
using Moment = boost::units::quantity<boost::units::unit<boost::units::energy_dimension, InchSystem>>;
/// Second moment of the area of a cross-section; its section modulus is a Volume.
using SecondMoment = decltype(Area{} * Area{});
/// Mass counts in avoirdupois pounds, apart from the inch and pound-force system, so that no g hides in it.
using Mass = boost::units::quantity<boost::units::us::pound_base_unit::unit_type>;

inline constexpr double pi = 3.14159265358979323846;
inline constexpr double newtons_per_pound_force = 4.4482216152605;  ///< exact: 0.45359237 kg x 9.80665 m/s2
inline constexpr double kilograms_per_pound = 0.45359237;           ///< exact, international avoirdupois pound

[[nodiscard]] constexpr Angle angle_from_radians(double radians) { return Angle::from_value(radians); }
[[nodiscard]] constexpr Angle angle_from_degrees(double degrees) { return Angle::from_value(degrees * pi / 180.0); }
[[nodiscard]] constexpr double radians(Angle a) { return a.value(); }
[[nodiscard]] constexpr double degrees(Angle a) { return a.value() * 180.0 / pi; }

[[nodiscard]] constexpr double square_inches(Area a) { return a.value(); }
[[nodiscard]] constexpr double square_feet(Area a) { return a.value() / 144.0; }
[[nodiscard]] constexpr double square_metres(Area a) { return a.value() * 64516.0 / 100000000.0; }
/// Roofing squares of 100 square feet.
[[nodiscard]] constexpr double squares(Area a) { return a.value() / 14400.0; }
[[nodiscard]] constexpr Area area_from_square_feet(double v) { return Area::from_value(v * 144.0); }
[[nodiscard]] constexpr Area area_from_square_metres(double v) { return Area::from_value(v * 100000000.0 / 64516.0); }

[[nodiscard]] constexpr double cubic_inches(Volume v) { return v.value(); }
[[nodiscard]] constexpr double cubic_feet(Volume v) { return v.value() / 1728.0; }
[[nodiscard]] constexpr double cubic_metres(Volume v) { return v.value() * 16387064.0 / 1000000000000.0; }
/// 1 ft x 1 ft x 1 in.
[[nodiscard]] constexpr double board_feet(Volume v) { return v.value() / 144.0; }

[[nodiscard]] constexpr Force force_from_pounds(double pounds) { return Force::from_value(pounds); }
[[nodiscard]] constexpr Force force_from_newtons(double newtons) {
    return Force::from_value(newtons / newtons_per_pound_force);
}
[[nodiscard]] constexpr double pounds_force(Force f) { return f.value(); }
[[nodiscard]] constexpr double newtons(Force f) { return f.value() * newtons_per_pound_force; }

[[nodiscard]] constexpr Pressure pressure_from_psf(double psf) { return Pressure::from_value(psf / 144.0); }
[[nodiscard]] constexpr Pressure pressure_from_pascals(double pa) {
    return Pressure::from_value(pa * 0.00064516 / newtons_per_pound_force);
}
[[nodiscard]] constexpr double psf(Pressure p) { return p.value() * 144.0; }
[[nodiscard]] constexpr double pascals(Pressure p) { return p.value() * newtons_per_pound_force / 0.00064516; }

[[nodiscard]] constexpr Pressure pressure_from_psi(double psi) { return Pressure::from_value(psi); }
[[nodiscard]] constexpr double psi(Pressure p) { return p.value(); }
[[nodiscard]] constexpr double megapascals(Pressure p) { return pascals(p) / 1e6; }

[[nodiscard]] constexpr LineLoad line_load_from_pounds_per_foot(double plf) { return LineLoad::from_value(plf / 12.0); }
[[nodiscard]] constexpr LineLoad line_load_from_newtons_per_metre(double v) {
    return LineLoad::from_value(v * 0.0254 / newtons_per_pound_force);
}
[[nodiscard]] constexpr double pounds_per_inch(LineLoad w) { return w.value(); }
[[nodiscard]] constexpr double pounds_per_foot(LineLoad w) { return w.value() * 12.0; }
[[nodiscard]] constexpr double newtons_per_metre(LineLoad w) { return w.value() * newtons_per_pound_force / 0.0254; }

[[nodiscard]] constexpr double pound_inches(Moment m) { return m.value(); }
[[nodiscard]] constexpr double pound_feet(Moment m) { return m.value() / 12.0; }
[[nodiscard]] constexpr double newton_metres(Moment m) { return m.value() * newtons_per_pound_force * 0.0254; }
[[nodiscard]] constexpr double inches_to_the_fourth(SecondMoment i) { return i.value(); }

[[nodiscard]] constexpr SecondMoment operator*(Volume v, Length d) {
    return SecondMoment::from_value(v.value() * inches(d));
}
[[nodiscard]] constexpr SecondMoment operator*(Length d, Volume v) { return v * d; }
[[nodiscard]] constexpr LineLoad operator*(Pressure p, Length width) {
    return LineLoad::from_value(p.value() * inches(width));
}
[[nodiscard]] constexpr LineLoad operator*(Length width, Pressure p) { return p * width; }
[[nodiscard]] constexpr Force operator*(LineLoad w, Length length) {
    return Force::from_value(w.value() * inches(length));
}
[[nodiscard]] constexpr Force operator*(Length length, LineLoad w) { return w * length; }
[[nodiscard]] constexpr LineLoad operator/(Force f, Length length) {
    return LineLoad::from_value(f.value() / inches(length));
}
[[nodiscard]] constexpr Length operator/(Force f, LineLoad w) { return Length::from_inches(f.value() / w.value()); }
[[nodiscard]] constexpr Moment operator*(Force f, Length lever) {
    return Moment::from_value(f.value() * inches(lever));
}
[[nodiscard]] constexpr Moment operator*(Length lever, Force f) { return f * lever; }
[[nodiscard]] constexpr Pressure operator/(LineLoad w, Length width) {
    return Pressure::from_value(w.value() / inches(width));
}

[[nodiscard]] constexpr Mass mass_from_pounds(double pounds) { return Mass::from_value(pounds); }
[[nodiscard]] constexpr Mass mass_from_kilograms(double kg) { return Mass::from_value(kg / kilograms_per_pound); }
[[nodiscard]] constexpr double pounds(Mass m) { return m.value(); }
[[nodiscard]] constexpr double kilograms(Mass m) { return m.value() * kilograms_per_pound; }

}  // namespace eavewright
