// SPDX-License-Identifier: BSL-1.0
#include <eavewright/squaring/network.hpp>

int main() {
    const eavewright::PlaneNetwork none;
    return check(none).empty() ? 1 : 0;  // a network needs points and readings
}
