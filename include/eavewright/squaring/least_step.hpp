// SPDX-License-Identifier: BSL-1.0
#pragma once

// The shortest step that lies within a set of half-spaces: the dual method of Goldfarb and Idnani (1983) for a sum of
// squares. It starts from no step at all and takes in one broken bound after the other, so that it ends, and it tells
// when the bounds leave nothing.

#include <eavewright/squaring/row_basis.hpp>

#include <cstddef>
#include <vector>

namespace eavewright::squaring_detail {

/// All steps u with row . u >= bound.
struct HalfSpace {
    Row row;
    double bound;
};

struct LeastStep {
    bool found;  ///< false: the bounds leave nothing, or rounding kept it from an end
    Row step;
    Row pressure;  ///< of each bound on the step: 0 where it does not press
};

/// How far a bound may be broken by rounding, in the units of the step.
inline constexpr double least_step_slack = 1e-12;

namespace least_step_parts {

/// The bound that is broken most, or `sides.size()`.
[[nodiscard]] inline std::size_t most_broken(const std::vector<HalfSpace>& sides, const Row& step) {
    std::size_t worst = sides.size();
    double most = 0.0;
    for (std::size_t i = 0; i < sides.size(); ++i) {
        const double size = norm(sides[i].row);
        const double broken = sides[i].bound - dot(sides[i].row, step);
        const double allowed = least_step_slack * size + 1e-14 * std::fabs(sides[i].bound);
        if (broken > allowed && size > 0.0 && broken / size > most) {
            most = broken / size;
            worst = i;
        }
    }
    return worst;
}

/// Moves onto one broken bound, letting go of those that would have to hold the step back. False: it cannot be met.
[[nodiscard]] inline bool take_in(const std::vector<HalfSpace>& sides, std::size_t taken, LeastStep& here,
                                  std::vector<std::size_t>& pressing) {
    const HalfSpace& side = sides[taken];
    const double size = norm(side.row);
    for (std::size_t round = 0; round <= 2 * sides.size() + 2; ++round) {
        RowBasis basis{side.row.size(), 1e-11};
        for (const std::size_t each : pressing) {
            if (!basis.add(sides[each].row)) {
                return false;  // rounding: a pressing bound became dependent
            }
        }
        const Row way = basis.remainder(side.row);
        const Row eased = basis.factors(basis.coordinates(side.row));
        const double gained = dot(way, way);
        std::size_t let_go = pressing.size();
        double first = 0.0;
        for (std::size_t i = 0; i < pressing.size(); ++i) {
            if (eased[i] > 0.0 && (let_go == pressing.size() || here.pressure[pressing[i]] / eased[i] < first)) {
                first = here.pressure[pressing[i]] / eased[i];
                let_go = i;
            }
        }
        const bool reaches = gained > 1e-20 * size * size;
        const double whole = reaches ? (side.bound - dot(side.row, here.step)) / gained : 0.0;
        if (!reaches && let_go == pressing.size()) {
            return false;
        }
        const bool all = reaches && (let_go == pressing.size() || whole <= first);
        const double by = all ? whole : first;
        if (reaches) {
            add_times(here.step, by, way);
        }
        for (std::size_t i = 0; i < pressing.size(); ++i) {
            here.pressure[pressing[i]] -= by * eased[i];
        }
        here.pressure[taken] += by;
        if (all) {
            pressing.push_back(taken);
            return true;
        }
        here.pressure[pressing[let_go]] = 0.0;
        pressing.erase(pressing.begin() + static_cast<std::ptrdiff_t>(let_go));
    }
    return false;
}

}  // namespace least_step_parts

/// The shortest u of `width` numbers within all `sides`.
[[nodiscard]] inline LeastStep least_step(std::size_t width, const std::vector<HalfSpace>& sides) {
    LeastStep here{true, Row(width, 0.0), Row(sides.size(), 0.0)};
    std::vector<std::size_t> pressing;
    for (std::size_t round = 0; round < 20 * (sides.size() + 1); ++round) {
        const std::size_t worst = least_step_parts::most_broken(sides, here.step);
        if (worst == sides.size()) {
            return here;
        }
        bool known = false;
        for (const std::size_t each : pressing) {
            known = known || each == worst;
        }
        if (known) {
            return here;  // only rounding is left
        }
        if (!least_step_parts::take_in(sides, worst, here, pressing)) {
            break;
        }
    }
    here.found = false;
    return here;
}

}  // namespace eavewright::squaring_detail
