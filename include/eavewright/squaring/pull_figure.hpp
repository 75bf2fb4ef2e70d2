// SPDX-License-Identifier: BSL-1.0
#pragma once

// The figure of a frame in numbers: coordinates of all points, what each may do, distances and misfits, and how they
// change when points go a little.

#include <eavewright/squaring/pulls.hpp>
#include <eavewright/squaring/row_basis.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <variant>
#include <vector>

namespace eavewright::squaring_detail {

template <MeasuredPlace Place>
class PullFigure {
public:
    static constexpr std::size_t dimension = coordinate_count<Place>;

    explicit PullFigure(const PullFrame<Place>& frame) : frame_{frame} {
        for (std::size_t p = 0; p < frame.points.size(); ++p) {
            first_.push_back(ways_.size());
            for (const double each : numbers_of(frame.points[p].about)) {
                found_.push_back(each);
            }
            if (const auto* along = std::get_if<FreeAlong<Place>>(&frame.points[p].freedom)) {
                ways_.push_back(Way{p, step_between<dimension>({}, numbers_of(along->direction)).direction});
            } else if (std::holds_alternative<Free>(frame.points[p].freedom)) {
                for (std::size_t i = 0; i < dimension; ++i) {
                    ways_.push_back(Way{p, {}});
                    ways_.back().direction[i] = 1.0;
                }
            }
        }
        first_.push_back(ways_.size());
    }

    [[nodiscard]] const PullFrame<Place>& frame() const { return frame_; }
    [[nodiscard]] std::size_t unknowns() const { return ways_.size(); }
    [[nodiscard]] const Row& found() const { return found_; }

    /// All coordinates once the free ones have gone `way` from where they were found.
    [[nodiscard]] Row at(const Row& way) const {
        Row x = found_;
        for (std::size_t w = 0; w < ways_.size(); ++w) {
            add_times(x.data() + ways_[w].point * dimension, way[w], ways_[w].direction.data(), dimension);
        }
        return x;
    }
    /// A row over all coordinates as a row over the unknowns.
    [[nodiscard]] Row of_unknowns(const Row& row) const {
        Row reduced(ways_.size(), 0.0);
        for (std::size_t w = 0; w < ways_.size(); ++w) {
            reduced[w] = dot(row.data() + ways_[w].point * dimension, ways_[w].direction.data(), dimension);
        }
        return reduced;
    }
    /// The row that gives how far point `p` goes along its own way `step`, a row over the unknowns.
    [[nodiscard]] Row along_way_of(std::size_t p, const Row& way) const {
        Row row(ways_.size(), 0.0);
        for (std::size_t w = 0; w < ways_.size(); ++w) {
            row[w] = ways_[w].point == p ? way[w] : 0.0;
        }
        const double length = norm(row);
        for (double& each : row) {
            each = length > 0.0 ? each / length : 0.0;
        }
        return row;
    }

    [[nodiscard]] StepBetween<dimension> step(const Row& x, std::size_t from, std::size_t to) const {
        return step_between(point(x, from), point(x, to));
    }
    [[nodiscard]] double distance(const Row& x, std::size_t from, std::size_t to) const {
        return step(x, from, to).length;
    }
    [[nodiscard]] Row distance_row(const Row& x, std::size_t from, std::size_t to) const {
        Row row(found_.size(), 0.0);
        add_distance(row, x, from, to, 1.0);
        return row;
    }

    /// The same over the unknowns: most of what a search asks for.
    [[nodiscard]] Row distance_row_of_unknowns(const Row& x, std::size_t from, std::size_t to) const {
        Row row(ways_.size(), 0.0);
        const auto way = step(x, from, to);
        for (std::size_t w = first_[from]; w < first_[from + 1]; ++w) {
            row[w] = -dot(way.direction.data(), ways_[w].direction.data(), dimension);
        }
        for (std::size_t w = first_[to]; w < first_[to + 1]; ++w) {
            row[w] = dot(way.direction.data(), ways_[w].direction.data(), dimension);
        }
        return row;
    }

    [[nodiscard]] ConditionReading reading(const Row& x, const PullCondition& condition) const {
        double first = 0.0;
        double second = 0.0;
        if (const auto* equal = std::get_if<EqualDistances>(&condition)) {
            first = distance(x, equal->a, equal->b);
            second = distance(x, equal->c, equal->d);
        } else if (const auto* wanted = std::get_if<WantedDistance>(&condition)) {
            first = distance(x, wanted->a, wanted->b);
            second = inches(wanted->target);
        } else {
            first = offset(x, std::get<OnLine>(condition)).off;
        }
        return ConditionReading{one_inch * first, one_inch * second, one_inch * (first - second)};
    }
    [[nodiscard]] double misfit(const Row& x, const PullCondition& condition) const {
        return inches(reading(x, condition).misfit);
    }
    /// Of the misfit, over all coordinates.
    [[nodiscard]] Row misfit_row(const Row& x, const PullCondition& condition) const {
        Row row(found_.size(), 0.0);
        if (const auto* equal = std::get_if<EqualDistances>(&condition)) {
            add_distance(row, x, equal->a, equal->b, 1.0);
            add_distance(row, x, equal->c, equal->d, -1.0);
        } else if (const auto* wanted = std::get_if<WantedDistance>(&condition)) {
            add_distance(row, x, wanted->a, wanted->b, 1.0);
        } else {
            const OnLine& line = std::get<OnLine>(condition);
            const Offset here = offset(x, line);
            add_times(row.data() + line.point * dimension, 1.0, here.left.data(), 2);
            add_times(row.data() + line.line_from * dimension, here.share - 1.0, here.left.data(), 2);
            add_times(row.data() + line.line_to * dimension, -here.share, here.left.data(), 2);
        }
        return row;
    }

private:
    struct Way {
        std::size_t point;
        std::array<double, dimension> direction;
    };
    /// How far off a line seen from above, which way is left of it, and how far along it, as a share of its length.
    struct Offset {
        double off;
        std::array<double, 2> left;
        double share;
    };

    [[nodiscard]] static std::array<double, dimension> point(const Row& x, std::size_t p) {
        std::array<double, dimension> n{};
        for (std::size_t i = 0; i < dimension; ++i) {
            n[i] = x[p * dimension + i];
        }
        return n;
    }
    void add_distance(Row& row, const Row& x, std::size_t from, std::size_t to, double sign) const {
        const auto way = step(x, from, to);
        add_times(row.data() + from * dimension, -sign, way.direction.data(), dimension);
        add_times(row.data() + to * dimension, sign, way.direction.data(), dimension);
    }
    [[nodiscard]] static Offset offset(const Row& x, const OnLine& line) {
        const double* from = x.data() + line.line_from * dimension;
        const double* to = x.data() + line.line_to * dimension;
        const double* here = x.data() + line.point * dimension;
        const StepBetween<2> way = step_between<2>({from[0], from[1]}, {to[0], to[1]});
        const double dx = here[0] - from[0];
        const double dy = here[1] - from[1];
        const std::array<double, 2> left{-way.direction[1], way.direction[0]};
        const double along = way.direction[0] * dx + way.direction[1] * dy;
        return Offset{left[0] * dx + left[1] * dy, left, way.length > 0.0 ? along / way.length : 0.0};
    }

    const PullFrame<Place>& frame_;
    Row found_;
    std::vector<Way> ways_;
    std::vector<std::size_t> first_;  ///< of each point's ways, and how many there are
};

[[nodiscard]] inline double tolerance_of(const PullCondition& condition) {
    return std::visit([](const auto& each) { return inches(each.tolerance); }, condition);
}
[[nodiscard]] inline const std::string& name_of_condition(const PullCondition& condition) {
    return std::visit([](const auto& each) -> const std::string& { return each.name; }, condition);
}

}  // namespace eavewright::squaring_detail
