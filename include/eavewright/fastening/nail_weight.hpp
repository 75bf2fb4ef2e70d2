// SPDX-License-Identifier: BSL-1.0
#pragma once

// Nails by weight and by the pack: how many a pound, from their dimensions, and how many whole boxes, coils, strips or pounds
// cover a count.

#include <eavewright/fastening/nail_sizes.hpp>
#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/count.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace eavewright {

/// Steel, in pounds a cubic inch: 490 lb a cubic foot.
inline constexpr double steel_pounds_per_cubic_inch = 0.2836;

/// The mass of one nail as a plain cylinder of its shank: what the head adds, the point takes away. Published counts of nails a
/// pound of today's tables agree with it, and with each other, within 12 percent. Throws `FaultError` with the first fault of the nail.
[[nodiscard]] inline Mass nail_mass(const NailShank& nail) {
    require_sound(nail, "nail");
    const Volume cylinder = nail.diameter * nail.diameter * nail.length * (pi / 4.0);
    return mass_from_pounds(cubic_inches(cylinder) * steel_pounds_per_cubic_inch);
}
/// Nails a pound, as a plain cylinder. Throws as `nail_mass`.
[[nodiscard]] inline double nails_per_pound(const NailShank& nail) { return 1.0 / pounds(nail_mass(nail)); }

/// What a counted pack is called.
enum class NailPack { box, coil, strip };
template <>
struct NamesOf<NailPack> {
    static constexpr std::array<std::string_view, 3> list{"box", "coil", "strip"};
};

/// A pack that says how many nails it holds.
struct CountedNails {
    NailPack pack;
    std::int64_t count;
};
/// A pack that says how much it weighs.
struct WeighedNails {
    Mass mass;
    std::optional<double> per_pound = std::nullopt;  ///< as printed on it; none: from the nail's dimensions
};
/// One pack, as nails are sold.
using NailPackage = std::variant<CountedNails, WeighedNails>;

/// Most nails of one purchase, or of one pack.
inline constexpr std::int64_t most_bought_nails = 1'000'000'000;

inline void find_faults(const CountedNails& pack, const Path& path, Faults& faults) {
    detail::require_named(pack.pack, Path{path, "pack"}, faults);
    if (pack.count < 1 || pack.count > most_bought_nails) {
        faults.push_back(Fault{FaultCode::out_of_range, Path{path, "count"}.text(), std::to_string(pack.count),
                               "1 to " + std::to_string(most_bought_nails)});
    }
}
inline void find_faults(const WeighedNails& pack, const Path& path, Faults& faults) {
    const auto require = [&](double value, double lowest, double highest, const char* name) {
        if (!(value >= lowest && value <= highest)) {
            faults.push_back(Fault{std::isfinite(value) ? FaultCode::out_of_range : FaultCode::not_finite,
                                   Path{path, name}.text(), write_decimal(value, 6),
                                   write_decimal(lowest, 3) + " to " + write_decimal(highest, 0)});
        }
    };
    require(pounds(pack.mass), 0.01, 1e5, "mass");
    if (pack.per_pound) {
        require(*pack.per_pound, 0.1, 1e5, "per_pound");
    }
}

/// Nails bought in whole packs.
struct NailPurchase {
    std::int64_t placed;
    std::int64_t spare;   ///< on top of it, whole nails, rounded up; nothing unless asked
    std::int64_t needed;  ///< placed and spare
    std::int64_t packs;
    std::int64_t bought;     ///< what these packs hold
    std::int64_t left_over;  ///< bought, less what is placed
    Mass mass;               ///< of what is bought
    double per_pound;
    bool estimated;  ///< that count or mass rests on the nail's dimensions, within 12 percent
};
template <>
struct FieldsOf<NailPurchase> {
    static constexpr auto list =
        field_list(field("placed", FieldUnit::count, "nails placed", &NailPurchase::placed),
                   field("spare", FieldUnit::count, "on top of it, nothing unless asked", &NailPurchase::spare),
                   field("needed", FieldUnit::count, "placed and spare", &NailPurchase::needed),
                   field("packs", FieldUnit::count, "whole packs to buy", &NailPurchase::packs),
                   field("bought", FieldUnit::count, "nails that they hold", &NailPurchase::bought),
                   field("left_over", FieldUnit::count, "bought, less what is placed", &NailPurchase::left_over),
                   field(
                       "mass_pounds", FieldUnit::ratio, "mass of what is bought in pounds",
                       +[](const NailPurchase& p) { return pounds(p.mass); }),
                   field("per_pound", FieldUnit::ratio, "nails a pound", &NailPurchase::per_pound),
                   field("estimated", FieldUnit::none, "rests on the nail's dimensions, within 12 percent",
                         &NailPurchase::estimated));
};

namespace detail {
struct PacksAndNails {
    std::int64_t packs;
    std::int64_t nails;
};
[[nodiscard]] inline PacksAndNails packs_of(std::int64_t needed, const CountedNails& pack) {
    const std::int64_t packs = needed == 0 ? 0 : (needed - 1) / pack.count + 1;
    return {packs, packs * pack.count};
}
/// Weighed packs are poured together: only their sum is rounded down to whole nails.
[[nodiscard]] inline PacksAndNails packs_of(std::int64_t needed, Mass mass, double per_pound) {
    constexpr double slack = 1e-6;  // of a nail: 5 kg come a bit under a whole number
    const double each = pounds(mass) * per_pound;
    const double packs = std::ceil((static_cast<double>(needed) - slack) / each);
    if (!(packs <= static_cast<double>(most_bought_nails))) {
        throw FaultError{Fault{FaultCode::too_much_work, "package", write_decimal(packs, 0) + " packs",
                               "no more than " + std::to_string(most_bought_nails)}};
    }
    const double counted = packs > 0.0 ? packs : 0.0;
    return {static_cast<std::int64_t>(counted), static_cast<std::int64_t>(std::floor(counted * each + slack))};
}
}  // namespace detail

/// Whole packs that cover `placed` nails and a share of spare ones for those dropped and bent: 0 unless asked, 0.2 in the
/// US Army's estimating tables (EN0069, Table 4-1). Never short, and no pack too many. Throws `FaultError`: the first fault of the
/// nail or the package, out_of_range or not_finite for a count outside 0 to `most_bought_nails` or a share outside 0 to 1,
/// too_much_work for more packs than that.
[[nodiscard]] inline NailPurchase buy_nails(std::int64_t placed, const NailShank& nail, const NailPackage& package,
                                            double spare_share = 0.0) {
    std::visit([](const auto& pack) { require_sound(pack, "package"); }, package);
    if (placed < 0 || placed > most_bought_nails) {
        throw FaultError{Fault{FaultCode::out_of_range, "placed", std::to_string(placed),
                               "0 to " + std::to_string(most_bought_nails)}};
    }
    if (!(spare_share >= 0.0 && spare_share <= 1.0)) {
        throw FaultError{Fault{std::isfinite(spare_share) ? FaultCode::out_of_range : FaultCode::not_finite,
                               "spare_share", write_decimal(spare_share, 6), "0 to 1"}};
    }
    const WeighedNails* const weighed = std::get_if<WeighedNails>(&package);
    const bool printed = weighed != nullptr && weighed->per_pound.has_value();
    const double per_pound = printed ? *weighed->per_pound : nails_per_pound(nail);
    const auto spare = static_cast<std::int64_t>(std::ceil(static_cast<double>(placed) * spare_share - 1e-6));
    const std::int64_t needed = placed + spare;
    const detail::PacksAndNails bought = weighed != nullptr ? detail::packs_of(needed, weighed->mass, per_pound)
                                                            : detail::packs_of(needed, std::get<CountedNails>(package));
    const Mass mass = weighed != nullptr ? weighed->mass * static_cast<double>(bought.packs)
                                         : mass_from_pounds(static_cast<double>(bought.nails) / per_pound);
    return NailPurchase{.placed = placed,
                        .spare = spare,
                        .needed = needed,
                        .packs = bought.packs,
                        .bought = bought.nails,
                        .left_over = bought.nails - placed,
                        .mass = mass,
                        .per_pound = per_pound,
                        .estimated = !printed};
}

namespace detail {
[[nodiscard]] inline Mass rough_nails(double pounds_a_penny, Penny penny, Volume lumber) {
    constexpr std::array<double, penny_count> pennies{6, 7, 8, 10, 12, 16, 20, 30, 40, 50, 60};
    require_named(penny, "penny");
    const double thousands = board_feet(lumber) / 1000.0;
    if (!(thousands >= 0.0 && thousands <= 1e6)) {
        throw FaultError{Fault{std::isfinite(thousands) ? FaultCode::out_of_range : FaultCode::not_finite, "lumber",
                               write_decimal(thousands, 3) + " thousand board feet", "0 to 1000000 thousand"}};
    }
    return mass_from_pounds(pounds_a_penny * pennies[static_cast<std::size_t>(penny)] * thousands);
}
}  // namespace detail

/// A first guess of nails by the lumber, before anything is laid out: 1.67 d pounds a thousand board feet of framing, d the
/// penny (US Army EN0069). Good to a tenth at best; a count is better. Throws `FaultError` for a negative or endless volume,
/// unknown_name for a number that is no penny.
[[nodiscard]] inline Mass rough_framing_nails(Penny penny, Volume lumber) {
    return detail::rough_nails(1.67, penny, lumber);
}
/// The same for boards on a frame: 2.5 d pounds a thousand board feet.
[[nodiscard]] inline Mass rough_sheathing_nails(Penny penny, Volume boards) {
    return detail::rough_nails(2.5, penny, boards);
}

}  // namespace eavewright
