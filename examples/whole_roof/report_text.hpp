// SPDX-License-Identifier: BSL-1.0
#pragma once

// How the report writes a figure: the tick and the stream are the same on every line.

#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>
#include <eavewright/units/tick.hpp>
#include <eavewright/units/write_tape.hpp>

#include <cstddef>
#include <iomanip>
#include <ostream>
#include <string>
#include <string_view>

struct ReportText {
    std::ostream& out;
    eavewright::Tick tick;

    [[nodiscard]] std::string of(eavewright::Length length) const { return eavewright::write_length(length, tick); }
    [[nodiscard]] std::string of_decimal(eavewright::Length length) const {
        return tick.is_metric() ? eavewright::write_decimal(eavewright::millimetres(length), 2) + " mm"
                                : eavewright::write_decimal(eavewright::inches(length), 4) + " in";
    }
    [[nodiscard]] std::string area(eavewright::Area a) const {
        return tick.is_metric() ? eavewright::write_decimal(eavewright::square_metres(a), 2) + " m2"
                                : eavewright::write_decimal(eavewright::square_feet(a), 1) + " sq ft, " +
                                      eavewright::write_decimal(eavewright::squares(a), 2) + " squares";
    }
    [[nodiscard]] std::string mass(eavewright::Mass m) const {
        return tick.is_metric() ? eavewright::write_decimal(eavewright::kilograms(m), 1) + " kg"
                                : eavewright::write_decimal(eavewright::pounds(m), 1) + " lb";
    }
    void line(const std::string& what, const std::string& figure) const {
        out << "  " << std::left << std::setw(22) << what << figure << "\n";
    }
    [[nodiscard]] static std::string words(std::string_view name) {
        std::string text{name};
        for (char& c : text) {
            c = c == '_' ? ' ' : c;
        }
        return text;
    }
};

/// A share as a whole number of hundredths.
[[nodiscard]] inline std::string percent(double share) { return eavewright::write_decimal(share * 100.0, 0) + " %"; }
/// What stands in one column, its blanks after it.
[[nodiscard]] inline std::string column(const std::string& words, std::size_t width) {
    return words + std::string(words.size() < width ? width - words.size() : 1, ' ');
}
