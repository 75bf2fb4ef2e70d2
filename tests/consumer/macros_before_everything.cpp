// SPDX-License-Identifier: BSL-1.0
#include "platform_macros.hpp"

#include <eavewright/eavewright.hpp>

#include <cstdio>

double rafter_in();

int main() {
    using namespace eavewright::literals;
    if (eavewright::Pitch::in_12(9.0).slope_over(16_ft) != 20_ft || rafter_in() != 240.0) {
        std::puts("a 9 in 12 rafter over 16 ft is 20 ft");
        return 1;
    }
    std::printf("eavewright %s\n", eavewright::version_text);
    return 0;
}
