// SPDX-License-Identifier: BSL-1.0
#pragma once

// Money in whole hundredths, so that sums of prices are exact. It has no currency of its own and is never converted.

#include <eavewright/fault.hpp>

#include <compare>
#include <cstdint>
#include <string>

namespace eavewright {

/// Most hundredths, either sign, that money holds: 10^14, a million million whole ones. Ten thousand such sums still fit
/// an int64.
inline constexpr std::int64_t money_limit_hundredths = 100'000'000'000'000;

/// An amount of money in whole hundredths (cents). Within `money_limit_hundredths`, else `FaultError` out_of_range: when
/// made, and after every sum and product. Of which currency is told by whoever holds it.
class Money {
public:
    [[nodiscard]] static constexpr Money from_hundredths(std::int64_t hundredths) {
        if (hundredths < -money_limit_hundredths || hundredths > money_limit_hundredths) {
            refuse(std::to_string(hundredths) + " hundredths");
        }
        return Money{hundredths};
    }

    [[nodiscard]] constexpr std::int64_t hundredths() const noexcept { return hundredths_; }

    friend constexpr auto operator<=>(Money, Money) = default;

    friend constexpr Money operator+(Money a, Money b) { return from_hundredths(a.hundredths_ + b.hundredths_); }
    friend constexpr Money operator-(Money a, Money b) { return from_hundredths(a.hundredths_ - b.hundredths_); }
    constexpr Money& operator+=(Money other) { return *this = *this + other; }

    /// The price of `count` at this price each. Asked by division first, since the product may not fit an int64.
    friend constexpr Money operator*(Money each, std::int64_t count) {
        const std::int64_t size = each.hundredths_ < 0 ? -each.hundredths_ : each.hundredths_;
        const bool fits = count >= -money_limit_hundredths && count <= money_limit_hundredths &&
                          (size == 0 || (count < 0 ? -count : count) <= money_limit_hundredths / size);
        if (!fits) {
            refuse(std::to_string(each.hundredths_) + " hundredths, " + std::to_string(count) + " times");
        }
        return Money{each.hundredths_ * count};
    }
    friend constexpr Money operator*(std::int64_t count, Money each) { return each * count; }

private:
    constexpr explicit Money(std::int64_t hundredths) noexcept : hundredths_{hundredths} {}
    [[noreturn]] static void refuse(const std::string& given) {
        throw FaultError{Fault{FaultCode::out_of_range, "money", given,
                               "within " + std::to_string(money_limit_hundredths) + " hundredths either way"}};
    }

    std::int64_t hundredths_;
};

inline constexpr Money no_money = Money::from_hundredths(0);

/// "1234.50", "-0.05": whole ones, a point and two digits, without a currency.
[[nodiscard]] inline std::string write_money(Money money) {
    const std::int64_t size = money.hundredths() < 0 ? -money.hundredths() : money.hundredths();
    const std::string rest = std::to_string(size % 100);
    std::string text{money.hundredths() < 0 ? "-" : ""};
    text += std::to_string(size / 100);
    text += rest.size() < 2 ? ".0" : ".";
    return text += rest;
}

}  // namespace eavewright
