# SPDX-License-Identifier: BSL-1.0
# The README shows what the programs do today: the lines to start from, what they print, and the picture of the demo.
# cmake -DROOT=... -DMINIMAL=... -DWHOLE_ROOF=... -DOUT=... -P check_readme.cmake

file(READ "${ROOT}/README.md" readme)

# Semicolons are list separators to CMake, so the code is compared with them put aside.
file(READ "${ROOT}/examples/minimal/minimal.cpp" code)
string(REGEX REPLACE "^// SPDX[^\n]*\n" "" code "${code}")
string(FIND "${readme}" "```cpp\n${code}```" place)
if(place EQUAL -1)
    message(FATAL_ERROR "README.md does not show examples/minimal/minimal.cpp as it is")
endif()

execute_process(COMMAND "${MINIMAL}" OUTPUT_VARIABLE printed OUTPUT_STRIP_TRAILING_WHITESPACE)
string(FIND "${readme}" "It prints `${printed}`." place)
if(place EQUAL -1)
    message(FATAL_ERROR "README.md does not say what minimal prints: ${printed}")
endif()

execute_process(COMMAND "${WHOLE_ROOF}" "${ROOT}/examples/whole_roof/workshop.json" --out "${OUT}" OUTPUT_QUIET)
file(READ "${OUT}/workshop.front.svg" drawn)
file(READ "${ROOT}/examples/whole_roof/workshop.front.svg" shown)
if(NOT drawn STREQUAL shown)
    message(FATAL_ERROR "The picture in README.md is old: copy ${OUT}/workshop.front.svg to examples/whole_roof")
endif()
