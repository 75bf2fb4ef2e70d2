#!/usr/bin/env bash
# SPDX-License-Identifier: BSL-1.0
# Builds the examples, lays out an L-shaped house with a wrap-around porch, then a workshop: the reports here, the
# papers of both under build/demo/out.
set -euo pipefail
cd "$(dirname "$0")/.."
bash cmake/install_packages.sh build

echo "Building the examples (about two minutes) ..."
cmake -S . -B build/demo -DCMAKE_BUILD_TYPE=Release -DEAVEWRIGHT_BUILD_EXAMPLES=ON -DEAVEWRIGHT_BUILD_TESTS=OFF \
    -DEAVEWRIGHT_BUILD_BENCHMARKS=OFF -DCMAKE_RULE_MESSAGES=OFF --log-level=WARNING >/dev/null
cmake --build build/demo --target whole_roof house -j"$(nproc)" -- --no-print-directory

out=$PWD/build/demo/out
mkdir -p "$out"
build/demo/examples/house --out "$out/house"
echo
build/demo/examples/whole_roof examples/whole_roof/workshop.json --out "$out"
