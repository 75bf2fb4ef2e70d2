#!/usr/bin/env bash
# SPDX-License-Identifier: BSL-1.0
# Every header of the library, alone, through the WebAssembly compiler: syntax only. With `together`, all of them in one
# go, in their order and against it, which takes seconds: that each header stands alone is for the tests to show.
set -euo pipefail
cd "$(dirname "$0")/.."
bash cmake/install_packages.sh web

# The host's /usr/include must stay out, so the compiler is shown Boost alone. The same for Eigen, where a header needs it.
build=$PWD/build/web
mkdir -p "$build/include"
ln -sfn /usr/include/boost "$build/include/boost"
system=(-isystem "$build/include")
if [ -d /usr/include/eigen3 ]; then
    system+=(-isystem /usr/include/eigen3)
fi

check_header() {
    if ! em++ -std=c++20 -Wall -Wextra -Werror -Wno-pragma-once-outside-header -fsyntax-only "${@:2}" -Iinclude "$1"; then
        echo "$1 does not compile for the web" >&2
        return 1
    fi
}
export -f check_header

if [ "${1:-}" = together ]; then
    find include/eavewright -name '*.hpp' | sort | sed 's|^include/\(.*\)|#include <\1>|' >"$build/forward.hpp"
    tac "$build/forward.hpp" >"$build/backward.hpp"
    check_header "$build/forward.hpp" "${system[@]}"
    check_header "$build/backward.hpp" "${system[@]}"
    echo "all headers compile for the web, together"
    exit 0
fi

mapfile -t headers < <(find include/eavewright -name '*.hpp' | sort)
printf '%s\0' "${headers[@]}" | xargs -0 -P "$(nproc)" -I{} bash -c 'check_header "$@"' check_header {} "${system[@]}"
echo "${#headers[@]} of ${#headers[@]} headers compile for the web"
