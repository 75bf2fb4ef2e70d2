// SPDX-License-Identifier: BSL-1.0

// Small networks whose answer can be worked on a page; networks that settle nothing, or not all; and what the verdicts of
// hundreds of thin random networks are worth.

#include <eavewright/squaring/adjusted_network.hpp>
#include <eavewright/squaring/critical_values.hpp>

#include "../support/networks.hpp"
#include "../support/refusal.hpp"
#include "../support/seeded_numbers.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

using namespace eavewright;

namespace {

MarkedPoint<PlaneCorner> mark(const char* name, double along, double up, Freedom<PlaneCorner> freedom = Free{}) {
    return {name, {one_inch * along, one_inch * up}, freedom};
}
MarkedPoint<BuildingPoint> mark(const char* name, double x, double y, double z,
                                Freedom<BuildingPoint> freedom = Free{}) {
    return {name, {one_inch * x, one_inch * y, one_inch * z}, freedom};
}
FreeAlong<PlaneCorner> line(double along, double up) { return {{one_inch * along, one_inch * up}}; }
const FreeAlong<BuildingPoint> plumb{{no_length, no_length, one_inch}};
DistanceReading taped(std::size_t from, std::size_t to, double inches, std::size_t tape = 0) {
    return {from, to, one_inch * inches, tape};
}
TapeError tape(double deviation, double scale = 0.0) { return {one_inch * deviation, scale}; }
bool is(double value, double expected) { return std::fabs(value - expected) <= 1e-9 * (1.0 + std::fabs(expected)); }
bool is(Length value, double expected) { return is(inches(value), expected); }
double squared(const Covariance& all, std::size_t a, std::size_t i, std::size_t b, std::size_t j) {
    return square_inches(all.between(a, i, b, j));
}
const double z_blunder = 4.132148;  // z(0.9995) + z(0.80) = 3.290527 + 0.841621

template <class Value>
struct IsVector : std::false_type {};
template <class Item>
struct IsVector<std::vector<Item>> : std::true_type {};

/// Every number of a result, through its field list.
template <class Value>
bool all_finite(const Value& value) {
    if constexpr (std::is_same_v<Value, Length>) {
        return std::isfinite(inches(value));
    } else if constexpr (std::is_same_v<Value, double>) {
        return std::isfinite(value);
    } else if constexpr (std::is_same_v<Value, std::optional<Length>>) {
        return !value || all_finite(*value);
    } else if constexpr (IsVector<Value>::value) {
        for (const auto& each : value) {
            if (!all_finite(each)) {
                return false;
            }
        }
        return true;
    } else if constexpr (HasFields<Value>) {
        bool fine = true;
        for_each_field<Value>([&](const auto& each) { fine = fine && all_finite(value.*(each.get)); });
        return fine;
    } else {
        static_assert(std::is_enum_v<Value> || std::is_integral_v<Value> || std::is_same_v<Value, std::string>);
        return true;
    }
}
template <class Place>
bool is_sound(const AdjustedNetwork<Place>& adjusted) {
    return all_finite(adjusted) && all_finite(adjusted.covariance.entries);
}

/// The verdict, once every number has been found finite.
template <class Place>
NetworkStanding standing_of(const Network<Place>& network) {
    const AdjustedNetwork<Place> adjusted = adjust_network(network);
    REQUIRE(is_sound(adjusted));
    return adjusted.standing;
}
template <class Place>
std::vector<std::size_t> loose_in(const Network<Place>& network) {
    const AdjustedNetwork<Place> adjusted = adjust_network(network);
    REQUIRE(is_sound(adjusted));
    for (const std::size_t each : adjusted.loose) {
        CHECK(adjusted.points[each].loose);
        CHECK(inches(adjusted.points[each].plan.long_axis) == 0.0);
    }
    CHECK((adjusted.standing == NetworkStanding::loose) == !adjusted.loose.empty());
    return adjusted.loose;
}
using Loose = std::vector<std::size_t>;

/// A rectangle of 80 by 60 with both diagonals, nothing held.
PlaneNetwork rectangle() {
    return {{mark("a", 0, 0), mark("b", 80, 0), mark("c", 80, 60), mark("d", 0, 60)},
            {tape(0.05)},
            {taped(0, 1, 80), taped(1, 2, 60), taped(2, 3, 80), taped(3, 0, 60), taped(0, 2, 100), taped(1, 3, 100)}};
}

}  // namespace

TEST_CASE("a point between two held ones, by two tapes: the mean by weights") {
    const auto a =
        adjust_network(PlaneNetwork{{mark("a", 0, 0, Held{}), mark("p", 40, 0, line(1, 0)), mark("b", 100, 0, Held{})},
                                    {tape(0.1), tape(0.2)},
                                    {taped(0, 1, 40.1, 0), taped(1, 2, 59.8, 1)}});
    // 40.1 of weight 1/0.01 = 100 and 100 - 59.8 = 40.2 of weight 1/0.04 = 25: (4010 + 1005) / 125 = 40.12.
    CHECK(is(a.points[1].place.along, 40.12));
    CHECK(is(a.points[1].deviation.along, std::sqrt(1.0 / 125.0)));
    // Each reading shows the weight of the other: 25/125 and 100/125.
    CHECK(is(a.readings[0].redundancy, 0.2));
    CHECK(is(a.readings[1].redundancy, 0.8));
    CHECK(is(a.readings[0].residual, 0.02));
    CHECK(is(a.readings[1].residual, 59.88 - 59.8));
    // Both are off by 0.1 in all, of deviation sqrt(0.01 + 0.04): w = 0.4472 either way, its square the whole sum.
    CHECK(is(a.readings[0].normalised, 0.1 / std::sqrt(0.05)));
    CHECK(is(a.readings[1].normalised, 0.1 / std::sqrt(0.05)));
    CHECK(is(a.sum_of_squares, 0.2));
    CHECK(a.spare == 1);
    CHECK(a.unknowns == 1);
    CHECK(!a.afloat);
    CHECK(a.standing == NetworkStanding::agree);
    // If the first alone is wrong, it is by all of the 0.1: -0.02 / 0.2; the second by 0.1 too.
    CHECK(is(a.readings[0].blunder, -0.1));
    CHECK(is(a.readings[1].blunder, -0.1));
}

TEST_CASE("one distance read twice: each shows half its error, and hides the other half") {
    PlaneNetwork network{
        {mark("a", 0, 0, Held{}), mark("p", 40, 0, line(1, 0))}, {tape(0.1)}, {taped(0, 1, 40.0), taped(0, 1, 40.2)}};
    const auto a = adjust_network(network);
    CHECK(is(a.points[1].place.along, 40.1));
    CHECK(is(a.points[1].deviation.along, 0.1 / std::sqrt(2.0)));
    for (const AdjustedReading& each : a.readings) {
        CHECK(is(each.redundancy, 0.5));
        CHECK(std::fabs(each.normalised) == doctest::Approx(0.1 / (0.1 * std::sqrt(0.5))).epsilon(1e-9));
        REQUIRE(each.smallest_blunder.has_value());
        // A shift of 4.132 deviations of the residual is seen; the residual has sigma sqrt(1/2), and shows half the blunder.
        CHECK(inches(*each.smallest_blunder) == doctest::Approx(z_blunder * 0.1 * std::sqrt(2.0)).epsilon(1e-6));
        CHECK(inches(*each.hidden_move) == doctest::Approx(z_blunder * 0.1 * std::sqrt(2.0) / 2.0).epsilon(1e-6));
    }
    CHECK(a.standing == NetworkStanding::agree);
    network.readings[1] = taped(0, 1, 40.6);  // 0.6 apart, of deviation 0.1414: w = 4.24
    const auto wrong = adjust_network(network);
    CHECK(is(wrong.readings[0].normalised, 0.6 / (0.1 * std::sqrt(2.0))));
    CHECK(wrong.readings[0].stands_out);
    CHECK(wrong.standing == NetworkStanding::blunder_not_placed);
    CHECK(wrong.suspects == std::vector<std::size_t>{0, 1});
}

TEST_CASE("a 3-4-5 triangle on a held side: the place, its variances and its ellipse") {
    const auto a = adjust_network(PlaneNetwork{{mark("a", 0, 0, Held{}), mark("b", 48, 0, Held{}), mark("p", 1, 35)},
                                               {tape(0.1)},
                                               {taped(0, 2, 36), taped(1, 2, 60)}});
    CHECK(is(a.points[2].place.along, 0.0));
    CHECK(is(a.points[2].place.up, 36.0));
    // d1 = up; d2 = -0.8 along + 0.6 up, so along = (0.6 d1 - d2) / 0.8: variances (0.36 + 1)/0.64 = 2.125 and 1, together
    // 0.6/0.8 = 0.75. Of these the ellipse: 1.5625 +- sqrt(0.5625^2 + 0.75^2) = 1.5625 +- 0.9375 = 2.5 and 0.625, the long
    // axis along (0.75, 2.5 - 2.125) = (2, 1) / sqrt(5).
    CHECK(is(squared(a.covariance, 2, 0, 2, 0), 0.02125));
    CHECK(is(squared(a.covariance, 2, 1, 2, 1), 0.01));
    CHECK(is(squared(a.covariance, 2, 0, 2, 1), 0.0075));
    CHECK(is(a.points[2].plan.long_axis, 0.1 * std::sqrt(2.5)));
    CHECK(is(a.points[2].plan.short_axis, 0.1 * std::sqrt(0.625)));
    CHECK(is(a.points[2].plan.along, 2.0 / std::sqrt(5.0)));
    CHECK(is(a.points[2].plan.up, 1.0 / std::sqrt(5.0)));
    CHECK(a.standing == NetworkStanding::not_checked);
    CHECK(a.spare == 0);
    CHECK(!a.readings[0].checked);
    CHECK(!a.readings[0].smallest_blunder.has_value());
    CHECK(is(a.points[0].deviation.along, 0.0));
}

TEST_CASE("a point that slides along a slanted line") {
    // On the line (0.6, 0.8) through (30, 40), which is 50 from a: read 51, it stands at 51 (0.6, 0.8).
    const auto a = adjust_network(
        PlaneNetwork{{mark("a", 0, 0, Held{}), mark("p", 30, 40, line(3, 4))}, {tape(0.1)}, {taped(0, 1, 51)}});
    CHECK(is(a.points[1].place.along, 30.6));
    CHECK(is(a.points[1].place.up, 40.8));
    CHECK(is(a.points[1].deviation.along, 0.06));
    CHECK(is(a.points[1].deviation.up, 0.08));
    CHECK(is(squared(a.covariance, 1, 0, 1, 1), 0.0048));
    CHECK(is(a.points[1].plan.long_axis, 0.1));
    CHECK(inches(a.points[1].plan.short_axis) < 1e-8);
    CHECK(a.unknowns == 1);
}

TEST_CASE("heights by one setup of a level, from a held mark") {
    const std::vector<Reading<BuildingPoint>> levels{LevelReading{0, 0, one_inch * 30.0, one_inch * 0.1},
                                                     LevelReading{1, 0, one_inch * 25.0, one_inch * 0.1},
                                                     LevelReading{2, 0, one_inch * 32.0, one_inch * 0.1}};
    const auto a = adjust_network(BuildingNetwork{
        {mark("a", 0, 0, 100, Held{}), mark("b", 90, 0, 100, plumb), mark("c", 90, 90, 100, plumb)}, {}, levels});
    // The line of sight is at 100 + 30; b at 130 - 25, c at 130 - 32.
    CHECK(is(a.points[1].place.z, 105.0));
    CHECK(is(a.points[2].place.z, 98.0));
    // Each height from two readings, one of them shared.
    CHECK(is(squared(a.covariance, 1, 2, 1, 2), 0.02));
    CHECK(is(squared(a.covariance, 1, 2, 2, 2), 0.01));
    CHECK(a.unknowns == 3);
    CHECK(a.spare == 0);
    CHECK(a.standing == NetworkStanding::not_checked);
}

TEST_CASE("offsets from a string: left of it is more") {
    const auto offset = [](std::size_t point, std::size_t from, std::size_t to, double by) {
        return OffsetReading{point, from, to, one_inch * by, one_inch * 0.1};
    };
    const std::vector<MarkedPoint<PlaneCorner>> points{mark("a", 0, 0, Held{}), mark("b", 100, 0, Held{}),
                                                       mark("p", 40, 0, line(0, 1))};
    const auto a = adjust_network(PlaneNetwork{points, {}, {offset(2, 0, 1, 2.0)}});
    CHECK(is(a.points[2].place.up, 2.0));
    CHECK(is(a.points[2].deviation.up, 0.1));
    CHECK(is(adjust_network(PlaneNetwork{points, {}, {offset(2, 1, 0, 2.0)}}).points[2].place.up, -2.0));
    // The end of the string is what moves: a held mark at (40, 2) reads 1.2, so (100 * 2 - 40 b) / sqrt(100^2 + b^2) = 1.2,
    // or 1598.56 b^2 - 16000 b + 25600 = 0 (all squared: 40000 - 16000 b + 1600 b^2 = 14400 + 1.44 b^2).
    const auto b =
        adjust_network(PlaneNetwork{{mark("a", 0, 0, Held{}), mark("b", 100, 0, line(0, 1)), mark("p", 40, 2, Held{})},
                                    {},
                                    {offset(2, 0, 1, 1.2)}});
    const double end = (16000.0 - std::sqrt(16000.0 * 16000.0 - 4.0 * 1598.56 * 25600.0)) / (2.0 * 1598.56);
    CHECK(is(b.points[1].place.up, end));
    CHECK(inches(b.points[1].deviation.up) == doctest::Approx(0.1 * 100.0 / 40.0).epsilon(2e-3));  // by the lever
}

TEST_CASE("a stretched tape: what a known distance says of it goes into all its readings") {
    // 1000 held reads 1000.5: s 1000 = 0.5 of deviation 0.05, and s = 0 of deviation 0.0005. Weights of s: 1000^2 / 0.05^2 =
    // 4e8 and 1 / 0.0005^2 = 4e6, so s = (0.5 * 1000 / 0.05^2) / 4.04e8 = 2e5 / 4.04e8.
    const auto a = adjust_network(
        PlaneNetwork{{mark("a", 0, 0, Held{}), mark("b", 1000, 0, Held{}), mark("p", 2000, 0, line(1, 0))},
                     {tape(0.05, 0.0005)},
                     {taped(0, 1, 1000.5), taped(0, 2, 2001.0)}});
    const double s = 2e5 / 4.04e8;
    const double deviation = std::sqrt(1.0 / 4.04e8);
    CHECK(is(a.tapes[0].scale, s));
    CHECK(is(a.tapes[0].deviation, deviation));
    CHECK(is(a.tapes[0].redundancy, 400.0 / 404.0));
    CHECK(is(a.readings[0].redundancy, 4.0 / 404.0));
    CHECK(is(a.readings[1].redundancy, 0.0));
    CHECK(is(a.points[2].place.along, 2001.0 / (1.0 + s)));
    const double x = 2001.0 / (1.0 + s);
    CHECK(is(a.points[2].deviation.along, std::sqrt(0.05 * 0.05 + x * x * deviation * deviation) / (1.0 + s)));
    CHECK(a.spare == 1);
    CHECK(is(a.sum_of_squares, 0.25 / (0.0025 + 0.25)));  // 0.5 off, of deviation sqrt(0.05^2 + 0.5^2)
}

TEST_CASE("marks in one line cannot say how far off it they are") {
    CHECK(loose_in(PlaneNetwork{{mark("a", 0, 0, Held{}), mark("p", 50, 0), mark("b", 100, 0, Held{})},
                                {tape(0.05)},
                                {taped(0, 1, 50), taped(1, 2, 50)}}) == Loose{1});
    // Nearly so is no better: about 1 in off the line, and both readings end there.
    CHECK(loose_in(PlaneNetwork{{mark("a", 0, 0, Held{}), mark("p", 50, 1), mark("b", 100, 0, Held{})},
                                {tape(0.05)},
                                {taped(0, 1, 50), taped(1, 2, 50)}}) == Loose{1});
    const PlaneNetwork afloat{{mark("a", 0, 0), mark("p", 50, 0.5), mark("b", 100, 0)},
                              {tape(0.05)},
                              {taped(0, 1, 50), taped(1, 2, 50), taped(0, 2, 100)}};
    CHECK(loose_in(afloat) == Loose{0, 1, 2});
    // Six tapes in space between four marks of one flat: how far they are out of it nobody can say.
    const BuildingNetwork flat{
        {mark("a", 0, 0, 0), mark("b", 80, 0, 0), mark("c", 80, 60, 0), mark("d", 0, 60, 1)},
        {tape(0.05)},
        {taped(0, 1, 80), taped(1, 2, 60), taped(2, 3, 80), taped(3, 0, 60), taped(0, 2, 100), taped(1, 3, 100)}};
    CHECK(loose_in(flat) == Loose{0, 1, 2, 3});
}

TEST_CASE("a triangle broken by a little is a verdict, by much a fault") {
    PlaneNetwork network{{mark("a", 0, 0), mark("p", 50, 1), mark("b", 100, 0)},
                         {tape(0.05)},
                         {taped(0, 1, 50), taped(1, 2, 50), taped(0, 2, 100.2)}};
    CHECK(standing_of(network) == NetworkStanding::loose);
    network.readings[2] = taped(0, 2, 102.0);
    const Fault fault = refusal_of([&] { (void)adjust_network(network); });
    CHECK(fault.code == FaultCode::contradiction);
    CHECK(fault.path == "network.readings[2].read");
    // Over held ground 100 long, two readings of 49.9 and 50 leave 0.1 open; of 30 and 50, 20.
    PlaneNetwork held{{mark("a", 0, 0, Held{}), mark("p", 50, 1), mark("b", 100, 0, Held{})},
                      {tape(0.05)},
                      {taped(0, 1, 49.9), taped(1, 2, 50)}};
    CHECK(standing_of(held) == NetworkStanding::loose);
    held.readings[0] = taped(0, 1, 30);
    CHECK(standing_of(held) == NetworkStanding::not_settled);
}

TEST_CASE("a rectangle with a reading less, a mark unread, a mark half read") {
    CHECK(standing_of(rectangle()) == NetworkStanding::agree);
    CHECK(adjust_network(rectangle()).afloat);
    PlaneNetwork network = rectangle();
    network.readings.pop_back();
    CHECK(standing_of(network) == NetworkStanding::not_checked);
    network.readings.pop_back();
    CHECK(loose_in(network) == Loose{0, 1, 2, 3});  // no diagonal: it racks
    PlaneNetwork unread = rectangle();
    unread.points.push_back(mark("e", 40, 30));
    CHECK(loose_in(unread) == Loose{4});
    // The rest is known as well as if the mark were not there.
    CHECK(
        is(adjust_network(unread).points[2].deviation.up, inches(adjust_network(rectangle()).points[2].deviation.up)));
    unread.readings.push_back(taped(4, 0, 50));
    CHECK(loose_in(unread) == Loose{4});
    unread.points[0].freedom = Held{};
    unread.points[1].freedom = Held{};
    CHECK(loose_in(unread) == Loose{4});
    PlaneNetwork by_line = rectangle();  // a mark read from both ends of one side, all but in it
    by_line.points.push_back(mark("e", 40, 0.5));
    by_line.readings.push_back(taped(4, 0, 40));
    by_line.readings.push_back(taped(4, 1, 40));
    CHECK(loose_in(by_line) == Loose{4});
}

TEST_CASE("two bodies that nothing ties, and two that hang at one mark: the larger stays") {
    CHECK(loose_in(PlaneNetwork{{mark("a", 0, 0), mark("b", 30, 0), mark("c", 0, 40), mark("d", 100, 0),
                                 mark("e", 130, 0), mark("f", 100, 40), mark("g", 130, 40)},
                                {tape(0.05)},
                                {taped(0, 1, 30), taped(1, 2, 50), taped(2, 0, 40), taped(3, 4, 30), taped(4, 5, 50),
                                 taped(5, 3, 40), taped(3, 6, 50), taped(4, 6, 40), taped(5, 6, 30)}}) ==
          Loose{0, 1, 2});
    PlaneNetwork hinged = rectangle();
    hinged.points.push_back(mark("e", 110, 60));
    hinged.points.push_back(mark("f", 80, 100));
    hinged.readings.insert(hinged.readings.end(), {taped(2, 4, 30), taped(2, 5, 40), taped(4, 5, 50)});
    CHECK(loose_in(hinged) == Loose{4, 5});
}

TEST_CASE("all points held: readings are judged, nothing is moved") {
    PlaneNetwork network = rectangle();
    for (auto& each : network.points) {
        each.freedom = Held{};
    }
    auto a = adjust_network(network);
    CHECK(is_sound(a));
    CHECK(a.unknowns == 0);
    CHECK(a.spare == 6);
    CHECK(a.standing == NetworkStanding::agree);
    CHECK(is(a.readings[3].redundancy, 1.0));
    network.readings[0] = taped(0, 1, 80.25);
    a = adjust_network(network);
    CHECK(a.standing == NetworkStanding::blunder_placed);
    CHECK(a.suspects == std::vector<std::size_t>{0});
    CHECK(is(a.readings[0].blunder, 0.25));
    CHECK(is(*a.readings[0].hidden_move, 0.0));
}

TEST_CASE("next to nothing read") {
    const Fault fault = refusal_of([] { (void)adjust_network(PlaneNetwork{{mark("a", 0, 0)}, {tape(0.05)}, {}}); });
    CHECK(fault.code == FaultCode::missing_field);
    CHECK(fault.path == "network.readings");
    CHECK(standing_of(BuildingNetwork{{mark("a", 0, 0, 0)}, {}, {LevelReading{0, 0, one_inch * 30.0}}}) ==
          NetworkStanding::not_checked);
    CHECK(standing_of(PlaneNetwork{{mark("a", 0, 0), mark("b", 5, 0)}, {tape(0.05)}, {taped(0, 1, 5)}}) ==
          NetworkStanding::not_checked);
    CHECK(loose_in(BuildingNetwork{{mark("a", 0, 0, 0), mark("b", 50, 0, 0), mark("c", 0, 50, 0)},
                                   {},
                                   {LevelReading{0, 0, one_inch * 30.0}, LevelReading{1, 0, one_inch * 31.0},
                                    LevelReading{2, 0, one_inch * 32.0}}}) ==
          Loose{0, 1, 2});  // heights are known, places in plan are not
    CHECK(loose_in(PlaneNetwork{
              {mark("a", 0, 0), mark("b", 50, 0), mark("c", 25, 1)}, {}, {OffsetReading{2, 0, 1, one_inch}}}) ==
          Loose{0, 1, 2});
}

TEST_CASE("marks said to stand in one place") {
    const std::vector<MarkedPoint<PlaneCorner>> points{mark("a", 0, 0, Held{}), mark("b", 80, 0, Held{}),
                                                       mark("c", 80, 60), mark("d", 80, 60)};
    PlaneNetwork network{points, {tape(0.05)}, {taped(0, 2, 100), taped(1, 2, 60), taped(0, 3, 100), taped(1, 3, 60)}};
    CHECK(standing_of(network) == NetworkStanding::not_checked);
    network.readings.push_back(taped(2, 3, 1.0));  // read 1 in apart where all else says 0
    CHECK(standing_of(network) == NetworkStanding::blunder_placed);
    CHECK(loose_in(PlaneNetwork{{mark("a", 0, 0, Held{}), mark("b", 0, 0)}, {tape(0.05)}, {taped(0, 1, 5)}}) ==
          Loose{1});
    CHECK(loose_in(PlaneNetwork{{mark("a", 0, 0), mark("b", 0, 0)}, {tape(0.05)}, {taped(0, 1, 5)}}) == Loose{0, 1});
}

TEST_CASE("a line square to the only reading does not feel it") {
    const auto along = [](double slide, double length) {
        return PlaneNetwork{
            {mark("a", 0, 0, Held{}), mark("p", slide, 50, line(1, 0))}, {tape(0.05)}, {taped(0, 1, length)}};
    };
    CHECK(loose_in(along(0, 50)) == Loose{1});
    CHECK(standing_of(along(3, 49.96)) == NetworkStanding::loose);        // the line comes no nearer than 50
    CHECK(standing_of(along(3, 49.0)) == NetworkStanding::not_settled);   // far less than the line comes near
    CHECK(standing_of(along(14, 52.0)) == NetworkStanding::not_checked);  // sqrt(52^2 - 50^2) = 14.28
    // The same with a body on it: turning about a carries p off its line.
    PlaneNetwork body = along(0, 50);
    body.points.push_back(mark("c", 30, 20));
    body.readings.insert(body.readings.end(), {taped(0, 2, std::sqrt(1300.0)), taped(1, 2, std::sqrt(1800.0))});
    CHECK(loose_in(body) == Loose{1, 2});
    CHECK(!adjust_network(body).afloat);
    // A body that slides along a line as a whole is afloat, not loose.
    PlaneNetwork sliding = rectangle();
    sliding.points[0].freedom = line(1, 0);
    sliding.points[1].freedom = line(1, 0);
    CHECK(standing_of(sliding) == NetworkStanding::agree);
    CHECK(adjust_network(sliding).afloat);
}

TEST_CASE("the mirror image is told by where the point is said to be") {
    const auto network = [](double about) {
        return PlaneNetwork{{mark("a", 0, 0, Held{}), mark("b", 80, 0, Held{}), mark("c", 79, about)},
                            {tape(0.05)},
                            {taped(0, 2, 100), taped(1, 2, 60)}};
    };
    CHECK(is(adjust_network(network(55)).points[2].place.up, 60.0));
    CHECK(is(adjust_network(network(-55)).points[2].place.up, -60.0));
    CHECK(loose_in(network(0)) == Loose{2});  // right between the two
}

TEST_CASE("a tape so fine that only its scale is checked does not blame a reading") {
    const auto a = adjust_network(PlaneNetwork{
        {mark("a", 0, 0, Held{}), mark("b", 10000, 0, Held{})}, {tape(0.0001, 0.01)}, {taped(0, 1, 10500)}});
    CHECK(is_sound(a));
    CHECK(a.standing == NetworkStanding::disagree);  // 5 deviations of the scale
    CHECK(a.suspects.empty());
    CHECK(!a.readings[0].checked);
}

TEST_CASE("coarse and fine readings side by side are both used") {
    // Deviations of 0.0001 in along the string and of 12 in off it, five times as far out as its end.
    const auto a = adjust_network(PlaneNetwork{{mark("a", 0, 0, Held{}), mark("b", 100, 0, Held{}), mark("p", 500, 0)},
                                               {tape(0.0001)},
                                               {taped(0, 2, 500), OffsetReading{2, 0, 1, no_length, one_inch * 12.0}}});
    CHECK(is_sound(a));
    CHECK(a.loose.empty());
    CHECK(inches(a.points[2].deviation.along) == doctest::Approx(0.0001).epsilon(1e-6));
    CHECK(inches(a.points[2].deviation.up) == doctest::Approx(12.0).epsilon(1e-6));
}

namespace {

std::array<double, 3> spread(const PlaneCorner& p) { return {inches(p.along), inches(p.up), 0.0}; }
std::array<double, 3> spread(const BuildingPoint& p) { return {inches(p.x), inches(p.y), inches(p.z)}; }
PlaneCorner place_at(const PlaneCorner*, const std::array<double, 3>& p) { return {one_inch * p[0], one_inch * p[1]}; }
BuildingPoint place_at(const BuildingPoint*, const std::array<double, 3>& p) {
    return {one_inch * p[0], one_inch * p[1], one_inch * p[2]};
}

using Numbers = std::vector<double>;
Numbers times(Numbers all, double factor) {
    for (double& each : all) {
        each *= factor;
    }
    return all;
}
double furthest_apart(const Numbers& a, const Numbers& b) {
    double most = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        most = std::fmax(most, std::fabs(a[i] - b[i]));
    }
    return most;
}

struct NullSpace {
    std::vector<Numbers> moves;  ///< each of length 1
    bool is_clear = true;        ///< no move in between felt and not felt
};
/// By elimination with full pivots.
NullSpace null_space(std::vector<Numbers> rows, std::size_t columns) {
    NullSpace found;
    std::vector<std::size_t> order(columns);
    for (std::size_t i = 0; i < columns; ++i) {
        order[i] = i;
    }
    std::size_t rank = 0;
    for (; rank < columns && rank < rows.size(); ++rank) {
        std::size_t row = rank;
        std::size_t column = rank;
        for (std::size_t i = rank; i < rows.size(); ++i) {
            for (std::size_t j = rank; j < columns; ++j) {
                if (std::fabs(rows[i][order[j]]) > std::fabs(rows[row][order[column]])) {
                    row = i;
                    column = j;
                }
            }
        }
        std::swap(rows[rank], rows[row]);
        std::swap(order[rank], order[column]);
        const double pivot = rows[rank][order[rank]];
        found.is_clear = found.is_clear && !(std::fabs(pivot) > 1e-7 && std::fabs(pivot) < 0.01);
        if (std::fabs(pivot) <= 1e-6) {
            break;
        }
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const double share = i == rank ? 0.0 : rows[i][order[rank]] / pivot;
            for (std::size_t j = rank; share != 0.0 && j < columns; ++j) {
                rows[i][order[j]] -= share * rows[rank][order[j]];
            }
        }
    }
    for (std::size_t free = rank; free < columns; ++free) {
        Numbers move(columns, 0.0);
        move[order[free]] = 1.0;
        double size = 1.0;
        for (std::size_t i = 0; i < rank; ++i) {
            move[order[i]] = -rows[i][order[free]] / rows[i][order[i]];
            size += move[order[i]] * move[order[i]];
        }
        found.moves.push_back(times(move, 1.0 / std::sqrt(size)));
    }
    return found;
}

/// What is read at places near those found, as a plain function of the numbers that are free.
template <class Place>
struct Moves {
    const Network<Place>& network;
    const AdjustedNetwork<Place>& found;
    std::vector<std::size_t> first;
    std::size_t setups;
    std::size_t count = 0;

    Moves(const Network<Place>& given, const AdjustedNetwork<Place>& adjusted) : network{given}, found{adjusted} {
        for (const auto& point : network.points) {
            first.push_back(count);
            count += point.freedom.index() == 0 ? coordinate_count<Place> : point.freedom.index() == 2 ? 1U : 0U;
        }
        setups = count;
        for (const auto& each : network.readings) {
            count = each.index() == 2 ? setups + 2 : count;
        }
    }
    std::array<double, 3> place(std::size_t p, const Numbers& x) const {
        auto at = spread(found.points[p].place);
        const auto* along = std::get_if<FreeAlong<Place>>(&network.points[p].freedom);
        for (std::size_t i = 0; i < coordinate_count<Place>; ++i) {
            if (along != nullptr) {
                at[i] += spread(along->direction)[i] * x[first[p]];
            } else if (network.points[p].freedom.index() == 0) {
                at[i] += x[first[p] + i];
            }
        }
        return at;
    }
    double distance(std::size_t a, std::size_t b, const Numbers& x) const {
        const auto from = place(a, x);
        const auto to = place(b, x);
        return std::hypot(from[0] - to[0], from[1] - to[1], from[2] - to[2]);
    }
    double reading(const Reading<Place>& each, const Numbers& x) const {
        if (const auto* r = std::get_if<DistanceReading>(&each)) {
            return distance(r->from, r->to, x);
        }
        if (const auto* r = std::get_if<OffsetReading>(&each)) {
            const auto p = place(r->point, x);
            const auto a = place(r->line_from, x);
            const auto b = place(r->line_to, x);
            return ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) /
                   std::hypot(b[0] - a[0], b[1] - a[1]);
        }
        if constexpr (coordinate_count<Place> == 3) {
            const auto& r = std::get<LevelReading>(each);
            return x[setups + r.setup] - place(r.point, x)[2];
        }
        return 0.0;
    }
    /// All readings, and with them all distances if asked: then only rigid motions are left undecided.
    Numbers readings(const Numbers& x, bool and_distances) const {
        Numbers all;
        for (const auto& each : network.readings) {
            all.push_back(reading(each, x));
        }
        for (std::size_t a = 0; a < first.size() && and_distances; ++a) {
            for (std::size_t b = 0; b < a; ++b) {
                all.push_back(distance(a, b, x));
            }
        }
        return all;
    }
    /// What no reading feels, from differences over a thousandth of an inch either way.
    NullSpace unfelt(bool and_distances) const {
        std::vector<Numbers> rows(readings(Numbers(count, 0.0), and_distances).size(), Numbers(count, 0.0));
        for (std::size_t i = 0; i < count; ++i) {
            Numbers step(count, 0.0);
            step[i] = 1e-3;
            const Numbers more = readings(step, and_distances);
            const Numbers less = readings(times(step, -1.0), and_distances);
            for (std::size_t r = 0; r < rows.size(); ++r) {
                rows[r][i] = (more[r] - less[r]) / 2e-3;
            }
        }
        return null_space(std::move(rows), count);
    }
};

/// A few marks, few readings: some points well placed, some half, some not at all.
template <class Place>
Network<Place> thin_network(SeededNumbers& random) {
    constexpr Place* kind = nullptr;
    const int points = random.whole(2, 7);
    std::vector<std::array<double, 3>> truth;
    Network<Place> all;
    all.tapes.push_back(tape(0.02));
    const int holding = random.whole(0, 2);
    for (int p = 0; p < points; ++p) {
        truth.push_back({random.between(0, 300), random.between(0, 200),
                         coordinate_count<Place> == 3 ? random.between(0, 150) : 0.0});
        MarkedPoint<Place> point{"p" + std::to_string(p), place_at(kind, truth.back()), Free{}};
        const int freedom = holding == 0 ? 0 : random.whole(0, 5);
        if (freedom == 1 || freedom == 2) {
            point.freedom = Held{};
        } else if (freedom == 3) {
            point.freedom = FreeAlong<Place>{
                place_at(kind, {random.between(-1, 1), random.between(0.2, 1), random.between(-1, 1)})};
        } else {
            point.about = place_at(
                kind, {truth.back()[0] + random.between(-0.3, 0.3), truth.back()[1] + random.between(-0.3, 0.3),
                       truth.back()[2] + random.between(-0.3, 0.3)});
        }
        all.points.push_back(point);
    }
    const int share = random.whole(2, 9);
    for (std::size_t a = 0; a < truth.size(); ++a) {
        for (std::size_t b = 0; b < a; ++b) {
            const double length =
                std::hypot(truth[a][0] - truth[b][0], truth[a][1] - truth[b][1], truth[a][2] - truth[b][2]);
            if (length > 20.0 && random.whole(0, 9) < share) {
                all.readings.push_back(taped(a, b, length + random.between(-0.02, 0.02)));
            }
        }
    }
    if (points > 2 && random.coin()) {
        const auto side = [&](std::size_t i) { return truth[2][i] - truth[0][i]; };
        const double off = (side(0) * (truth[1][1] - truth[0][1]) - side(1) * (truth[1][0] - truth[0][0])) /
                           std::hypot(side(0), side(1));
        all.readings.push_back(OffsetReading{1, 0, 2, one_inch * off});
    }
    if constexpr (coordinate_count<Place> == 3) {
        for (std::size_t p = 0; p < truth.size() && random.coin(); ++p) {
            all.readings.push_back(LevelReading{p, p % 2, one_inch * (100.0 - truth[p][2])});
        }
    }
    return all;
}

struct Count {
    int networks = 0;
    int with_loose = 0;
    int loose_and_not = 0;
    int unclear = 0;
    int not_settled = 0;
    int wrong = 0;
};

/// Length of a point's part in a move.
template <class Place>
double moved_by(const Moves<Place>& moves, std::size_t p, const Numbers& move) {
    const std::array<double, 3> there = moves.place(p, move);
    const std::array<double, 3> here = spread(moves.found.points[p].place);
    return std::hypot(there[0] - here[0], there[1] - here[1], there[2] - here[2]);
}

/// Whether what is said of each point is what the slopes of the readings say.
template <class Place>
bool is_honest(const AdjustedNetwork<Place>& found, const Moves<Place>& moves, const std::vector<Numbers>& unfelt) {
    bool honest = true;
    bool has_lines = false;
    for (const auto& point : moves.network.points) {
        has_lines = has_lines || point.freedom.index() == 2;
    }
    const Numbers here = moves.readings(Numbers(moves.count, 0.0), false);
    for (const Numbers& move : unfelt) {  // what no reading feels changes them in second order only
        honest = honest && furthest_apart(moves.readings(times(move, 0.01), false), here) < 1e-4;
    }
    // Afloat, a body that slides and turns at once is called loose; else only what moves in itself is.
    const bool may_be_loose = !found.afloat || has_lines || unfelt.size() > moves.unfelt(true).moves.size();
    for (std::size_t p = 0; p < found.points.size(); ++p) {
        double moved = 0.0;
        for (const Numbers& move : unfelt) {
            moved = std::fmax(moved, moved_by(moves, p, move));
        }
        if (found.points[p].loose) {
            honest = honest && moved > 1e-6 && may_be_loose;
        } else if (!found.afloat) {
            honest = honest && moved < 1e-5;
        }
        for (std::size_t q = 0; q < p && found.afloat && !found.points[p].loose; ++q) {
            for (std::size_t k = 0; k < unfelt.size() && !found.points[q].loose; ++k) {
                const double change =
                    moves.distance(p, q, times(unfelt[k], 1e-3)) - moves.distance(p, q, times(unfelt[k], -1e-3));
                honest = honest && std::fabs(change) / 2e-3 < 1e-5;
            }
        }
    }
    return honest;
}

template <class Place>
Count fuzz(std::uint64_t seed, int networks) {
    SeededNumbers random{seed};
    Count count;
    for (int i = 0; i < networks; ++i) {
        const Network<Place> network = thin_network<Place>(random);
        if (network.readings.empty()) {
            continue;
        }
        const AdjustedNetwork<Place> found = adjust_network(network);
        CAPTURE(i);
        REQUIRE(is_sound(found));
        ++count.networks;
        count.not_settled += found.standing == NetworkStanding::not_settled ? 1 : 0;
        const Moves<Place> moves{network, found};
        if (moves.count == 0) {
            continue;
        }
        const NullSpace unfelt = moves.unfelt(false);
        if (!unfelt.is_clear || found.standing == NetworkStanding::not_settled) {
            ++count.unclear;
            continue;
        }
        count.with_loose += found.loose.empty() ? 0 : 1;
        count.loose_and_not += !found.loose.empty() && found.loose.size() < network.points.size() ? 1 : 0;
        const bool honest = is_honest(found, moves, unfelt.moves);
        CHECK(honest);
        count.wrong += honest ? 0 : 1;
    }
    return count;
}

void judge(const Count& count, int networks) {
    MESSAGE(count.networks << " networks, " << count.with_loose << " with loose points, " << count.loose_and_not
                           << " of them with firm ones; " << count.unclear << " in between, " << count.not_settled
                           << " not settled");
    CHECK(count.networks > networks * 3 / 4);
    CHECK(count.loose_and_not > networks / 20);
    CHECK(count.unclear < networks / 10);
    CHECK(count.wrong == 0);
}

}  // namespace

TEST_CASE("thin random networks in a plane: what is called loose moves unfelt, what is not is settled") {
    judge(fuzz<PlaneCorner>(81, sweep(4000)), sweep(4000));
}

TEST_CASE("thin random networks in space: what is called loose moves unfelt, what is not is settled") {
    judge(fuzz<BuildingPoint>(82, sweep(4000)), sweep(4000));
}
