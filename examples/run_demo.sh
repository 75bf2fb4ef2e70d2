#!/usr/bin/env bash
# SPDX-License-Identifier: BSL-1.0
# Builds the examples, lays out an L-shaped house with a wrap-around porch, then a workshop as its readings found it before
# sheathing, and as it is meant to be: the reports here, the papers of all under build/demo/out. Given a build folder, it
# runs the programs already built there.
set -euo pipefail
cd "$(dirname "$0")/.."
bash cmake/install_packages.sh build

folder=${1:-build/demo}
if [ $# -eq 0 ]; then
    echo "Building the examples (about two minutes) ..."
    cmake -S . -B "$folder" -DCMAKE_BUILD_TYPE=Release -DEAVEWRIGHT_BUILD_EXAMPLES=ON -DEAVEWRIGHT_BUILD_TESTS=OFF \
        -DEAVEWRIGHT_BUILD_BENCHMARKS=OFF -DCMAKE_RULE_MESSAGES=OFF --log-level=WARNING >/dev/null
    cmake --build "$folder" --target whole_roof house -j"$(nproc)" -- --no-print-directory
fi

out=$PWD/build/demo/out
mkdir -p "$out"
"$folder/examples/house" --out "$out/house"
echo
"$folder/examples/whole_roof" examples/whole_roof/workshop_to_true.json --out "$out"
echo
"$folder/examples/whole_roof" examples/whole_roof/workshop.json --out "$out"
