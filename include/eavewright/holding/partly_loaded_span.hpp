// SPDX-License-Identifier: BSL-1.0
#pragma once

// A simple span with one load all along and another over a stretch of it: reactions and the greatest moment, closed form.

#include <eavewright/units/length.hpp>
#include <eavewright/units/quantities.hpp>

namespace eavewright {

/// What lies on one simple span, in one direction. `from` <= `to` lie within it, loads are not below 0; plain arithmetic,
/// checked where its figures come in.
struct PartlyLoadedSpan {
    Length span;
    Length from;     ///< start of the stretch
    Length to;       ///< end of it
    LineLoad stack;  ///< on that stretch
    LineLoad dead;   ///< all along

    /// Reaction at the left end.
    [[nodiscard]] Force left() const {
        const Length centre = (from + to) / 2.0;
        return stack * (to - from) * ((span - centre) / span) + dead * (span / 2.0);
    }
    [[nodiscard]] Force right() const { return stack * (to - from) + dead * span - left(); }
    /// Where shear passes zero the moment is greatest; moment there.
    [[nodiscard]] Moment greatest_moment() const {
        const Force shear_from = left() - dead * from;
        const Force shear_to = right() - dead * (span - to);
        if (pounds_force(shear_from) <= 0.0) {  // before the stack: the dead load alone, from the left
            return half_of_square(left(), dead);
        }
        if (pounds_force(shear_to) <= 0.0) {
            return half_of_square(right(), dead);
        }
        const Length past = shear_from / (stack + dead);
        return left() * (from + past) - dead * (from + past) * ((from + past) / 2.0) - stack * past * (past / 2.0);
    }

private:
    [[nodiscard]] static Moment half_of_square(Force end, LineLoad w) {
        return pounds_force(end) <= 0.0 ? end * no_length : end * (end / w / 2.0);
    }
};

}  // namespace eavewright
