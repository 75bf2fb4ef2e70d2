// SPDX-License-Identifier: BSL-1.0

// The adjustment against a general nonlinear least squares solver (Ceres), which knows nothing of tapes and roofs: the same
// readings as a plain list of residuals, its slopes by differences.

#include "../support/networks.hpp"
#include "../support/seeded_numbers.hpp"

#include <ceres/covariance.h>
#include <ceres/dynamic_numeric_diff_cost_function.h>
#include <ceres/problem.h>
#include <ceres/solver.h>
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <string>
#include <variant>
#include <vector>

using namespace eavewright;

namespace {

/// Residuals are worked out with more digits than the solver carries: it steers by their sum of squares, which else is flat
/// to rounding before the places are settled to a millionth of their errors.
using Wide = long double;
using Place3 = std::array<Wide, 3>;

using Residuals = std::function<void(const double*, double*)>;
struct Plain {
    Residuals residuals;
    bool operator()(double const* const* numbers, double* out) const {
        residuals(numbers[0], out);
        return true;
    }
};

Place3 spread(const PlaneCorner& p) { return {inches(p.along), inches(p.up), 0.0}; }
Place3 spread(const BuildingPoint& p) { return {inches(p.x), inches(p.y), inches(p.z)}; }
constexpr int setups = 2;

/// Points first, each as its freedom asks, then a number for each tape and each setup.
template <class Place>
struct Layout {
    const Network<Place>& network;
    std::size_t dimensions;
    std::vector<std::size_t> first;
    std::size_t tapes = 0;
    std::size_t levels = 0;
    std::size_t count = 0;
    bool has_levels = false;

    explicit Layout(const Network<Place>& all) : network{all}, dimensions{coordinate_count<Place>} {
        for (const auto& point : network.points) {
            first.push_back(count);
            count += point.freedom.index() == 0 ? dimensions : point.freedom.index() == 2 ? 1 : 0;
        }
        tapes = count;
        for (const TapeError& tape : network.tapes) {
            count += tape.scale > 0.0 ? 1 : 0;
        }
        levels = count;
        for (const auto& reading : network.readings) {
            has_levels = has_levels || reading.index() == 2;
        }
        count += has_levels ? setups : 0;
    }
    [[nodiscard]] Place3 place(std::size_t p, const double* x) const {
        auto at = spread(network.points[p].about);
        const double* own = x + first[p];
        if (const auto* line = std::get_if<FreeAlong<Place>>(&network.points[p].freedom)) {
            const auto d = spread(line->direction);
            const Wide size = std::sqrt(d[0] * d[0] + d[1] * d[1] + d[2] * d[2]);
            for (std::size_t i = 0; i < 3; ++i) {
                at[i] += own[0] * d[i] / size;
            }
        } else if (network.points[p].freedom.index() == 0) {
            for (std::size_t i = 0; i < dimensions; ++i) {
                at[i] += own[i];
            }
        }
        return at;
    }
    [[nodiscard]] Wide scale(std::size_t tape, const double* x) const {
        std::size_t at = tapes;
        for (std::size_t t = 0; t < tape; ++t) {
            at += network.tapes[t].scale > 0.0 ? 1U : 0U;
        }
        return network.tapes[tape].scale > 0.0 ? network.tapes[tape].scale * static_cast<Wide>(x[at]) : 0.0L;
    }
    [[nodiscard]] Wide setup(std::size_t which, const double* x) const { return 40.0L + x[levels + which]; }

    [[nodiscard]] Wide computed(const DistanceReading& r, const double* x) const {
        const auto a = place(r.from, x);
        const auto b = place(r.to, x);
        return (1.0L + scale(r.tape, x)) * std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
    }
    [[nodiscard]] Wide computed(const OffsetReading& r, const double* x) const {
        const auto p = place(r.point, x);
        const auto a = place(r.line_from, x);
        const auto b = place(r.line_to, x);
        const Wide twice_area = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
        return twice_area / std::hypot(b[0] - a[0], b[1] - a[1]);
    }
    [[nodiscard]] Wide computed(const LevelReading& r, const double* x) const {
        return setup(r.setup, x) - place(r.point, x)[2];
    }
    [[nodiscard]] Wide off(const DistanceReading& r, const double* x) const {
        return (inches(r.read) - computed(r, x)) / inches(network.tapes[r.tape].reading);
    }
    [[nodiscard]] Wide off(const OffsetReading& r, const double* x) const {
        return (inches(r.read) - computed(r, x)) / inches(r.deviation);
    }
    [[nodiscard]] Wide off(const LevelReading& r, const double* x) const {
        return (inches(r.below) - computed(r, x)) / inches(r.deviation);
    }
    void residuals(const double* x, double* out) const {
        for (const auto& reading : network.readings) {
            *out++ = static_cast<double>(std::visit([&](const auto& r) { return off(r, x); }, reading));
        }
        for (std::size_t i = tapes; i < levels; ++i) {
            *out++ = x[i];
        }
    }
    [[nodiscard]] std::size_t rows() const { return network.readings.size() + levels - tapes; }
};

struct PeerAnswer {
    std::vector<double> x;
    std::vector<double> covariance;
};

PeerAnswer solve(const Residuals& residuals, std::size_t count, std::size_t rows, bool with_covariance) {
    PeerAnswer answer{std::vector<double>(count, 0.0), {}};
    auto* cost = new ceres::DynamicNumericDiffCostFunction<Plain, ceres::CENTRAL>{new Plain{residuals}};
    cost->AddParameterBlock(static_cast<int>(count));
    cost->SetNumResiduals(static_cast<int>(rows));
    ceres::Problem problem;
    problem.AddResidualBlock(cost, nullptr, answer.x.data());
    ceres::Solver::Options options;
    options.linear_solver_type = ceres::DENSE_QR;
    options.max_num_iterations = 200;
    options.max_trust_region_radius = 1e10;
    options.function_tolerance = 0.0;
    options.gradient_tolerance = 0.0;
    options.parameter_tolerance = 1e-14;
    options.logging_type = ceres::SILENT;
    ceres::Solver::Summary summary;
    ceres::Solve(options, &problem, &summary);
    if (with_covariance) {
        ceres::Covariance::Options how;
        how.algorithm_type = ceres::DENSE_SVD;
        ceres::Covariance covariance{how};
        answer.covariance.resize(count * count);
        const double* block = answer.x.data();
        if (!covariance.Compute(std::vector<const double*>{block}, &problem) ||
            !covariance.GetCovarianceBlock(block, block, answer.covariance.data())) {
            answer.covariance.clear();
        }
    }
    return answer;
}

enum class Hold { corners, along, nothing };
constexpr const char* hold_names[] = {"held corners", "points along lines", "afloat"};

PlaneCorner place_at(const PlaneCorner*, double x, double y, double) { return {one_inch * x, one_inch * y}; }
BuildingPoint place_at(const BuildingPoint*, double x, double y, double z) {
    return {one_inch * x, one_inch * y, one_inch * z};
}
double normal(SeededNumbers& random) {
    double sum = -6.0;
    for (int i = 0; i < 12; ++i) {
        sum += random.between(0.0, 1.0);
    }
    return sum;
}

/// Marks on a crooked grid, each read to three (in space four) marks before it and to some more.
template <class Place>
Network<Place> random_network(SeededNumbers& random, Hold hold) {
    constexpr Place* kind = nullptr;
    constexpr bool in_space = coordinate_count<Place> == 3;
    Network<Place> all;
    std::vector<std::array<double, 3>> truth;
    const int points = random.whole(in_space ? 6 : 5, 9);
    for (int p = 0; p < points; ++p) {
        truth.push_back({150.0 * (p % 3) + random.between(-40.0, 40.0), 130.0 * (p / 3) + random.between(-40.0, 40.0),
                         in_space ? random.between(0.0, 150.0) : 0.0});
    }
    all.tapes.push_back({random.inches_between(0.01, 0.08), random.coin() ? random.between(1e-4, 8e-4) : 0.0});
    if (random.coin()) {
        all.tapes.push_back({random.inches_between(0.01, 0.08), random.coin() ? random.between(1e-4, 8e-4) : 0.0});
    }
    std::vector<double> stretch;
    for (const TapeError& tape : all.tapes) {
        stretch.push_back(1.0 + tape.scale * normal(random));
    }
    const int held = hold == Hold::nothing ? 0 : in_space ? 3 : 2;
    for (int p = 0; p < points; ++p) {
        const auto& t = truth[static_cast<std::size_t>(p)];
        MarkedPoint<Place> mark{"p" + std::to_string(p), place_at(kind, t[0], t[1], t[2]), Free{}};
        if (p < held) {
            mark.freedom = Held{};
        } else if (hold == Hold::along && p >= points - 2) {
            const double slide = random.between(-3.0, 3.0);
            const std::array<double, 3> d{random.between(0.3, 1.0), random.between(-1.0, 1.0), random.between(-1, 1)};
            mark.about = place_at(kind, t[0] + slide * d[0], t[1] + slide * d[1], t[2] + slide * d[2]);
            mark.freedom = FreeAlong<Place>{place_at(kind, d[0], d[1], d[2])};
        } else {
            mark.about = place_at(kind, t[0] + random.between(-3.0, 3.0), t[1] + random.between(-3.0, 3.0),
                                  t[2] + random.between(-3.0, 3.0));
        }
        all.points.push_back(mark);
        const int must = in_space ? 4 : 3;
        for (int q = 0; q < p; ++q) {
            if (p >= held && (q < must || random.whole(0, 2) > 0)) {
                const auto& f = truth[static_cast<std::size_t>(q)];
                const double length = std::hypot(t[0] - f[0], t[1] - f[1], t[2] - f[2]);
                const std::size_t tape = all.tapes.size() > 1 && random.coin() ? 1 : 0;
                const double read = length * stretch[tape] + inches(all.tapes[tape].reading) * normal(random);
                all.readings.push_back(
                    DistanceReading{static_cast<std::size_t>(p), static_cast<std::size_t>(q), one_inch * read, tape});
            }
        }
    }
    for (int i = random.whole(0, 3); i > 0; --i) {
        const auto& a = truth[0];
        const auto& b = truth[2];
        const std::size_t point = static_cast<std::size_t>(random.whole(3, points - 1));
        const auto& p = truth[point];
        const double off =
            ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / std::hypot(b[0] - a[0], b[1] - a[1]);
        all.readings.push_back(OffsetReading{point, 0, 2, one_inch * (off + 0.05 * normal(random)), one_inch * 0.05});
    }
    if constexpr (in_space) {
        if (random.coin()) {
            for (int p = 0; p < points; ++p) {
                const std::size_t setup = static_cast<std::size_t>(p % setups);
                const double below = 60.0 + 10.0 * static_cast<double>(setup) - truth[static_cast<std::size_t>(p)][2];
                all.readings.push_back(LevelReading{static_cast<std::size_t>(p), setup,
                                                    one_inch * (below + 0.03 * normal(random)), one_inch * 0.03});
            }
        }
    }
    return all;
}

Wide size_of(const Place3& a) { return std::hypot(a[0], a[1], a[2]); }

/// Furthest difference of a coordinate over its point's standard error.
template <class Place>
Wide places_differ(const AdjustedNetwork<Place>& ours, const Layout<Place>& layout, const PeerAnswer& peer) {
    Wide worst = 0.0L;
    for (std::size_t p = 0; p < ours.points.size(); ++p) {
        const auto a = spread(ours.points[p].place);
        const auto b = layout.place(p, peer.x.data());
        const Wide apart = std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
        const Wide error = size_of(spread(ours.points[p].deviation));
        worst = std::fmax(worst, error > 0.0 ? apart / error : apart > 0.0L ? 1.0L : 0.0L);
    }
    return worst;
}

/// The same of every distance between two points, over its standard error: blind to where the whole was put.
template <class Place>
Wide distances_differ(const AdjustedNetwork<Place>& ours, const Layout<Place>& layout, const PeerAnswer& peer) {
    Wide worst = 0.0L;
    for (std::size_t p = 0; p < ours.points.size(); ++p) {
        for (std::size_t q = 0; q < p; ++q) {
            const auto a = spread(ours.points[p].place);
            const auto b = spread(ours.points[q].place);
            const auto c = layout.place(p, peer.x.data());
            const auto d = layout.place(q, peer.x.data());
            const Wide own = std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
            const Wide theirs = std::hypot(c[0] - d[0], c[1] - d[1], c[2] - d[2]);
            Wide variance = 0.0L;
            for (std::size_t i = 0; i < coordinate_count<Place>; ++i) {
                for (std::size_t j = 0; j < coordinate_count<Place>; ++j) {
                    const auto cov = [&](std::size_t u, std::size_t v) {
                        return square_inches(ours.covariance.between(u, i, v, j));
                    };
                    variance +=
                        (a[i] - b[i]) * (a[j] - b[j]) / (own * own) * (cov(p, p) + cov(q, q) - cov(p, q) - cov(q, p));
                }
            }
            worst = std::fmax(worst, std::fabs(own - theirs) / std::sqrt(variance));
        }
    }
    return worst;
}

/// Largest relative difference of variances of free points.
template <class Place>
double variances_differ(const AdjustedNetwork<Place>& ours, const Layout<Place>& layout, const PeerAnswer& peer) {
    double worst = peer.covariance.empty() ? 1.0 : 0.0;
    for (std::size_t p = 0; p < ours.points.size() && worst < 1.0; ++p) {
        if (layout.network.points[p].freedom.index() != 0) {
            continue;
        }
        for (std::size_t i = 0; i < coordinate_count<Place>; ++i) {
            const double own = square_inches(ours.covariance.between(p, i, p, i));
            const std::size_t at = layout.first[p] + i;
            worst = std::fmax(worst, std::fabs(peer.covariance[at * layout.count + at] / own - 1.0));
        }
    }
    return worst;
}

struct Worst {
    double places = 0.0;
    double variances = 0.0;
    double sum = 0.0;
    int compared = 0;
};

template <class Place>
Worst compare(std::uint64_t seed, int networks) {
    SeededNumbers random{seed};
    Worst worst;
    for (int i = 0; i < networks; ++i) {
        const Hold hold = static_cast<Hold>(i % 3);
        const Network<Place> network = random_network<Place>(random, hold);
        const AdjustedNetwork<Place> ours = adjust_network(network);
        const Layout<Place> layout{network};
        const Residuals residuals = [&](const double* x, double* out) { layout.residuals(x, out); };
        const bool with_covariance = hold != Hold::nothing && i % 10 == 0;
        const PeerAnswer peer = solve(residuals, layout.count, layout.rows(), with_covariance);
        std::vector<double> left(layout.rows());
        layout.residuals(peer.x.data(), left.data());
        double sum = 0.0;
        for (const double each : left) {
            sum += each * each;
        }
        CAPTURE(i);
        const std::string held = hold_names[static_cast<int>(hold)];
        CAPTURE(held);
        REQUIRE(ours.loose.empty());
        REQUIRE(ours.standing != NetworkStanding::not_settled);
        REQUIRE(ours.afloat == (hold == Hold::nothing));
        const double differ = static_cast<double>(hold == Hold::nothing ? distances_differ(ours, layout, peer)
                                                                        : places_differ(ours, layout, peer));
        CHECK(differ <= 1e-6);
        CHECK(std::fabs(ours.sum_of_squares - sum) <= 1e-9 * (1.0 + sum));
        worst.places = std::fmax(worst.places, differ);
        worst.sum = std::fmax(worst.sum, std::fabs(ours.sum_of_squares - sum));
        if (with_covariance) {
            const double variances = variances_differ(ours, layout, peer);
            CHECK(variances <= 1e-6);
            worst.variances = std::fmax(worst.variances, variances);
        }
        ++worst.compared;
    }
    return worst;
}

}  // namespace

TEST_CASE("150 networks in a plane, as a general solver places them") {
    const Worst worst = compare<PlaneCorner>(1, 150);
    MESSAGE("furthest apart " << worst.places << " standard errors, variances " << worst.variances);
    CHECK(worst.compared == 150);
}

TEST_CASE("150 networks in the building, as a general solver places them") {
    const Worst worst = compare<BuildingPoint>(2, 150);
    MESSAGE("furthest apart " << worst.places << " standard errors, variances " << worst.variances);
    CHECK(worst.compared == 150);
}
