# SPDX-License-Identifier: BSL-1.0
# The warnings our own targets are built with. Never part of the installed library.

set(EAVEWRIGHT_WARNING_FLAGS
    -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wold-style-cast -Wdouble-promotion -Wundef
    -Wnull-dereference)
# g++ 12 takes a literal before a std::string for an overlap when it optimises (GCC bug 105651, mended in 13).
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
    list(APPEND EAVEWRIGHT_WARNING_FLAGS -Wno-restrict)
endif()
if(EAVEWRIGHT_WERROR)
    list(APPEND EAVEWRIGHT_WARNING_FLAGS -Werror)
endif()

function(eavewright_set_warnings target)
    target_compile_options(${target} PRIVATE ${EAVEWRIGHT_WARNING_FLAGS})
endfunction()
