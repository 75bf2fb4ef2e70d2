#!/usr/bin/env bash
# SPDX-License-Identifier: BSL-1.0
# install_packages.sh GROUP...: installs what is missing of Debian's packages for build, test, web, lint and more.
set -euo pipefail
export DEBIAN_FRONTEND=noninteractive

build=(g++ cmake make libboost-dev libeigen3-dev nlohmann-json3-dev)
packages=()
for group in "$@"; do
    case $group in
        build) packages+=("${build[@]}") ;;
        test) packages+=("${build[@]}" doctest-dev libbenchmark-dev) ;;
        web) packages+=(libboost-dev libeigen3-dev emscripten) ;;
        lint) packages+=("${build[@]}" clang-14 clang-tidy clang-format) ;;
        peer) packages+=("${build[@]}" libcgal-dev libglpk-dev libceres-dev) ;;
        valgrind) packages+=("${build[@]}" valgrind) ;;
        *) echo "install_packages.sh: no group '$group'; there are build, test, web, lint, peer, valgrind" >&2; exit 2 ;;
    esac
done

is_installed() { dpkg -s "$1" 2>/dev/null | grep -q '^Status: install ok installed'; }
missing=()
for package in "${packages[@]}"; do
    is_installed "$package" || missing+=("$package")
done
if [ ${#missing[@]} -eq 0 ]; then
    exit 0
fi

as_root=()
if [ "$(id -u)" -ne 0 ]; then
    as_root=(sudo DEBIAN_FRONTEND=noninteractive)
fi
echo "Installing: ${missing[*]}"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { "${as_root[@]}" apt-get update -qq && \
       "${as_root[@]}" apt-get install -qq -y --no-install-recommends "${missing[@]}"; } >"$log" 2>&1; then
    cat "$log" >&2
    exit 1
fi
