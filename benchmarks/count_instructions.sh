#!/usr/bin/env bash
# SPDX-License-Identifier: BSL-1.0
# Counts the instructions of the rafter loop through Length and through bare doubles; they may differ by 1 %.
# Instructions, not seconds: the count repeats on any machine.
set -euo pipefail
cd "$(dirname "$0")/.."
bash cmake/install_packages.sh valgrind

cmake -S . -B build/count -DCMAKE_CXX_FLAGS=-O2 -DEAVEWRIGHT_BUILD_TESTS=OFF -DEAVEWRIGHT_BUILD_EXAMPLES=OFF \
    -DEAVEWRIGHT_BUILD_BENCHMARKS=ON -DCMAKE_RULE_MESSAGES=OFF --log-level=WARNING >/dev/null
cmake --build build/count --target rafter_lengths -- --no-print-directory

count() {
    valgrind --tool=callgrind --callgrind-out-file=/dev/null --toggle-collect="$1_loop" \
        build/count/benchmarks/rafter_lengths "$1" 2>&1 | sed -n 's/.*Collected : \([0-9]*\).*/\1/p'
}
typed=$(count typed)
bare=$(count bare)
awk -v typed="$typed" -v bare="$bare" 'BEGIN {
    if (bare < 4096) { print "counted nothing"; exit 1 }
    printf "Instructions for 4096 rafters: typed %d, bare %d, ratio %.4f\n", typed, bare, typed / bare
    exit !(typed / bare < 1.01 && bare / typed < 1.01)
}'
