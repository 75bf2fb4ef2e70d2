// SPDX-License-Identifier: BSL-1.0
#pragma once

// Cuts along an axis, rounded to the tick so that they still add up.

#include <eavewright/units/count.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/tick.hpp>

namespace eavewright::detail {

/// Cuts on one axis, each rounded so that it ends as near as the tick allows to where it should: what the cuts before it
/// missed is made good by the next, so that nothing piles up.
class RoundedAxis {
public:
    RoundedAxis(Length origin, Length gap, Tick tick) : origin_{origin}, gap_{gap}, tick_{tick} {}

    /// Rounded size of a piece from `low` to `high`, the next one along the axis: a multiple of the tick, whatever the gap.
    /// A size that comes `uncut` from the sheet stays what it is.
    [[nodiscard]] Length cut(Length low, Length high, Length uncut) {
        const bool follows = has_last_ && magnitude(low - last_exact_ - gap_) < count_tolerance;
        const Length from = follows ? last_ + gap_ : low - origin_;
        if (!has_last_) {
            first_ = from;
            first_exact_ = low;
        }
        last_exact_ = high;
        const bool is_uncut = magnitude(high - low - uncut) < count_tolerance;
        const Length size = is_uncut ? uncut : shorter(round_to_tick(high - origin_ - from, tick_), uncut);
        last_ = from + size;
        has_last_ = true;
        return size;
    }
    /// By how much the rounded pieces and gaps so far miss the exact distance.
    [[nodiscard]] Length miss() const {
        return has_last_ ? (last_ - first_) - (last_exact_ - first_exact_) : no_length;
    }

private:
    Length origin_;
    Length gap_;
    Tick tick_;
    bool has_last_ = false;
    Length first_ = no_length;
    Length first_exact_ = no_length;
    Length last_ = no_length;
    Length last_exact_ = no_length;
};

}  // namespace eavewright::detail
