// SPDX-License-Identifier: BSL-1.0
#pragma once

// Decimal numbers as text, without locale and without the floating-point <charconv> that the web build lacks.

#include <cmath>
#include <cstdint>
#include <string>

namespace eavewright {

/// Most decimal places that `write_decimal` gives.
inline constexpr int most_decimal_places = 12;

/// `value` with at most `places` decimals (0 to 12), trailing zeros dropped, ties away from zero.
/// Same text on every machine. Magnitudes whose scaled value passes 2^53 lose places, not digits;
/// NaN and infinity come out as "nan" and "inf". Negative zero is written as "0".
[[nodiscard]] inline std::string write_decimal(double value, int places) {
    if (std::isnan(value)) {
        return "nan";
    }
    if (std::isinf(value)) {
        return value < 0 ? "-inf" : "inf";
    }
    constexpr double exact_limit = 9007199254740992.0;  // 2^53: above it a double has no fraction left
    const double magnitude = std::fabs(value);
    int kept = places < 0 ? 0 : (places > most_decimal_places ? most_decimal_places : places);
    double scale = 1.0;
    for (int i = 0; i < kept; ++i) {
        scale *= 10.0;
    }
    while (kept > 0 && magnitude * scale >= exact_limit) {
        scale /= 10.0;
        --kept;
    }
    if (magnitude >= exact_limit) {
        return value < 0 ? "-9007199254740992 or less" : "9007199254740992 or more";
    }
    const auto scaled = static_cast<std::int64_t>(std::round(magnitude * scale));
    const auto unit = static_cast<std::int64_t>(scale);
    std::string text = std::to_string(scaled / unit);
    if (kept > 0 && scaled % unit != 0) {
        std::string fraction = std::to_string(scaled % unit);
        fraction.insert(0, static_cast<std::size_t>(kept) - fraction.size(), '0');
        fraction.erase(fraction.find_last_not_of('0') + 1);
        text += "." + fraction;
    }
    return (value < 0 && scaled != 0) ? "-" + text : text;
}

}  // namespace eavewright
