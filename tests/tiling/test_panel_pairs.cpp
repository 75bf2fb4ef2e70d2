// SPDX-License-Identifier: BSL-1.0

// Two cut panels out of one: which can, which cannot and why, and a judge that rejects what is not so.

#include <eavewright/tiling/check_panel_pairs.hpp>
#include <eavewright/tiling/pair_panels.hpp>
#include <eavewright/writing/json.hpp>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include "random_cut_planes.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const PairPlan painted{};
const PairPlan symmetric{.laps_either_way = true};
const PairPlan flat{.two_faced = true};

CutPanels laid(const PurlinPlane& plane, StartCorner start, Length valley_gap = 0_in) {
    return lay_cut_panels(plane, cut_planes::level_supports(plane, 24_in),
                          {.panels = {.ridge_hold_back = 1_in, .start = start}, .valley_gap = valley_gap});
}
CutPanels hip_from(StartCorner start) { return laid(cut_planes::hip_end(), start); }
/// Pairs that the judge has nothing against.
PanelPairs paired(const std::vector<CutPanels>& planes, const PairPlan& plan = painted) {
    const PanelPairs pairs = pair_panels(planes, plan);
    const Faults faults = find_faults_of_pairs(planes, plan, pairs);
    CHECK_MESSAGE(faults.empty(), (faults.empty() ? std::string{} : describe(faults.front())));
    return pairs;
}
std::size_t count_of(const PanelPairs& pairs, NoPair why) {
    return static_cast<std::size_t>(std::count_if(pairs.unpaired.begin(), pairs.unpaired.end(),
                                                  [&](const UnpairedPanel& one) { return one.why == why; }));
}
/// The most that pairing can save, by trying every way.
double most_saved(const std::vector<detail::SlantedPanel>& panels, const PairPlan& plan, std::vector<bool>& used) {
    std::size_t first = 0;
    while (first < panels.size() && used[first]) {
        ++first;
    }
    if (first == panels.size()) {
        return 0.0;
    }
    used[first] = true;
    double best = most_saved(panels, plan, used);
    for (std::size_t k = first + 1; k < panels.size(); ++k) {
        const detail::PairTry made = detail::try_pair(panels[first], panels[k], plan);
        if (!used[k] && made.pair) {
            used[k] = true;
            best = std::max(best, inches(made.pair->saved) + most_saved(panels, plan, used));
            used[k] = false;
        }
    }
    used[first] = false;
    return best;
}
}  // namespace

TEST_CASE("one hip end alone: like hips would have to be turned, unlike ones turned over") {
    const PanelPairs pairs = paired({hip_from(StartCorner::eave_left)});
    CHECK(pairs.pairs.empty());
    CHECK(pairs.panels == 12);
    CHECK(pairs.bought == pairs.bought_without);
    CHECK(count_of(pairs, NoPair::laps_do_not_turn) == 12);
    // One panel of each hand: only mirror images.
    const PurlinPlane small_end = cut_planes::plane({{0_in, 0_in}, {72_in, 0_in}, {36_in, 36_in * cut_planes::factor}},
                                                    {EdgeKind::eave, EdgeKind::hip, EdgeKind::hip});
    CHECK(count_of(paired({laid(small_end, StartCorner::eave_left)}), NoPair::would_be_turned_over) == 2);
    // Laps that fit either way: three pairs at each hip. Flat and two-faced: any two.
    CHECK(paired({hip_from(StartCorner::eave_left)}, symmetric).pairs.size() == 6);
    CHECK(paired({laid(small_end, StartCorner::eave_left)}, symmetric).pairs.empty());
    CHECK(paired({laid(small_end, StartCorner::eave_left)}, flat).pairs.size() == 1);
    CHECK(paired({hip_from(StartCorner::eave_left)}, flat).pairs.size() == 6);
}

TEST_CASE("two hip ends begun at opposite sides share like hips, their laps where they belong") {
    // Front from its left, back from its right: turned end for end, a panel of the back lies as one of the front does.
    const std::vector<CutPanels> planes{hip_from(StartCorner::eave_left), hip_from(StartCorner::eave_right)};
    const PanelPairs pairs = paired(planes);
    CHECK(pairs.pairs.size() == 12);
    CHECK(pairs.panels_without == 24);
    CHECK(pairs.panels == 12);
    CHECK(pairs.unpaired.empty());
    for (const PanelPair& pair : pairs.pairs) {
        CHECK(pair.first.plane != pair.second.plane);
        CHECK(pair.first.turned != pair.second.turned);
        const CutPanel& a = planes[pair.first.plane].pieces[pair.first.piece];
        const CutPanel& b = planes[pair.second.plane].pieces[pair.second.piece];
        CHECK(a.upper.slope * b.upper.slope > 0.0);  // right with right, left with left
        // a + b less the step of 37.947332, and the clearance of 1/8 square to the cut: 0.125 x 1.452966 = 0.181621 up.
        const Length needed = a.length + b.length - 37.947332_in + 0.181621_in;
        CHECK(pair.bought >= needed - 0.00001_in);
        CHECK(pair.bought < needed + 1_in);
    }
    // The shortest and the longest: 38.263340 + 228 - 37.765711 = 228.497629, bought 229 instead of 39 + 228 = 267.
    const auto slanted =
        detail::try_pair({0, 0, &planes[0], &planes[0].pieces[0]}, {1, 6, &planes[1], &planes[1].pieces[6]}, painted);
    REQUIRE(slanted.pair.has_value());
    CHECK(slanted.pair->bought == 229_in);
    CHECK(slanted.pair->saved == 38_in);
    // 24 panels of 3212 in in all; every pair saves 37 to 39.
    CHECK(off_by(pairs.bought_without, 3212_in) < 1e-9);
    CHECK(pairs.saved >= 12.0 * 37_in);
    CHECK(off_by(pairs.bought, pairs.bought_without - pairs.saved) < 1e-9);
    // Begun at the same side, neither may be turned.
    const PanelPairs same = paired({hip_from(StartCorner::eave_left), hip_from(StartCorner::eave_left)});
    CHECK(same.pairs.empty());
    CHECK(count_of(same, NoPair::laps_do_not_turn) == 24);
}

TEST_CASE("what is cut off a left hip fits a right valley, not turned at all") {
    const std::vector<CutPanels> planes{hip_from(StartCorner::eave_left),
                                        laid(cut_planes::valley_plane(), StartCorner::eave_left)};
    const PanelPairs pairs = paired(planes);
    // Panels 7 to 10 of the valley plane; six of the hip's left side to take from.
    CHECK(pairs.pairs.size() == 4);
    for (const PanelPair& pair : pairs.pairs) {
        CHECK_FALSE(pair.first.turned);
        CHECK_FALSE(pair.second.turned);
        CHECK(pair.first.plane == 0);
        CHECK(pair.first.piece < 6);
        CHECK(pair.second.plane == 1);
        CHECK(pair.second.piece > 5);
    }
    CHECK(count_of(pairs, NoPair::partners_taken) == 2);
    CHECK(count_of(pairs, NoPair::laps_do_not_turn) == 6);
    // From the other side the laps are wrong; with the valley's gap its first panel has a bend.
    CHECK(paired({planes[0], laid(cut_planes::valley_plane(), StartCorner::eave_right)}).pairs.empty());
    const PanelPairs bent = paired({laid(cut_planes::valley_plane(), StartCorner::eave_left, 3_in)});
    CHECK(count_of(bent, NoPair::bent_cut) == 1);
}

TEST_CASE("pairs no longer than is made, of one slope and one profile, that save enough") {
    CutPanelPlan plan{.panels = {.ridge_hold_back = 1_in}};
    const PurlinPlane plane = cut_planes::hip_end();
    const auto laid_by = [&](const CutPanelPlan& by) {
        return lay_cut_panels(plane, cut_planes::level_supports(plane, 24_in), by);
    };
    // Turned end for end, a panel's cover stands a side lap of 3 in off, away from the first one's at a left hip, towards it at
    // a right one: the two overlap by (36 - 3) or (36 + 3) x 1.054093. Left, 1 with 6, 2 with 5 and 3 with 4: 38.263340 + 228 -
    // 34.785054 + 0.181621 = 231.659907, so 232. Right: 6.324555 less, 225.335352, so 226.
    plan.panels.longest = 232_in;
    CHECK(paired({laid_by(plan)}, symmetric).pairs.size() == 6);
    // 228: left only 1 with 5 and 2 with 4. Panel 3 fits either of them, 6 fits none.
    plan.panels.longest = 228_in;
    const PanelPairs shorter_ones = paired({laid_by(plan)}, symmetric);
    CHECK(shorter_ones.pairs.size() == 5);
    CHECK(count_of(shorter_ones, NoPair::too_long) == 1);
    CHECK(count_of(shorter_ones, NoPair::partners_taken) == 1);
    CHECK(paired({laid_by({.panels = {.ridge_hold_back = 1_in}})}, {.least_saved = 5_ft, .laps_either_way = true})
              .pairs.empty());
    CutPanelPlan other{.panels = {.ridge_hold_back = 1_in}};
    other.panels.panel.cover = 24_in;
    other.panels.panel.rib_spacing = 8_in;
    other.panels.start = StartCorner::eave_right;
    const PanelPairs profiles = paired({hip_from(StartCorner::eave_left), laid_by(other)});
    CHECK(profiles.pairs.empty());
    // A steeper hip is another slope.
    std::vector<CutPanels> corners;
    for (const Length high : {38_in, 80_in}) {
        corners.push_back(laid(cut_planes::plane({{0_in, 0_in}, {36_in, 0_in}, {0_in, high}},
                                                 {EdgeKind::eave, EdgeKind::hip, EdgeKind::rake}),
                               StartCorner::eave_left));
    }
    CHECK(count_of(paired(corners, flat), NoPair::no_such_slope) == 2);
    CHECK(refusal_of([&] { (void)pair_panels({}, {.clearance = -1_in}); }).path == "pairs.clearance");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)pair_panels({}, {.clearance = none}); }).path == "pairs.clearance");
    }
    CHECK(pair_panels({}).panels == 0);
}

TEST_CASE("random roofs: pairs hold, never worse than none, and near the best") {
    SeededNumbers random{5201};
    std::size_t made = 0;
    int compared = 0;
    int best = 0;
    for (int i = 0; i < sweep(1000); ++i) {
        CAPTURE(i);
        std::vector<CutPanels> planes;
        CutPanelPlan plan{.panels = {.ridge_hold_back = 1_in}};
        plan.panels.panel.lap = random.coin() ? SideLap::over_previous : SideLap::under_previous;
        plan.panels.rips = random.coin() ? RipPlace::last : RipPlace::balanced;
        for (const PurlinPlane& face : cut_planes::random_faces(random)) {
            plan.panels.start = random.coin() ? StartCorner::eave_left : StartCorner::eave_right;
            try {
                planes.push_back(lay_cut_panels(face, cut_planes::level_supports(face, 24_in), plan));
            } catch (const FaultError&) {
                continue;  // a face that the gaps eat up
            }
        }
        const PairPlan rules{.clearance = random.inches_between(0, 1),
                             .least_saved = random.inches_between(0, 8),
                             .laps_either_way = random.whole(0, 3) == 0,
                             .two_faced = random.whole(0, 3) == 0};
        const PanelPairs pairs = paired(planes, rules);
        CHECK(pairs.bought <= pairs.bought_without);
        made += pairs.pairs.size();
        // A handful of them, as many ways as there are.
        int kept = 0;
        for (CutPanels& plane : planes) {
            std::vector<CutPanel> few;
            for (const CutPanel& panel : plane.pieces) {
                if (kept < 9 && random.whole(0, 4) == 0) {
                    few.push_back(panel);
                    ++kept;
                }
            }
            plane.pieces = few;
        }
        const PanelPairs handful = paired(planes, rules);
        PanelPairs counted{{}, {}, 0, 0, no_length, no_length, no_length};
        const auto slanted = detail::slanted_panels(planes, counted);
        std::vector<bool> used(slanted.size(), false);
        const double most = most_saved(slanted, rules, used);
        CHECK(inches(handful.saved) <= most + 1e-6);
        compared += most > 0.0 ? 1 : 0;
        best += most > 0.0 && inches(handful.saved) > most - 1e-6 ? 1 : 0;
    }
    CAPTURE(compared);
    CAPTURE(best);
    CHECK(made > static_cast<std::size_t>(sweep(1000)));
    CHECK(compared > sweep(1000) / 4);
    CHECK(best * 50 >= compared * 49);  // the best that there is in 49 of 50
}

TEST_CASE("the judge rejects what was tampered with") {
    const std::vector<CutPanels> planes{hip_from(StartCorner::eave_left), hip_from(StartCorner::eave_right)};
    const PanelPairs sound = pair_panels(planes);
    const auto rejected = [&](const std::function<void(PanelPairs&)>& tamper, const PairPlan& plan = painted) {
        PanelPairs pairs = sound;
        tamper(pairs);
        return !find_faults_of_pairs(planes, plan, pairs).empty();
    };
    CHECK_FALSE(rejected([](PanelPairs&) {}));
    for (std::size_t k = 0; k < sound.pairs.size(); ++k) {
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].second.turned = !p.pairs[k].second.turned; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].first.over = true; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].second.at -= 1.5_in; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].second.at += 0.125_in; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].first.at -= 0.125_in; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].saved += 1_in; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].bought += 0.5_in; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].first.piece = 99; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs[k].first.plane = 7; }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs.push_back(p.pairs[k]); }));
        CHECK(rejected([&](PanelPairs& p) { p.pairs.erase(p.pairs.begin() + static_cast<std::ptrdiff_t>(k)); }));
        // An inch less, all sums kept true: the two no longer fit.
        CHECK(rejected([&](PanelPairs& p) {
            p.pairs[k].bought -= 1_in;
            p.pairs[k].second.at -= 1_in;
            p.pairs[k].saved += 1_in;
            p.saved += 1_in;
            p.bought -= 1_in;
        }));
    }
    CHECK(rejected([](PanelPairs& p) { std::swap(p.pairs[0].first.piece, p.pairs[5].first.piece); }));
    CHECK(rejected([](PanelPairs& p) { p.panels -= 1; }));
    CHECK(rejected([](PanelPairs& p) { p.bought -= 1_in; }));
    CHECK(rejected([](PanelPairs& p) { p.saved += 1_in; }));
    CHECK(rejected([](PanelPairs& p) { p.unpaired.push_back({0, 0, NoPair::too_long}); }));
    CHECK(rejected([](PanelPairs&) {}, {.clearance = 2_in}));
    CHECK(rejected([](PanelPairs&) {}, {.clearance = 0.5_in}));  // some pair is left no more than its 1/8
    CHECK(rejected([](PanelPairs&) {}, {.least_saved = 5_ft}));
    // Laps that may not turn: the pairs of a symmetric profile, judged as those of another.
    const std::vector<CutPanels> one{hip_from(StartCorner::eave_left)};
    CHECK_FALSE(find_faults_of_pairs(one, painted, pair_panels(one, symmetric)).empty());
    CHECK_FALSE(find_faults_of_pairs(one, painted, pair_panels(one, flat)).empty());
    // Longer than is made.
    std::vector<CutPanels> short_ones = planes;
    short_ones[1].longest = 240_in;
    CHECK_FALSE(find_faults_of_pairs(short_ones, painted, sound).empty());
}

TEST_CASE("pairs as JSON") {
    const std::string json = write_json(
        pair_panels({hip_from(StartCorner::eave_left), hip_from(StartCorner::eave_right)}), LengthUnit::inches);
    CHECK(json.find("\"panels\": 12") != std::string::npos);
    CHECK(json.find("\"turned\": true") != std::string::npos);
}
