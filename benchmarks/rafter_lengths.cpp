// SPDX-License-Identifier: BSL-1.0
// The same rafter lengths, through Length and through bare doubles: `rafter_lengths typed|bare`.
// count_instructions.sh counts the instructions of the two loops.

#include <eavewright/units/length.hpp>

#include <cmath>
#include <cstddef>
#include <cstdio>
#include <string_view>
#include <vector>

using namespace eavewright;

namespace {
constexpr std::size_t rafter_count = 4096;
constexpr double run_step_in = 1.0 / 16.0;
constexpr double rise_per_run = 4.0 / 12.0;
constexpr double overhang_in = 18.0;
}  // namespace

// Not inlined and not mangled, so that the counter can switch on at these names.
extern "C" {
[[gnu::noinline]] void typed_loop(const Length* runs, Length* rafters, std::size_t count) {
    const Length overhang = Length::from_inches(overhang_in);
    for (std::size_t i = 0; i < count; ++i) {
        const Length run = runs[i] + overhang;
        rafters[i] = hypotenuse(run, run * rise_per_run);
    }
}

[[gnu::noinline]] void bare_loop(const double* runs, double* rafters, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        const double run = runs[i] + overhang_in;
        const double rise = run * rise_per_run;
        rafters[i] = std::sqrt(run * run + rise * rise);
    }
}
}

int main(int argc, char** argv) {
    const std::string_view way = argc == 2 ? argv[1] : "";
    double total_in = 0.0;
    if (way == "typed") {
        std::vector<Length> runs;
        for (std::size_t i = 0; i < rafter_count; ++i) {
            runs.push_back(Length::from_inches(static_cast<double>(i) * run_step_in));
        }
        std::vector<Length> rafters(rafter_count, no_length);
        typed_loop(runs.data(), rafters.data(), rafter_count);
        for (const Length rafter : rafters) {
            total_in += inches(rafter);
        }
    } else if (way == "bare") {
        std::vector<double> runs;
        for (std::size_t i = 0; i < rafter_count; ++i) {
            runs.push_back(static_cast<double>(i) * run_step_in);
        }
        std::vector<double> rafters(rafter_count, 0.0);
        bare_loop(runs.data(), rafters.data(), rafter_count);
        for (const double rafter : rafters) {
            total_in += rafter;
        }
    } else {
        std::fputs("usage: rafter_lengths typed|bare\n", stderr);
        return 2;
    }
    std::printf("%.17g in\n", total_in);
    return 0;
}
