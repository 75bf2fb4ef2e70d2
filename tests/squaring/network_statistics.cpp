// SPDX-License-Identifier: BSL-1.0

// Whether the adjustment's odds are honest: roofs whose truth is known, read with errors of exactly the stated kind.
//
// Points and readings of one roof hang together, roofs do not. So shares are taken roof by roof, and their standard errors
// from how roofs differ; every band below is 3.3 standard errors of the share at the number of roofs at hand (odds of 1 in
// 1000 to miss it by chance), and 1 or 2 points where that is asked of 20,000 roofs and is wider.

#include <eavewright/squaring/critical_values.hpp>
#include <eavewright/squaring/error_ellipse.hpp>

#include "../support/networks.hpp"
#include "../support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

using namespace eavewright;

namespace {

using Place3 = std::array<double, 3>;

double normal(SeededNumbers& random) {
    const double u = 1.0 - random.between(0.0, 1.0);
    return std::sqrt(-2.0 * std::log(u)) * std::cos(6.283185307179586 * random.between(0.0, 1.0));
}

/// A share, or a mean, of figures taken roof by roof.
struct Mean {
    double sum = 0.0;
    double squares = 0.0;
    double roofs = 0.0;
    void add(double of_roof) {
        sum += of_roof;
        squares += of_roof * of_roof;
        roofs += 1.0;
    }
    [[nodiscard]] double value() const { return sum / roofs; }
    [[nodiscard]] double error() const {
        return std::sqrt((squares / roofs - value() * value()) / (roofs > 1.0 ? roofs - 1.0 : 1.0));
    }
    [[nodiscard]] bool is_about(double expected, double at_least = 0.0) const {
        return std::fabs(value() - expected) <= std::fmax(at_least, 3.3 * error());
    }
};

PlaneCorner place_at(const PlaneCorner*, const Place3& p) { return {one_inch * p[0], one_inch * p[1]}; }
BuildingPoint place_at(const BuildingPoint*, const Place3& p) {
    return {one_inch * p[0], one_inch * p[1], one_inch * p[2]};
}
Place3 spread(const PlaneCorner& p) { return {inches(p.along), inches(p.up), 0.0}; }
Place3 spread(const BuildingPoint& p) { return {inches(p.x), inches(p.y), inches(p.z)}; }
double apart(const Place3& a, const Place3& b) { return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]); }

template <class Place>
struct Roof {
    Network<Place> network;
    std::vector<Place3> truth;
    std::vector<double> scales;
};

/// Corners of a slope, with a mark on its eave, one on its ridge and perhaps one inside.
std::vector<Place3> marks(const PlaneCorner*, SeededNumbers& random) {
    const double eave = random.between(240.0, 720.0);
    const double slope = random.between(120.0, 300.0);
    std::vector<Place3> all{{0, 0, 0},     {eave, 0, 0},       {eave, slope, 0},
                            {0, slope, 0}, {eave / 2.0, 0, 0}, {eave / 2.0, slope, 0}};
    if (random.coin()) {
        all.push_back({eave / 3.0, slope / 2.0, 0});
    }
    return all;
}
/// Six corners of a gable roof, and sometimes a mark on a slope.
std::vector<Place3> marks(const BuildingPoint*, SeededNumbers& random) {
    const double eave = random.between(240.0, 720.0);
    const double half = random.between(120.0, 240.0);
    const double rise = half * random.between(0.25, 1.0);
    std::vector<Place3> all{{0, 0, 0},       {eave, 0, 0},      {0, 2.0 * half, 0}, {eave, 2.0 * half, 0},
                            {0, half, rise}, {eave, half, rise}};
    if (random.coin()) {
        all.push_back({eave / 3.0, half / 2.0, rise / 2.0});
    }
    return all;
}

template <class Place>
void read_distances(SeededNumbers& random, std::size_t held, Roof<Place>& roof) {
    for (std::size_t a = 0; a < roof.truth.size(); ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            if (a >= held && (a - b < 4 || random.whole(0, 3) > 0)) {
                const std::size_t tape = random.coin() ? 1 : 0;
                const Length read = one_inch * (apart(roof.truth[a], roof.truth[b]) * (1.0 + roof.scales[tape])) +
                                    roof.network.tapes[tape].reading * normal(random);
                roof.network.readings.push_back(DistanceReading{a, b, read, tape});
            }
        }
    }
}
void read_more(SeededNumbers& random, Roof<PlaneCorner>& roof) {  // marks from a string between the held corners
    for (std::size_t p = 2; p < roof.truth.size(); p += 2) {
        const Place3& eave = roof.truth[1];
        const double off =
            (eave[0] * (roof.truth[p][1] - roof.truth[0][1]) - (roof.truth[p][0] - roof.truth[0][0]) * eave[1]) /
            std::hypot(eave[0], eave[1]);
        roof.network.readings.push_back(OffsetReading{p, 0, 1, one_inch * (off + 0.0625 * normal(random))});
    }
}
void read_more(SeededNumbers& random, Roof<BuildingPoint>& roof) {
    for (std::size_t p = 0; p < roof.truth.size(); ++p) {
        const double height = 90.0 + (p < 3 ? 0.0 : 30.0);
        roof.network.readings.push_back(
            LevelReading{p, p < 3 ? 0U : 1U, one_inch * (height - roof.truth[p][2] + 0.0625 * normal(random))});
        if (p == 2) {
            roof.network.readings.push_back(
                LevelReading{p, 1, one_inch * (120.0 - roof.truth[p][2] + 0.0625 * normal(random))});
        }
    }
}

/// A roof as built, up to 2 in off its plan, and as read: two tapes, a good one and a poor one.
template <class Place>
Roof<Place> random_roof(SeededNumbers& random) {
    constexpr Place* kind = nullptr;
    Roof<Place> roof{{}, marks(kind, random), {}};
    const std::size_t held = coordinate_count<Place>;
    for (std::size_t p = 0; p < roof.truth.size(); ++p) {
        const Place3 plan = roof.truth[p];
        for (std::size_t i = 0; p > 0 && i < coordinate_count<Place>; ++i) {
            roof.truth[p][i] += random.between(-2.0, 2.0);
        }
        MarkedPoint<Place> mark{"m" + std::to_string(p), place_at(kind, plan), Free{}};
        if (p < held) {
            mark.about = place_at(kind, roof.truth[p]);
            mark.freedom = Held{};
        }
        roof.network.points.push_back(mark);
    }
    roof.network.tapes = {{one_inch / 32.0, 1e-4}, {one_inch / 16.0, 3e-4}};
    for (const TapeError& tape : roof.network.tapes) {
        roof.scales.push_back(tape.scale * normal(random));
    }
    read_distances(random, held, roof);
    read_more(random, roof);
    return roof;
}

/// Squared distance from the truth in standard deviations of every direction, by Cramer's rule.
double off_in_space(const Place3& e, const Covariance& all, std::size_t p) {
    const auto c = [&](std::size_t i, std::size_t j) { return square_inches(all.between(p, i, p, j)); };
    const auto determinant = [](const Place3& a, const Place3& b, const Place3& d) {
        return a[0] * (b[1] * d[2] - b[2] * d[1]) - b[0] * (a[1] * d[2] - a[2] * d[1]) +
               d[0] * (a[1] * b[2] - a[2] * b[1]);
    };
    const Place3 x{c(0, 0), c(1, 0), c(2, 0)};
    const Place3 y{c(0, 1), c(1, 1), c(2, 1)};
    const Place3 z{c(0, 2), c(1, 2), c(2, 2)};
    return (e[0] * determinant(e, y, z) + e[1] * determinant(x, e, z) + e[2] * determinant(x, y, e)) /
           determinant(x, y, z);
}
bool in_ellipse(const Place3& e, const ErrorEllipse& ellipse) {
    const double on = (e[0] * ellipse.along + e[1] * ellipse.up) / inches(ellipse.long_axis);
    const double off = (e[1] * ellipse.along - e[0] * ellipse.up) / inches(ellipse.short_axis);
    return on * on + off * off <= 1.0;
}

struct Shares {
    Mean ellipses;
    Mean ellipsoids;
    Mean squared_normalised;
    Mean normalised;
    Mean stands_out;
    Mean refused;
    Mean squared_scale;
    Mean detected;
    Mean alone;
    Mean named;
    Mean first;
    double worst_redundancy_sum = 0.0;
    double worst_move = 0.0;
    int moves = 0;
};

template <class Place>
void count_regions(const Roof<Place>& roof, const AdjustedNetwork<Place>& adjusted, Shares& shares) {
    double inside = 0.0;
    double inside_space = 0.0;
    double points = 0.0;
    for (std::size_t p = coordinate_count<Place>; p < roof.truth.size(); ++p) {
        Place3 error = spread(adjusted.points[p].place);
        for (std::size_t i = 0; i < 3; ++i) {
            error[i] -= roof.truth[p][i];
        }
        inside += in_ellipse(error, scaled(adjusted.points[p].plan, ellipse_factor(0.95))) ? 1.0 : 0.0;
        if (coordinate_count<Place> == 3) {
            inside_space += off_in_space(error, adjusted.covariance, p) <= chi_square_quantile(0.95, 3) ? 1.0 : 0.0;
        }
        points += 1.0;
    }
    shares.ellipses.add(inside / points);
    shares.ellipsoids.add(inside_space / points);
}

template <class Place>
void count_residuals(const Roof<Place>& roof, const AdjustedNetwork<Place>& adjusted, Shares& shares) {
    double squares = 0.0;
    double sum = 0.0;
    double out = 0.0;
    double checked = 0.0;
    double redundancy = 0.0;
    for (const AdjustedReading& each : adjusted.readings) {
        redundancy += each.redundancy;
        if (each.checked) {
            squares += each.normalised * each.normalised;
            sum += each.normalised;
            out += each.stands_out ? 1.0 : 0.0;
            checked += 1.0;
        }
    }
    double scale = 0.0;
    for (std::size_t t = 0; t < roof.scales.size(); ++t) {
        redundancy += adjusted.tapes[t].redundancy;
        const double off = (adjusted.tapes[t].scale - roof.scales[t]) / adjusted.tapes[t].deviation;
        scale += off * off / 2.0;
    }
    shares.squared_normalised.add(squares / checked);
    shares.normalised.add(sum / checked);
    shares.stands_out.add(out / checked);
    shares.refused.add(adjusted.sum_of_squares > adjusted.largest_sum_of_squares ? 1.0 : 0.0);
    shares.squared_scale.add(scale);
    shares.worst_redundancy_sum =
        std::fmax(shares.worst_redundancy_sum, std::fabs(redundancy - static_cast<double>(adjusted.spare)));
}

template <class Place>
void lengthen(Network<Place>& network, std::size_t reading, Length by) {
    auto* distance = std::get_if<DistanceReading>(&network.readings[reading]);
    auto* offset = std::get_if<OffsetReading>(&network.readings[reading]);
    if (distance != nullptr) {
        distance->read += by;
    } else if (offset != nullptr) {
        offset->read += by;
    } else if constexpr (coordinate_count<Place> == 3) {
        std::get<LevelReading>(network.readings[reading]).below += by;
    }
}

/// A reading taken at random that others check well enough. Of the rest, a blunder that would be seen is as long as the
/// roof: it breaks a triangle, which is refused before anything is adjusted.
template <class Place>
std::optional<std::size_t> pick_reading(SeededNumbers& random, const AdjustedNetwork<Place>& sound) {
    const auto picked = static_cast<std::size_t>(random.whole(0, static_cast<int>(sound.readings.size()) - 1));
    return sound.readings[picked].redundancy > 0.04 ? std::optional{picked} : std::nullopt;
}
template <class Place>
AdjustedNetwork<Place> adjust_with_blunder(const Roof<Place>& roof, std::size_t reading, Length by) {
    Network<Place> network = roof.network;
    lengthen(network, reading, by);
    return adjust_network(network);
}

template <class Place>
void plant_blunder(SeededNumbers& random, const Roof<Place>& roof, const AdjustedNetwork<Place>& sound,
                   Shares& shares) {
    const std::optional<std::size_t> planted = pick_reading(random, sound);
    if (!planted) {
        return;
    }
    const Length size = *sound.readings[*planted].smallest_blunder * (random.coin() ? 1.0 : -1.0);
    const AdjustedNetwork<Place> adjusted = adjust_with_blunder(roof, *planted, size);
    const bool own = adjusted.readings[*planted].stands_out;
    shares.detected.add(own ? 1.0 : 0.0);
    if (own) {
        const bool first = !adjusted.suspects.empty() && adjusted.suspects[0] == *planted;
        shares.first.add(first ? 1.0 : 0.0);
        const bool placed = adjusted.standing == NetworkStanding::blunder_placed;
        shares.alone.add(placed ? 1.0 : 0.0);
        if (placed) {
            shares.named.add(first ? 1.0 : 0.0);
        }
    }
}

/// A thousandth of the blunder either way moves the point that goes furthest by a thousandth of what is promised.
template <class Place>
void move_by_blunder(SeededNumbers& random, const Roof<Place>& roof, const AdjustedNetwork<Place>& sound,
                     Shares& shares) {
    const std::optional<std::size_t> planted = pick_reading(random, sound);
    if (!planted) {
        return;
    }
    const AdjustedReading& reading = sound.readings[*planted];
    const AdjustedNetwork<Place> more = adjust_with_blunder(roof, *planted, *reading.smallest_blunder * 1e-3);
    const AdjustedNetwork<Place> less = adjust_with_blunder(roof, *planted, *reading.smallest_blunder * -1e-3);
    double furthest = 0.0;
    for (std::size_t p = 0; p < sound.points.size(); ++p) {
        furthest = std::fmax(furthest, apart(spread(more.points[p].place), spread(less.points[p].place)));
    }
    shares.worst_move = std::fmax(shares.worst_move, std::fabs(furthest * 500.0 / inches(*reading.hidden_move) - 1.0));
    ++shares.moves;
}

template <class Place>
Shares simulate(std::uint64_t seed, int roofs) {
    SeededNumbers random{seed};
    Shares shares;
    for (int i = 0; i < roofs; ++i) {
        const Roof<Place> roof = random_roof<Place>(random);
        const AdjustedNetwork<Place> sound = adjust_network(roof.network);
        count_regions(roof, sound, shares);
        count_residuals(roof, sound, shares);
        plant_blunder(random, roof, sound, shares);
        if (i % 20 == 0) {
            move_by_blunder(random, roof, sound, shares);
        }
    }
    return shares;
}

#ifdef EAVEWRIGHT_FULL_SWEEPS
constexpr double blunder_band = 0.02;
#else
constexpr double blunder_band = 0.0;
#endif

void judge(const Shares& s, bool in_space) {
    const Mean& regions = in_space ? s.ellipsoids : s.ellipses;
    MESSAGE(s.ellipses.roofs << " roofs. Truth in the 95 % ellipses " << s.ellipses.value() << " +- "
                             << s.ellipses.error());
    MESSAGE("and in the 95 % regions " << regions.value() << " +- " << regions.error());
    MESSAGE("normalised residuals: mean square " << s.squared_normalised.value() << " +- "
                                                 << s.squared_normalised.error());
    MESSAGE("sound readings that stand out " << s.stands_out.value() << " +- " << s.stands_out.error());
    MESSAGE("sums of squares refused " << s.refused.value() << " +- " << s.refused.error());
    MESSAGE("mean square of tape scales " << s.squared_scale.value() << " +- " << s.squared_scale.error());
    MESSAGE("planted blunders detected " << s.detected.value() << " +- " << s.detected.error() << " of "
                                         << s.detected.roofs);
    MESSAGE("of those: first suspect " << s.first.value() << ", named alone " << s.alone.value()
                                       << ", and then rightly " << s.named.value());
    MESSAGE("hidden move off by " << s.worst_move << " of itself, redundancies by " << s.worst_redundancy_sum);
    CHECK(s.ellipses.is_about(0.95, 0.01));
    CHECK(regions.is_about(0.95, 0.01));
    CHECK(s.squared_normalised.is_about(1.0));
    CHECK(s.normalised.is_about(0.0));
    CHECK(s.stands_out.is_about(0.001));
    CHECK(s.refused.is_about(0.05));
    CHECK(s.squared_scale.is_about(1.0));
    CHECK(s.detected.is_about(0.80, blunder_band));
    CHECK(s.moves > 10);
    CHECK(s.worst_move < 5e-3);  // the promise leaves out how residuals bend the solution
    CHECK(s.worst_redundancy_sum < 1e-7);
}

}  // namespace

TEST_CASE("slopes read with known errors: regions, residuals and blunders keep their odds") {
    judge(simulate<PlaneCorner>(71, sweep(10000)), false);
}

TEST_CASE("gable roofs in space read with known errors: regions, residuals and blunders keep their odds") {
    judge(simulate<BuildingPoint>(72, sweep(10000)), true);
}
