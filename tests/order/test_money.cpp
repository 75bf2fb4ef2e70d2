// SPDX-License-Identifier: BSL-1.0
#include <eavewright/order/money.hpp>
#include <eavewright/order/quantity.hpp>

#include <doctest/doctest.h>

#include "support/printing.hpp"
#include "support/refusal.hpp"

#include <cmath>
#include <cstdint>
#include <limits>

using namespace eavewright;
using namespace eavewright::literals;

TEST_CASE("money: sums of hundredths are exact") {
    // Ten times 0.10 is 1.00, which doubles miss.
    Money sum = no_money;
    for (int i = 0; i < 10; ++i) {
        sum += Money::from_hundredths(10);
    }
    CHECK(sum == Money::from_hundredths(100));
    CHECK(3 * Money::from_hundredths(1999) == Money::from_hundredths(5997));
    CHECK(Money::from_hundredths(5) - Money::from_hundredths(7) < no_money);
}

TEST_CASE("money: as it is written") {
    CHECK(write_money(Money::from_hundredths(123450)) == "1234.50");
    CHECK(write_money(Money::from_hundredths(7)) == "0.07");
    CHECK(write_money(Money::from_hundredths(-5)) == "-0.05");
    CHECK(write_money(Money::from_hundredths(-250)) == "-2.50");
    CHECK(write_money(no_money) == "0.00");
}

TEST_CASE("money: overflow is refused") {
    const Money most = Money::from_hundredths(money_limit_hundredths);
    const auto refused = [](auto&& action) { return refusal_of(action).code == FaultCode::out_of_range; };
    CHECK(refused([&] { (void)(most + Money::from_hundredths(1)); }));
    CHECK(refused([&] { (void)(no_money - most - Money::from_hundredths(1)); }));
    CHECK(refused([&] { (void)(most * 2); }));
    CHECK(refused([&] { (void)(most * -2); }));
    // 10^14 times 10^14 would wrap an int64; so would the least int64 times 1 when turned positive.
    CHECK(refused([&] { (void)(most * money_limit_hundredths); }));
    CHECK(refused([&] { (void)(Money::from_hundredths(1) * std::numeric_limits<std::int64_t>::min()); }));
    CHECK(refused([&] { (void)(no_money * std::numeric_limits<std::int64_t>::max()); }));
    CHECK(refused([] { (void)Money::from_hundredths(std::numeric_limits<std::int64_t>::min()); }));
    CHECK(most * 1 == most);
    CHECK((most * -1).hundredths() == -money_limit_hundredths);
}

TEST_CASE("quantity: like with like, and packs that cover") {
    const Quantity nails = Quantity::of_pieces(2928);
    CHECK(packs_to_cover(nails, Quantity::of_pieces(500)) == 6);  // 5 x 500 = 2500 is short, 6 x 500 = 3000
    CHECK(packs_to_cover(Quantity::of_pieces(3000), Quantity::of_pieces(500)) == 6);
    CHECK(packs_to_cover(Quantity::of_pieces(3001), Quantity::of_pieces(500)) == 7);
    CHECK(packs_to_cover(Quantity::of_pieces(0), Quantity::of_pieces(500)) == 0);
    CHECK(packs_to_cover(Quantity::of_length(350_ft), Quantity::of_length(50_ft)) == 7);
    CHECK(packs_to_cover(Quantity::of_length(350_ft + 1_in / 64), Quantity::of_length(50_ft)) == 8);
    CHECK(packs_to_cover(Quantity::of_length(105_m), Quantity::of_length(15_m)) == 7);
    const Quantity square_roll = Quantity::of_area(area_from_square_feet(400.0));
    CHECK(packs_to_cover(Quantity::of_area(area_from_square_feet(2800.0)), square_roll) == 7);
    CHECK(packs_to_cover(Quantity::of_area(area_from_square_feet(2800.1)), square_roll) == 8);
    CHECK(packs_to_cover(Quantity::of_area(area_from_square_metres(120.0)),
                         Quantity::of_area(area_from_square_metres(40.0))) == 3);
    CHECK(refusal_of([&] { (void)packs_to_cover(nails, square_roll); }).code == FaultCode::contradiction);
    CHECK(refusal_of([&] { (void)(nails - Quantity::of_length(1_ft)); }).code == FaultCode::contradiction);
    CHECK(refusal_of([&] { (void)packs_to_cover(nails, Quantity::of_pieces(0)); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([&] { (void)packs_to_cover(Quantity::of_pieces(2'000'000), Quantity::of_pieces(1)); }).code ==
          FaultCode::too_much_work);
    CHECK(refusal_of([&] { (void)(Quantity::of_pieces(2'000'000'000) * 1'000'000); }).code == FaultCode::out_of_range);
}

TEST_CASE("quantity: pieces in a box sold by weight, rounded down") {
    CHECK(pieces_by_mass(mass_from_pounds(5.0), 106.0) == Quantity::of_pieces(530));
    // 5 kg = 11.0231 lb at 100 a pound: 1102.3.
    CHECK(pieces_by_mass(mass_from_kilograms(5.0), 100.0) == Quantity::of_pieces(1102));
    // 2.267961850 kg is 5 lb, which must not come to 529.
    CHECK(pieces_by_mass(mass_from_kilograms(2.26796185), 106.0) == Quantity::of_pieces(530));
    CHECK(refusal_of([] { (void)pieces_by_mass(mass_from_pounds(0.0), 106.0); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)pieces_by_mass(mass_from_pounds(-1.0), -106.0); }).code == FaultCode::out_of_range);
    CHECK(refusal_of([] { (void)pieces_by_mass(mass_from_pounds(5.0), std::nan("")); }).code == FaultCode::not_finite);
}
