// SPDX-License-Identifier: BSL-1.0

// Seeded roofs pulled as planned, by a solver of the test's own: members and tightened straps at their lengths, by
// Newton's method. Pulled exactly, every roof that is called pullable ends within tolerance; pulled with errors, from
// points that were not quite where they were found, as many do as the plans say.

#include <eavewright/squaring/check_pulls.hpp>
#include <eavewright/squaring/plan_pulls.hpp>
#include <eavewright/squaring/pull_frames.hpp>

#include "../support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

using namespace eavewright;

namespace {

using Point = std::array<double, 3>;
using Points = std::vector<Point>;

double apart(const Points& x, std::size_t a, std::size_t b) {
    const double dx = x[b][0] - x[a][0];
    const double dy = x[b][1] - x[a][1];
    const double dz = x[b][2] - x[a][2];
    return std::sqrt(dx * dx + dy * dy + dz * dz);
}

/// Normal deviates, two at a time (Box and Muller).
class Normal {
public:
    explicit Normal(SeededNumbers& numbers) : numbers_{numbers} {}
    double operator()() {
        has_spare_ = !has_spare_;
        if (!has_spare_) {
            return spare_;
        }
        const double radius = std::sqrt(-2.0 * std::log(1.0 - numbers_.between(0.0, 1.0)));
        const double turn = 6.283185307179586 * numbers_.between(0.0, 1.0);
        spare_ = radius * std::sin(turn);
        return radius * std::cos(turn);
    }

private:
    SeededNumbers& numbers_;
    double spare_ = 0.0;
    bool has_spare_ = false;
};

/// Distances that are to hold, and which coordinates may change to make them.
struct Equation {
    std::size_t a;
    std::size_t b;
    double length;
};
struct Unknown {
    std::size_t point;
    Point direction;
};

/// Gauss with the largest pivot, in place; false where there is none.
bool solve(std::vector<std::vector<double>>& rows) {
    const std::size_t n = rows.size();
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t best = k;
        for (std::size_t i = k + 1; i < n; ++i) {
            best = std::fabs(rows[i][k]) > std::fabs(rows[best][k]) ? i : best;
        }
        std::swap(rows[k], rows[best]);
        if (std::fabs(rows[k][k]) < 1e-12) {
            return false;
        }
        for (std::size_t i = 0; i < n; ++i) {
            const double times = i == k ? 0.0 : rows[i][k] / rows[k][k];
            for (std::size_t j = k; times != 0.0 && j <= n; ++j) {
                rows[i][j] -= times * rows[k][j];
            }
        }
    }
    for (std::size_t k = 0; k < n; ++k) {
        rows[k][n] /= rows[k][k];
    }
    return true;
}

/// Makes the equations hold, going the least way: the way y is a sum of the equations' directions J, y = J^T m, and
/// (J J^T) m is asked anew from where it led. Where nothing is left open this is Newton's method.
bool place(Points& x, const std::vector<Equation>& equations, const std::vector<Unknown>& unknowns) {
    const Points start = x;
    std::vector<double> way(unknowns.size(), 0.0);
    for (int round = 0; round < 40; ++round) {
        std::vector<std::vector<double>> rows;
        std::vector<double> asked;
        for (const Equation& each : equations) {
            const double length = apart(x, each.a, each.b);
            std::vector<double> row(unknowns.size(), 0.0);
            asked.push_back(each.length - length);
            for (std::size_t u = 0; u < unknowns.size(); ++u) {
                const double sign = unknowns[u].point == each.b ? 1.0 : unknowns[u].point == each.a ? -1.0 : 0.0;
                for (std::size_t i = 0; sign != 0.0 && i < 3; ++i) {
                    row[u] += sign * unknowns[u].direction[i] * (x[each.b][i] - x[each.a][i]) / length;
                }
                asked.back() += row[u] * way[u];
            }
            rows.push_back(row);
        }
        std::vector<std::vector<double>> squares;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            squares.emplace_back(rows.size() + 1, asked[i]);
            for (std::size_t j = 0; j < rows.size(); ++j) {
                squares[i][j] = 0.0;
                for (std::size_t u = 0; u < unknowns.size(); ++u) {
                    squares[i][j] += rows[i][u] * rows[j][u];
                }
            }
        }
        if (!solve(squares)) {
            return false;
        }
        double step = 0.0;
        x = start;
        for (std::size_t u = 0; u < unknowns.size(); ++u) {
            double next = 0.0;
            for (std::size_t i = 0; i < rows.size(); ++i) {
                next += squares[i].back() * rows[i][u];
            }
            step = std::fmax(step, std::fabs(next - way[u]));
            way[u] = next;
            for (std::size_t i = 0; i < 3; ++i) {
                x[unknowns[u].point][i] += way[u] * unknowns[u].direction[i];
            }
        }
        if (step < 1e-8) {
            return true;
        }
    }
    return false;
}

/// A gable some inches out: front_left, front_right, ridge_right, ridge_left, back_left, back_right.
Points random_gable(SeededNumbers& random, double slide) {
    const double along = random.between(300.0, 900.0);
    const double half = random.between(140.0, 320.0);
    const double rise = half * random.between(0.15, 1.0);
    const double ridge = random.between(-3.0, 3.0);
    const double back = random.between(-slide, slide);
    Points x{{0.0, 0.0, 0.0},     {along, 0.0, 0.0},       {along + ridge, half, rise},
             {ridge, half, rise}, {back, 2.0 * half, 0.0}, {along + back, 2.0 * half, 0.0}};
    for (Point& each : x) {
        for (double& coordinate : each) {
            coordinate += random.between(-0.1, 0.1);
        }
    }
    return x;
}
BuildingPoint building_point(const Point& p) { return {one_inch * p[0], one_inch * p[1], one_inch * p[2]}; }

struct Roof {
    Points found;
    std::vector<double> deviations;  ///< of each coordinate
    BuildingPullFrame frame;
    bool sliding;
};

Roof random_roof(SeededNumbers& random, int number) {
    const bool sliding = number % 8 == 0;
    Roof roof{random_gable(random, sliding ? 3.0 : 0.2), {}, {}, sliding};
    UsualFrame usual{};
    usual.judge_sides = false;
    usual.eaves = sliding ? EaveHold::along : EaveHold::held;
    usual.tolerance.diagonal_difference = one_inch * random.between(0.125, 0.5);
    const Points& x = roof.found;
    const GableCorners corners{building_point(x[0]), building_point(x[1]), building_point(x[2]),
                               building_point(x[3]), building_point(x[4]), building_point(x[5])};
    Covariance covariance{6, 3, std::vector<double>(324, 0.0)};
    for (std::size_t i = 0; i < 18; ++i) {
        roof.deviations.push_back(random.between(0.0, 0.04));
        covariance.entries[i * 19] = roof.deviations[i] * roof.deviations[i];
    }
    roof.frame = gable_frame(corners, usual, covariance);
    if (random.whole(0, 3) == 0) {  // a strap that is not there
        roof.frame.straps.erase(roof.frame.straps.begin() + random.whole(0, 3));
    }
    if (random.whole(0, 5) == 0) {
        roof.frame.straps[0].most_shortening = random.inches_between(0.2, 2.0);
    }
    if (random.whole(0, 9) == 0) {
        roof.frame.most_movement = random.inches_between(0.5, 3.0);
    }
    return roof;
}

double length_of(const PullStrap& strap, const Points& x) { return apart(x, strap.from, strap.to); }

bool within(const Roof& roof, const Points& x, double more) {
    bool all = true;
    for (const PullCondition& each : roof.frame.conditions) {
        const EqualDistances& equal = std::get<EqualDistances>(each);
        const double misfit = apart(x, equal.a, equal.b) - apart(x, equal.c, equal.d);
        all = all && std::fabs(misfit) <= inches(equal.tolerance) + more;
    }
    return all;
}

/// Members of a gable, whose eaves stand: five, for the six coordinates of its ridge.
constexpr std::array<std::array<std::size_t, 2>, 5> rafters_and_ridge{{{0, 3}, {1, 2}, {4, 3}, {5, 2}, {3, 2}}};

/// What comes of the pulls from where the points truly stood. `straps` gives the final length of each tightened one.
template <class LengthOf>
std::optional<Points> pulled(const Roof& roof, const PullPlan<BuildingPoint>& plan, const Points& start,
                             const LengthOf& strap_length) {
    if (plan.straps_tightened == 0) {
        return start;
    }
    std::vector<Unknown> unknowns;
    for (const std::size_t p : {std::size_t{2}, std::size_t{3}}) {
        for (std::size_t i = 0; i < 3; ++i) {
            unknowns.push_back(Unknown{p, {}});
            unknowns.back().direction[i] = 1.0;
        }
    }
    std::vector<Equation> equations;
    const auto keep = [&](std::size_t a, std::size_t b) { equations.push_back(Equation{a, b, apart(start, a, b)}); };
    for (const auto& each : rafters_and_ridge) {
        keep(each[0], each[1]);
    }
    Points x = start;
    if (roof.sliding) {
        for (const std::array<std::size_t, 2> eave : {std::array<std::size_t, 2>{0, 1}, {4, 5}}) {
            Point way = roof.found[eave[1]];
            const double length = apart(roof.found, eave[0], eave[1]);
            for (std::size_t i = 0; i < 3; ++i) {
                way[i] = (way[i] - roof.found[eave[0]][i]) / length;
            }
            unknowns.push_back(Unknown{eave[0], way});
            unknowns.push_back(Unknown{eave[1], way});
            keep(eave[0], eave[1]);
        }
    }
    for (std::size_t s = 0; s < plan.straps.size(); ++s) {
        if (plan.straps[s].tightened) {
            equations.push_back(Equation{roof.frame.straps[s].from, roof.frame.straps[s].to, strap_length(s)});
        }
    }
    if (!place(x, equations, unknowns)) {
        return std::nullopt;
    }
    return x;
}

/// Every strap of its own, by steps of 0.06 in: each condition holds over twice that at least.
bool can_be_pulled(const Roof& roof) {
    std::vector<Unknown> unknowns;
    for (std::size_t i = 0; i < 6; ++i) {
        unknowns.push_back(Unknown{2 + i / 3, {}});
        unknowns.back().direction[i % 3] = 1.0;
    }
    for (const PullStrap& strap : roof.frame.straps) {
        Points x = roof.found;
        for (int step = 1; step <= 80; ++step) {
            const double by = 0.06 * step;
            if (strap.most_shortening && by > inches(*strap.most_shortening)) {
                break;
            }
            std::vector<Equation> equations{{strap.from, strap.to, length_of(strap, roof.found) - by}};
            for (const auto& each : rafters_and_ridge) {
                equations.push_back(Equation{each[0], each[1], apart(roof.found, each[0], each[1])});
            }
            if (!place(x, equations, unknowns)) {
                break;
            }
            bool allowed = true;
            for (std::size_t p = 2; roof.frame.most_movement && p < 4; ++p) {
                allowed = allowed && apart({roof.found[p], x[p]}, 0, 1) <= inches(*roof.frame.most_movement);
            }
            if (allowed && within(roof, x, -1e-6)) {
                return true;
            }
        }
    }
    return false;
}

/// Plans and pulls many roofs, and counts.
struct Tally {
    int pullable = 0;
    int not_pullable = 0;
    int already = 0;
    int unsound = 0;    ///< plans that the certificate rejects
    int ended_out = 0;  ///< pulled exactly, and yet not within
    int strained = 0;   ///< straps that hold against each other much more than they move
    int searched = 0;   ///< not pullable, and looked for by small steps
    int missed = 0;     ///< and yet there was a pull that does
    double drawn = 0.0;
    std::array<double, 3> promised{};
    std::array<double, 3> kept{};

    void follow(const Roof& roof, PullChoice choice, Normal& normal) {
        const PullPlan<BuildingPoint> plan = plan_pulls(roof.frame, choice);
        unsound += find_faults_of_pull_plan(roof.frame, plan).empty() ? 0 : 1;
        if (plan.verdict != PullVerdict::pullable) {
            ++(plan.verdict == PullVerdict::already_true ? already : not_pullable);
            if (plan.verdict == PullVerdict::not_pullable && !roof.sliding && not_pullable % 12 == 0) {
                ++searched;
                missed += can_be_pulled(roof) ? 1 : 0;
            }
            return;
        }
        ++pullable;
        const auto exactly = pulled(roof, plan, roof.found, [&](std::size_t s) {
            return length_of(roof.frame.straps[s], roof.found) + inches(plan.straps[s].change);
        });
        for (const PulledStrap& each : plan.straps) {
            strained += each.tension > plan.total_movement * 1000.0 ? 1 : 0;
        }
        ended_out += exactly && within(roof, *exactly, 1e-7) ? 0 : 1;
        for (int draw = 0; draw < 2; ++draw) {
            Points truth = roof.found;
            for (std::size_t i = 0; i < 18; ++i) {
                truth[i / 3][i % 3] -= roof.deviations[i] * normal();
            }
            const std::array<double, 4> errors{normal(), normal(), normal(), normal()};
            const auto by_amount = [&](double deviation) {
                return pulled(roof, plan, truth, [&](std::size_t s) {
                    return length_of(roof.frame.straps[s], truth) + inches(plan.straps[s].change) +
                           deviation * errors[s];
                });
            };
            const auto to_read = pulled(roof, plan, truth, [&](std::size_t s) {
                return inches(plan.straps[s].after) + inches(roof.frame.reading_deviation) * errors[s];
            });
            count(0, plan.chance_within, roof, by_amount(inches(roof.frame.pull_deviation)));
            count(1, plan.chance_exact_pulls, roof, by_amount(0.0));
            count(2, plan.chance_pulled_to_read, roof, to_read);
            drawn += 1.0;
        }
    }
    void count(std::size_t which, double chance, const Roof& roof, const std::optional<Points>& x) {
        promised[which] += chance;
        kept[which] += x && within(roof, *x, 0.0) ? 1.0 : 0.0;
    }
};

}  // namespace

TEST_CASE("pulls followed exactly end within tolerance, and with errors as often as promised") {
    SeededNumbers random{20260};
    Normal normal{random};
    Tally tally;
    for (int i = 0; i < sweep(20000); ++i) {
        const Roof roof = random_roof(random, i);
        tally.follow(roof, i % 2 == 0 ? PullChoice::fewest_straps : PullChoice::least_movement, normal);
    }
    CHECK(tally.unsound == 0);
    CHECK(tally.ended_out == 0);
    CHECK(tally.strained == 0);
    CHECK(tally.missed == 0);
    CHECK(tally.searched > 0);
    CHECK(tally.pullable > sweep(20000) / 4);
    CHECK(tally.not_pullable > sweep(20000) / 20);
    MESSAGE("pullable " << tally.pullable << ", not " << tally.not_pullable << ", already true " << tally.already);
    for (std::size_t which = 0; which < 3; ++which) {
        const double promised = tally.promised[which] / tally.drawn;
        const double kept = tally.kept[which] / tally.drawn;
        MESSAGE(std::array<std::string, 3>{"by amount", "exact pulls", "pulled to read"}[which]
                << ": promised " << 100.0 * promised << " %, kept " << 100.0 * kept << " %");
        CHECK(std::fabs(kept - promised) < 0.02);
        CHECK(promised > 0.1);
        CHECK(promised < 0.98);
    }
}
