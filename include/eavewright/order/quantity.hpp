// SPDX-License-Identifier: BSL-1.0
#pragma once

// How much of an article: pieces, a length or an area. And how many packs cover it.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace eavewright {

/// What an article is counted in where it is placed.
enum class PlacedBy {
    piece,   ///< panels, nails, trim
    length,  ///< sealant, coil, closures by the run
    area,    ///< underlayment by the square
};
template <>
struct NamesOf<PlacedBy> {
    static constexpr std::array<std::string_view, 3> list{"piece", "length", "area"};
};

/// Most pieces that one demand names, or that a pack holds.
inline constexpr std::int64_t most_placed_pieces = 1'000'000'000;
/// Longest length of one demand or pack: 5,000,000 in, half of what a length holds, so that a spare share fits as well.
inline constexpr Length longest_placed = Length::from_inches(length_limit_in / 2.0);
/// Largest area of one demand or pack: 5,000,000 square feet.
inline constexpr Area largest_placed = area_from_square_feet(length_limit_in / 2.0);

/// Pieces, a length or an area. Sums and differences are of like with like (else `FaultError` contradiction); pieces stay
/// whole and exact, within 10^15 either way (else out_of_range).
class Quantity {
public:
    [[nodiscard]] static Quantity of_pieces(std::int64_t pieces) {
        if (pieces < -most_exact || pieces > most_exact) {
            throw FaultError{Fault{FaultCode::out_of_range, "quantity", std::to_string(pieces) + " pieces",
                                   "within " + std::to_string(most_exact) + " pieces either way"}};
        }
        return Quantity{PlacedBy::piece, pieces, 0.0};
    }
    [[nodiscard]] static Quantity of_length(Length length) { return Quantity{PlacedBy::length, 0, inches(length)}; }
    [[nodiscard]] static Quantity of_area(Area area) { return Quantity{PlacedBy::area, 0, square_inches(area)}; }
    /// Nothing of `unit`.
    [[nodiscard]] static Quantity none(PlacedBy unit) { return Quantity{unit, 0, 0.0}; }

    [[nodiscard]] PlacedBy unit() const noexcept { return unit_; }
    /// The pieces; none where it is a length or an area. The other two likewise.
    [[nodiscard]] std::optional<std::int64_t> pieces() const {
        return unit_ == PlacedBy::piece ? std::optional<std::int64_t>{pieces_} : std::nullopt;
    }
    [[nodiscard]] std::optional<Length> length() const {
        return unit_ == PlacedBy::length ? std::optional<Length>{one_inch * amount_} : std::nullopt;
    }
    [[nodiscard]] std::optional<Area> area() const {
        return unit_ == PlacedBy::area ? std::optional<Area>{Area::from_value(amount_)} : std::nullopt;
    }
    /// Pieces, inches or square feet as a bare number, for ratios and texts.
    [[nodiscard]] double number() const noexcept {
        return unit_ == PlacedBy::piece ? static_cast<double>(pieces_)
                                        : (unit_ == PlacedBy::area ? amount_ / 144.0 : amount_);
    }

    friend Quantity operator+(Quantity a, Quantity b) {
        require_alike(a, b);
        return a.unit_ == PlacedBy::piece ? of_pieces(a.pieces_ + b.pieces_)
                                          : Quantity{a.unit_, 0, a.amount_ + b.amount_};
    }
    friend Quantity operator-(Quantity a, Quantity b) {
        require_alike(a, b);
        return a.unit_ == PlacedBy::piece ? of_pieces(a.pieces_ - b.pieces_)
                                          : Quantity{a.unit_, 0, a.amount_ - b.amount_};
    }
    /// `count` packs of this much; count from 0 to `most_steps`.
    friend Quantity operator*(Quantity pack, std::int64_t count) {
        const bool fits =
            count >= 0 && count <= most_steps && pack.pieces_ >= 0 && pack.pieces_ <= most_exact / most_steps;
        if (!fits) {
            throw FaultError{Fault{FaultCode::out_of_range, "quantity", std::to_string(count) + " times",
                                   "0 to " + std::to_string(most_steps) + " times, at most " +
                                       std::to_string(most_exact / most_steps) + " pieces"}};
        }
        return Quantity{pack.unit_, pack.pieces_ * count, pack.amount_ * static_cast<double>(count)};
    }
    /// Same unit and same amount, to the last bit.
    friend bool operator==(Quantity, Quantity) = default;

private:
    static constexpr std::int64_t most_exact = 1'000'000'000'000'000;

    Quantity(PlacedBy unit, std::int64_t pieces, double amount) noexcept
        : unit_{unit}, pieces_{pieces}, amount_{amount} {}
    static void require_alike(Quantity a, Quantity b) {
        if (a.unit_ != b.unit_) {
            throw FaultError{Fault{FaultCode::contradiction, "quantity", std::string{name_of(b.unit_)},
                                   std::string{name_of(a.unit_)} + ", as the other"}};
        }
    }

    PlacedBy unit_;
    std::int64_t pieces_;
    double amount_;  ///< inches or square inches
};
template <>
struct FieldsOf<Quantity> {
    static constexpr auto list =
        field_list(field("unit", FieldUnit::none, "what it is counted in", &Quantity::unit),
                   field("pieces", FieldUnit::count, "pieces, null where it is a length or an area", &Quantity::pieces),
                   field("length", FieldUnit::length, "length, null where it is pieces or an area", &Quantity::length),
                   field("area", FieldUnit::area, "area, null where it is pieces or a length", &Quantity::area));
};

/// A quantity as the text of a fault shows it.
[[nodiscard]] inline std::string describe_quantity(Quantity quantity) {
    switch (quantity.unit()) {
        case PlacedBy::piece: return std::to_string(quantity.pieces().value_or(0)) + " pieces";
        case PlacedBy::length: return describe_length(quantity.length().value_or(no_length));
        default: return write_decimal(quantity.number(), 6) + " sq ft";
    }
}

/// Adds a fault unless `quantity` is counted in `unit`, finite, and within what one demand or pack may hold: 0 to
/// `most_placed_pieces`, `longest_placed` or `largest_placed`. A `positive` one is at least one piece, or longer than
/// `count_tolerance`, or that much of a square foot.
inline void require_quantity(Quantity quantity, PlacedBy unit, bool positive, const Path& path, Faults& faults) {
    if (quantity.unit() != unit) {
        faults.push_back(Fault{FaultCode::contradiction, path.text(), std::string{name_of(quantity.unit())},
                               std::string{name_of(unit)} + ", which its pack is counted in"});
        return;
    }
    const bool whole = unit == PlacedBy::piece;
    const double lowest = positive ? (whole ? 1.0 : 2.0 * inches(count_tolerance)) : 0.0;
    const double highest = whole ? static_cast<double>(most_placed_pieces) : length_limit_in / 2.0;
    if (!(quantity.number() >= lowest && quantity.number() <= highest)) {
        const std::string words = unit == PlacedBy::length ? " in" : (whole ? " pieces" : " sq ft");
        faults.push_back(Fault{std::isfinite(quantity.number()) ? FaultCode::out_of_range : FaultCode::not_finite,
                               path.text(), describe_quantity(quantity),
                               (positive ? "more than 0, at most " : "0 to ") + write_decimal(highest, 0) + words});
    }
}

/// How many whole packs cover `needed`; 0 where that is nothing. Pieces are counted exactly, lengths and areas (in square
/// feet) as `steps_to_cover` does: n packs reach, n - 1 do not. Throws `FaultError` as that does; contradiction where the
/// two are counted in different units, out_of_range for a pack of no pieces.
[[nodiscard]] inline std::int64_t packs_to_cover(Quantity needed, Quantity pack) {
    (void)(needed + Quantity::none(pack.unit()));  // like with like
    if (pack.unit() != PlacedBy::piece) {
        return steps_to_cover(one_inch * needed.number(), one_inch * pack.number());
    }
    const std::int64_t pieces = needed.pieces().value_or(0);
    const std::int64_t held = pack.pieces().value_or(0);
    if (held < 1) {
        throw FaultError{Fault{FaultCode::out_of_range, "pack", describe_quantity(pack), "at least 1 piece"}};
    }
    const std::int64_t packs = pieces <= 0 ? 0 : (pieces - 1) / held + 1;
    if (packs > most_steps) {
        throw FaultError{Fault{FaultCode::too_much_work, "pack", std::to_string(packs) + " packs",
                               "no more than " + std::to_string(most_steps)}};
    }
    return packs;
}

/// Whole pieces in a box sold by weight, rounded down: nails by the pound. Published counts per pound differ by an eighth,
/// so `pieces_per_pound` is read off the box. Throws `FaultError` not_finite or out_of_range where the product is not
/// 1 to `most_placed_pieces`.
[[nodiscard]] inline Quantity pieces_by_mass(Mass pack, double pieces_per_pound) {
    const double pieces = std::floor(pounds(pack) * pieces_per_pound + 1e-6);  // 5 kg come a bit under a whole number
    if (!(pieces >= 1.0 && pieces <= static_cast<double>(most_placed_pieces) && pieces_per_pound > 0.0)) {
        throw FaultError{Fault{std::isfinite(pieces) ? FaultCode::out_of_range : FaultCode::not_finite, "pieces",
                               write_decimal(pieces, 0), "1 to " + std::to_string(most_placed_pieces)}};
    }
    return Quantity::of_pieces(static_cast<std::int64_t>(pieces));
}

}  // namespace eavewright
