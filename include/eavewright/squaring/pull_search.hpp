// SPDX-License-Identifier: BSL-1.0
#pragma once

// Which straps bring a frame closest to what it should be. A way that several straps make is also made by an
// independent few of them (Caratheodory), so that trying every independent set finds the best there is.

#include <eavewright/squaring/pull_settling.hpp>

#include <cmath>
#include <cstddef>
#include <optional>
#include <vector>

namespace eavewright::squaring_detail {

[[nodiscard]] inline bool better_pulled(const Pulled& one, const Pulled& other, PullChoice choice) {
    if (choice == PullChoice::fewest_straps && (one.within() || other.within())) {
        return one.within() && (!other.within() || one.movement < other.movement - 1e-7);
    }
    for (std::size_t i = 0; i < one.shares.size(); ++i) {
        if (std::fabs(one.shares[i] - other.shares[i]) > 1e-6) {
            return one.shares[i] < other.shares[i];
        }
    }
    return one.movement < other.movement - 1e-7;
}

/// The best of every independent set of straps.
template <MeasuredPlace Place>
[[nodiscard]] Pulled best_pulled(const PullSettling<Place>& frame, const std::vector<std::size_t>& conditions,
                                 PullChoice choice, const PullRules& rules) {
    Pulled best = frame.left_alone(conditions);
    const std::size_t count = frame.as_found().straps.size();
    const std::size_t most = frame.independent_straps().size();
    for (std::size_t size = 1; size <= most; ++size) {
        if (choice == PullChoice::fewest_straps && best.within()) {
            break;
        }
        for (std::size_t mask = 0; mask < (std::size_t{1} << count); ++mask) {
            std::vector<std::size_t> straps;
            for (std::size_t s = 0; s < count; ++s) {
                if ((mask >> s & 1U) != 0) {
                    straps.push_back(s);
                }
            }
            if (straps.size() != size) {
                continue;
            }
            const std::optional<Pulled> here = frame.pulled_by(straps, conditions, rules);
            if (here && better_pulled(*here, best, choice)) {
                best = *here;
            }
        }
    }
    return best;
}

}  // namespace eavewright::squaring_detail
