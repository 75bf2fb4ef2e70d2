// SPDX-License-Identifier: BSL-1.0

#include <eavewright/units/decimal.hpp>

#include <doctest/doctest.h>

#include <cstdlib>
#include <limits>
#include <random>
#include <string>

using namespace eavewright;

TEST_CASE("decimals drop what says nothing") {
    CHECK(write_decimal(0.0, 6) == "0");
    CHECK(write_decimal(-0.0, 6) == "0");
    CHECK(write_decimal(150.5, 6) == "150.5");
    CHECK(write_decimal(-150.5, 0) == "-151");
    CHECK(write_decimal(0.5, 0) == "1");
    CHECK(write_decimal(0.4999, 0) == "0");
    CHECK(write_decimal(-0.0004, 3) == "0");
    CHECK(write_decimal(-0.0006, 3) == "-0.001");
    CHECK(write_decimal(1.0625, 3) == "1.063");
    CHECK(write_decimal(9.9996, 3) == "10");
    CHECK(write_decimal(100.0, 12) == "100");
    CHECK(write_decimal(0.000000000001, 12) == "0.000000000001");
    CHECK(write_decimal(2.05, 2) == "2.05");
}

TEST_CASE("places outside 0 to 12 are taken as the nearest of them") {
    CHECK(write_decimal(1.25, -3) == "1");
    CHECK(write_decimal(0.1, 40) == "0.1");
}

TEST_CASE("large numbers lose places, not digits") {
    CHECK(write_decimal(1e7, 12) == "10000000");
    CHECK(write_decimal(123456789.5, 12) == "123456789.5");
    CHECK(write_decimal(9007199254740991.0, 12) == "9007199254740991");
    CHECK(write_decimal(1e300, 2) == "9007199254740992 or more");
    CHECK(write_decimal(-1e300, 2) == "-9007199254740992 or less");
    CHECK(write_decimal(std::numeric_limits<double>::quiet_NaN(), 2) == "nan");
    CHECK(write_decimal(std::numeric_limits<double>::infinity(), 2) == "inf");
    CHECK(write_decimal(-std::numeric_limits<double>::infinity(), 2) == "-inf");
}

TEST_CASE("property: what was typed with three decimals is written so") {
    std::mt19937 random{99};
    int wrong = 0;
    for (int i = 0; i < 100000; ++i) {
        const int whole = static_cast<int>(random() % 1000000);
        const int thousandths = static_cast<int>(random() % 999) + 1;
        std::string text = std::to_string(thousandths + 1000).substr(1);
        text = std::to_string(whole) + "." + text.substr(0, text.find_last_not_of('0') + 1);
        wrong += write_decimal(std::strtod(text.c_str(), nullptr), 3) != text;
        wrong += write_decimal(std::strtod(("-" + text).c_str(), nullptr), 3) != "-" + text;
    }
    CHECK(wrong == 0);
}
