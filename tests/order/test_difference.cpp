// SPDX-License-Identifier: BSL-1.0
#include <eavewright/order/difference.hpp>
#include <eavewright/writing/json.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/refusal.hpp"
#include "support/seeded_numbers.hpp"

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <tuple>
#include <vector>

using namespace eavewright;
using namespace eavewright::literals;

namespace {
const Tick sixteenth = Tick::of_inch(16);

PlacedPiece piece(PieceKind kind, const std::string& plane, const std::string& name, Length length, Length width) {
    return {.kind = kind, .plane = plane, .name = name, .length = length, .width = width};
}
PlacedPiece sheet(const std::string& name, Length length, Length width = 48_in) {
    return piece(PieceKind::sheet, "front", name, length, width);
}
std::string line(const PieceChange& change) {
    return change.plane + " " + std::string{name_of(change.kind)} + " " + change.name + " " +
           std::string{name_of(change.change)};
}
std::vector<std::string> lines(const Difference& result) {
    std::vector<std::string> all;
    for (const PieceChange& change : result.changes) {
        all.push_back(line(change));
    }
    return all;
}
}  // namespace

TEST_CASE("difference: a slope made longer by hand") {
    // Before: sheets A1 and A2 of 96, A3 of 54 7/16; panel 1 of 19 ft 6 in. After: A3 is 60 7/16, A4 comes in at 22 1/8,
    // A1 is gone; the panel is now 20 ft on front, and the same panel 1 on back is as it was.
    const std::vector<PlacedPiece> before{sheet("A1", 96_in), sheet("A2", 96_in), sheet("A3", 54.4375_in),
                                          piece(PieceKind::panel, "front", "1", 234_in, 39_in),
                                          piece(PieceKind::panel, "back", "1", 234_in, 39_in)};
    const std::vector<PlacedPiece> after{piece(PieceKind::panel, "back", "1", 234_in, 39_in),
                                         piece(PieceKind::panel, "front", "1", 240_in, 39_in),
                                         sheet("A4", 96_in, 22.125_in), sheet("A3", 60.4375_in), sheet("A2", 96_in)};
    const Difference result = difference(before, after, sixteenth);
    CHECK(lines(result) == std::vector<std::string>{"front sheet A1 removed", "front sheet A3 resized",
                                                    "front sheet A4 added", "front panel 1 resized"});
    CHECK(result.added == 1);
    CHECK(result.removed == 1);
    CHECK(result.resized == 2);
    CHECK(result.unchanged == 2);
    REQUIRE(result.changes[1].before.has_value());
    CHECK(result.changes[1].before->length == 54.4375_in);
    CHECK(result.changes[1].after->length == 60.4375_in);
    CHECK_FALSE(result.changes[0].after.has_value());
    CHECK_FALSE(result.changes[2].before.has_value());
    // Sheets: one 96 x 48 fewer, one 96 x 22 1/8, one 60 7/16 more, one 54 7/16 fewer. Panels: 20 ft for 19 ft 6 in.
    const auto is = [&](std::size_t i, PieceKind kind, Length length, Length width, std::int64_t more) {
        CHECK(result.sizes[i].kind == kind);
        CHECK(result.sizes[i].length == length);
        CHECK(result.sizes[i].width == width);
        CHECK(result.sizes[i].more == more);
    };
    REQUIRE(result.sizes.size() == 6);
    is(0, PieceKind::sheet, 96_in, 48_in, -1);
    is(1, PieceKind::sheet, 96_in, 22.125_in, 1);
    is(2, PieceKind::sheet, 60.4375_in, 48_in, 1);
    is(3, PieceKind::sheet, 54.4375_in, 48_in, -1);
    is(4, PieceKind::panel, 240_in, 39_in, 1);
    is(5, PieceKind::panel, 234_in, 39_in, -1);
}

TEST_CASE("difference: a piece renamed is removed and added, and nothing is bought for it") {
    const Difference result = difference({sheet("A1", 96_in)}, {sheet("B1", 96_in)}, sixteenth);
    CHECK(lines(result) == std::vector<std::string>{"front sheet A1 removed", "front sheet B1 added"});
    CHECK(result.sizes.empty());
}

TEST_CASE("difference: half a tick is no difference, more is") {
    const Length half = 1_in / 32;
    CHECK(difference({sheet("A1", 96_in)}, {sheet("A1", 96_in + half)}, sixteenth).unchanged == 1);
    CHECK(difference({sheet("A1", 96_in)}, {sheet("A1", 96_in - half)}, sixteenth).unchanged == 1);
    CHECK(difference({sheet("A1", 96_in)}, {sheet("A1", 96_in + half + 1_in / 1024)}, sixteenth).resized == 1);
    CHECK(difference({sheet("A1", 96_in)}, {sheet("A1", 96_in, 48_in - 1_in / 16)}, sixteenth).resized == 1);
    // Metric: half a millimetre.
    const Tick millimetre = Tick::of_millimetres(1);
    CHECK(difference({sheet("A1", 2400_mm)}, {sheet("A1", 2400.5_mm)}, millimetre).unchanged == 1);
    CHECK(difference({sheet("A1", 2400_mm)}, {sheet("A1", 2401_mm)}, millimetre).resized == 1);
}

TEST_CASE("difference: sizes within half a tick are one size, as long as its longest") {
    // One of 100 goes, one of 100 1/64 comes: even. Two more of 100 1/16 and of 100 1/32 + 1/16: one size of 100 3/32.
    const Difference even = difference({sheet("A1", 100_in)}, {sheet("A2", 100.015625_in)}, sixteenth);
    CHECK(even.added == 1);
    CHECK(even.sizes.empty());
    const Difference two = difference({}, {sheet("A1", 100.0625_in), sheet("A2", 100.09375_in)}, sixteenth);
    REQUIRE(two.sizes.size() == 1);
    CHECK(two.sizes[0].length == 100.09375_in);
    CHECK(two.sizes[0].more == 2);
    // A sixteenth apart is two sizes, and so is a panel and a sheet of one size.
    CHECK(difference({}, {sheet("A1", 100_in), sheet("A2", 100.0625_in)}, sixteenth).sizes.size() == 2);
    CHECK(difference({}, {sheet("A1", 100_in), piece(PieceKind::panel, "front", "A1", 100_in, 48_in)}, sixteenth)
              .sizes.size() == 2);
}

TEST_CASE("difference: changes stand by plane, kind, then as given") {
    const std::vector<PlacedPiece> before{
        piece(PieceKind::trim, "front", "T1", 1_ft, 6_in), piece(PieceKind::purlin, "back", "P1", 1_ft, 6_in),
        piece(PieceKind::purlin, "front", "10", 1_ft, 6_in), piece(PieceKind::purlin, "front", "2", 1_ft, 6_in)};
    const std::vector<PlacedPiece> after{piece(PieceKind::block, "annex", "K1", 1_ft, 6_in),
                                         piece(PieceKind::purlin, "front", "7", 1_ft, 6_in),
                                         piece(PieceKind::underlayment, "front", "U1", 1_ft, 6_in)};
    CHECK(lines(difference(before, after, sixteenth)) ==
          std::vector<std::string>{"front purlin 10 removed", "front purlin 2 removed", "front purlin 7 added",
                                   "front underlayment U1 added", "front trim T1 removed", "back purlin P1 removed",
                                   "annex block K1 added"});
}

TEST_CASE("difference: nothing against something, and nothing at all") {
    const std::vector<PlacedPiece> some{sheet("A1", 96_in), sheet("A2", 96_in)};
    CHECK(difference({}, some, sixteenth).sizes.at(0).more == 2);
    CHECK(difference(some, {}, sixteenth).sizes.at(0).more == -2);
    CHECK(difference(some, some, sixteenth).unchanged == 2);
    CHECK(difference(some, some, sixteenth).changes.empty());
    CHECK(difference({}, {}, sixteenth).unchanged == 0);
}

TEST_CASE("difference: what is refused") {
    const Fault twice = refusal_of([] {
        (void)difference({sheet("A1", 96_in), sheet("A2", 96_in), sheet("A1", 95_in)}, {}, sixteenth);
    });
    CHECK(twice.code == FaultCode::contradiction);
    CHECK(twice.path == "before[2]");
    CHECK(twice.given == "front, sheet A1");
    CHECK(twice.required.find("before[0]") != std::string::npos);
    CHECK(refusal_of([] {
              (void)difference({}, {sheet("A1", 1_in), sheet("A1", 1_in)}, sixteenth);
          }).path == "after[1]");
    CHECK(refusal_of([] { (void)difference({sheet("", 1_in)}, {}, sixteenth); }).path == "before[0].name");
    CHECK(refusal_of([] { (void)difference({sheet("A1", -1_in)}, {}, sixteenth); }).path == "before[0].length");
    for (const Length none : lengths_that_are_none()) {
        CHECK(refusal_of([&] { (void)difference({}, {sheet("A1", none)}, sixteenth); }).path == "after[0].length");
        CHECK(refusal_of([&] { (void)difference({}, {sheet("A1", 1_in, none)}, sixteenth); }).path == "after[0].width");
    }
}

TEST_CASE("difference: as JSON") {
    const Difference result = difference({sheet("A1", 96_in)}, {sheet("A1", 90_in), sheet("A2", 96_in)}, sixteenth);
    const nlohmann::json json = nlohmann::json::parse(write_json(result, LengthUnit::inches));
    CHECK(json["changes"][0]["change"] == "resized");
    CHECK(json["changes"][0]["after"]["length"] == 90.0);
    CHECK(json["changes"][1]["before"].is_null());
    CHECK(json["sizes"].size() == 1);  // 96 stays even, 90 is one more
    CHECK(json["sizes"][0]["more"] == 1);
}

TEST_CASE("difference: over a seeded sweep, before with the changes made is after") {
    SeededNumbers numbers{20261125};
    using Key = std::tuple<std::string, int, std::string>;
    const auto key = [](const std::string& plane, PieceKind kind, const std::string& name) {
        return Key{plane, static_cast<int>(kind), name};
    };
    const auto layout = [&] {
        std::vector<PlacedPiece> pieces;
        std::map<Key, bool> seen;
        for (int i = numbers.whole(0, 40); i > 0; --i) {
            // Sizes stand on the tape's sixteenths, so that half a tick tells them apart or finds them equal.
            const PlacedPiece one{.kind = static_cast<PieceKind>(numbers.whole(0, 5)),
                                  .plane = numbers.coin() ? "front" : "back",
                                  .name = std::to_string(numbers.whole(1, 6)),
                                  .length = 1_in / 16 * numbers.whole(160, 164),
                                  .width = 1_ft * numbers.whole(1, 2)};
            if (!seen[key(one.plane, one.kind, one.name)]) {
                seen[key(one.plane, one.kind, one.name)] = true;
                pieces.push_back(one);
            }
        }
        return pieces;
    };
    for (int round = sweep(5000); round > 0; --round) {
        const std::vector<PlacedPiece> before = layout();
        const std::vector<PlacedPiece> after = layout();
        const Difference result = difference(before, after, sixteenth);
        std::map<Key, std::pair<Length, Length>> site;
        std::map<std::tuple<int, double, double>, std::int64_t> by_size;
        const auto size_of = [](PieceKind kind, Length length, Length width) {
            return std::make_tuple(static_cast<int>(kind), inches(length), inches(width));
        };
        for (const PlacedPiece& one : before) {
            site.insert_or_assign(key(one.plane, one.kind, one.name), std::make_pair(one.length, one.width));
            ++by_size[size_of(one.kind, one.length, one.width)];
        }
        for (const PieceChange& change : result.changes) {
            const Key at = key(change.plane, change.kind, change.name);
            REQUIRE(change.before.has_value() == (site.count(at) == 1));
            site.erase(at);
            if (change.after) {
                site.insert_or_assign(at, std::make_pair(change.after->length, change.after->width));
            }
        }
        for (const SizeChange& size : result.sizes) {
            REQUIRE(size.more != 0);
            by_size[size_of(size.kind, size.length, size.width)] += size.more;
        }
        REQUIRE(site.size() == after.size());
        for (const PlacedPiece& one : after) {
            REQUIRE(site.at(key(one.plane, one.kind, one.name)) == std::make_pair(one.length, one.width));
            --by_size[size_of(one.kind, one.length, one.width)];
        }
        for (const auto& [size, left] : by_size) {
            REQUIRE(left == 0);
        }
        REQUIRE(result.unchanged + result.removed + result.resized == static_cast<std::int64_t>(before.size()));
        REQUIRE(result.unchanged + result.added + result.resized == static_cast<std::int64_t>(after.size()));
        // The other way round, every size changes sign.
        const Difference back = difference(after, before, sixteenth);
        REQUIRE(back.sizes.size() == result.sizes.size());
        for (std::size_t i = 0; i < back.sizes.size(); ++i) {
            REQUIRE(back.sizes[i].more == -result.sizes[i].more);
            REQUIRE(back.sizes[i].length == result.sizes[i].length);
        }
    }
}
