// SPDX-License-Identifier: BSL-1.0
#pragma once

// One shift for a whole row of marks or post tops: by the mean, which leaves the least sum of squares, or by the middle
// of the extremes, which leaves the least worst one.

#include <eavewright/fault.hpp>
#include <eavewright/field.hpp>
#include <eavewright/units/length.hpp>

#include <array>
#include <cstddef>
#include <string_view>
#include <utility>
#include <vector>

namespace eavewright {

/// What "best" means where one line or one move serves several places.
enum class BestBy {
    least_squares,  ///< least sum of squares: uses every reading
    least_worst,    ///< the largest that is left is as small as it can be: a few readings decide
};
template <>
struct NamesOf<BestBy> {
    static constexpr std::array<std::string_view, 2> list{"least_squares", "least_worst"};
};

/// The one length that stands best for all of `offs`: their mean, or the middle between the least and the greatest.
/// At least one, each finite within the length limit: missing_field, out_of_range or not_finite otherwise.
[[nodiscard]] inline Length best_shift(const std::vector<Length>& offs, BestBy by) {
    detail::require_named(by, "by");
    Faults faults;
    if (offs.empty()) {
        faults.push_back(Fault{FaultCode::missing_field, "offs", "", "at least one length"});
    }
    for (std::size_t i = 0; i < offs.size(); ++i) {
        require_within(offs[i], Length::from_inches(-length_limit_in), Length::from_inches(length_limit_in),
                       Path{Path{"offs"}, i}, faults);
    }
    if (!faults.empty()) {
        throw FaultError{std::move(faults[0])};
    }
    Length sum = no_length;
    Length least = offs[0];
    Length greatest = offs[0];
    for (const Length off : offs) {
        sum += off;
        least = shorter(least, off);
        greatest = longer(greatest, off);
    }
    return by == BestBy::least_squares ? sum / static_cast<double>(offs.size()) : (least + greatest) / 2.0;
}

}  // namespace eavewright
