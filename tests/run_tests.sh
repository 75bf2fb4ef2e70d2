#!/usr/bin/env bash
# SPDX-License-Identifier: BSL-1.0
# Builds tests and examples and runs every test. Arguments go to CMake, e.g. -DEAVEWRIGHT_FULL_SWEEPS=ON.
set -euo pipefail
cd "$(dirname "$0")/.."
bash cmake/install_packages.sh test

echo "Building the tests ..."
cmake -S . -B build/tests -DCMAKE_CXX_FLAGS=-O0 -DEAVEWRIGHT_WERROR=ON -DEAVEWRIGHT_BUILD_TESTS=ON \
    -DEAVEWRIGHT_BUILD_EXAMPLES=ON -DEAVEWRIGHT_BUILD_BENCHMARKS=OFF -DEAVEWRIGHT_JOIN_SOURCES=ON "$@" \
    -DCMAKE_RULE_MESSAGES=OFF --log-level=WARNING >/dev/null
cmake --build build/tests -j"$(nproc)" -- --no-print-directory
case " $* " in
    *EAVEWRIGHT_FULL_SWEEPS=ON*)
        echo "Compiling each header alone ..."
        cmake --build build/tests -j"$(nproc)" --target headers_alone -- --no-print-directory
        ;;
esac
ctest --test-dir build/tests --output-on-failure --no-tests=error -j"$(nproc)"
