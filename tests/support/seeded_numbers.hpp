// SPDX-License-Identifier: BSL-1.0
#pragma once

// Numbers for sweeps, the same on every machine (splitmix64), and how long a sweep is.

#include <eavewright/units/length.hpp>

#include <cstdint>

class SeededNumbers {
public:
    explicit SeededNumbers(std::uint64_t seed) : state_{seed} {}

    double between(double low, double high) {
        return low + (high - low) * (static_cast<double>(next() >> 11) / 9007199254740992.0);
    }
    eavewright::Length inches_between(double low, double high) { return eavewright::one_inch * between(low, high); }
    /// Whole number, both ends included.
    int whole(int low, int high) { return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1)); }
    bool coin() { return next() >> 63 != 0; }

private:
    std::uint64_t next() {
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
        return z ^ (z >> 31);
    }
    std::uint64_t state_;
};

/// `all` in a full sweep, a tenth of it otherwise.
inline int sweep(int all) {
#ifdef EAVEWRIGHT_FULL_SWEEPS
    return all;
#else
    return all < 10 ? 1 : all / 10;
#endif
}
