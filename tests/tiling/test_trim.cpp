// SPDX-License-Identifier: BSL-1.0
#include "tiling_planes.hpp"

#include <doctest/doctest.h>
#include <eavewright/roof/shape.hpp>
#include <eavewright/tiling/trim.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include <random>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const TrimStock ten_feet{.piece = 10_ft};
}  // namespace

TEST_CASE("trim: the workshop's edges by hand") {
    // Eave 62 ft = 744 in, pieces 120 in lapped 4: 120 + 116 n >= 744, n = 5.4 -> 6 more, 7 pieces; the last is
    // 744 - 6 x 116 = 48 in.
    const std::vector<TrimRun> eave = trim_runs(workshop_plane(), EdgeKind::eave, ten_feet);
    REQUIRE(eave.size() == 1);
    CHECK(eave[0].run == 744_in);
    CHECK(eave[0].pieces == 7);
    CHECK(eave[0].last_piece == 48_in);
    // Rakes 246.6577 in each: 120 + 116 x 2 = 352, 120 + 116 = 236 is short: 3 pieces, the last 246.6577 - 232 = 14.6577 in.
    const std::vector<TrimRun> rakes = trim_runs(workshop_plane(), EdgeKind::rake, ten_feet);
    REQUIRE(rakes.size() == 2);
    for (const TrimRun& rake : rakes) {
        CHECK(rake.pieces == 3);
        CHECK(off_by(rake.last_piece, 14.657657_in) < 1e-6);
    }
    CHECK(trim_runs(workshop_plane(), EdgeKind::ridge, ten_feet).size() == 1);
    CHECK(trim_runs(workshop_plane(), EdgeKind::hip, ten_feet).empty());
}

TEST_CASE("trim: three pieces cover 3L - 2d") {
    // Roofing-sheet page, 3 common mistakes (read): n pieces with lap d cover nL - (n-1)d.
    CHECK(count_trim(3.0 * 120_in - 2.0 * 4_in, ten_feet) == 3);
    CHECK(count_trim(3.0 * 120_in - 2.0 * 4_in + 1_in / 64, ten_feet) == 4);
    CHECK(count_trim(120_in, ten_feet) == 1);
    CHECK(count_trim(0_in, ten_feet) == 0);
}

TEST_CASE("trim: what goes past the ends is covered too") {
    // 12 in added to a ridge for both ends together (Univ. of Florida UF00008517, step 54, read): 744 + 12 = 756 in.
    const TrimStock cap{.piece = 10_ft, .past_ends = 12_in};
    const std::vector<TrimRun> ridge = trim_runs(workshop_plane(), EdgeKind::ridge, cap);
    CHECK(ridge[0].run == 756_in);
    CHECK(ridge[0].pieces == 7);
}

TEST_CASE("trim: closures and tape fill the run") {
    CHECK(count_strips(744_in, 36_in) == 21);       // 20 2/3
    CHECK(count_strips(720_in, 36_in) == 20);       // exactly
    CHECK(count_strips(2.0 * 744_in, 40_ft) == 4);  // 3.1 rolls of tape
}

TEST_CASE("trim: enough pieces and not one too many, over a seeded sweep") {
    std::mt19937 random{20261128};
    const auto sixteenths = [&](int low, int high) {
        return 1_in / 16 * (low + static_cast<int>(random() % static_cast<unsigned>(high - low + 1)));
    };
    for (int round = 0; round < 20000; ++round) {
        const TrimStock stock{.piece = sixteenths(16 * 24, 16 * 240), .lap = sixteenths(0, 16 * 8)};
        const Length run = sixteenths(1, 16 * 2400);
        const std::int64_t pieces = count_trim(run, stock);
        const auto covered = [&](std::int64_t n) {
            return stock.piece * static_cast<double>(n) - stock.lap * static_cast<double>(n - 1);
        };
        CHECK(covered(pieces) >= run);
        CHECK((pieces == 1 || covered(pieces - 1) < run));
    }
}

TEST_CASE("trim: what is refused") {
    CHECK(refusal_of([] { (void)count_trim(1_ft, {.piece = 1_ft, .lap = 6_in}); }).path == "trim.lap");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)count_trim(1_ft, {.piece = none}); }).path == "trim.piece");
    }
    PurlinPlane plane = workshop_plane();
    plane.edges.pop_back();
    CHECK(refusal_of([&] { (void)trim_runs(plane, EdgeKind::eave, ten_feet); }).path == "plane.edges");
}
