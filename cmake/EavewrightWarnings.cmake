# SPDX-License-Identifier: BSL-1.0
# The warnings our own targets are built with. Never part of the installed library.

set(EAVEWRIGHT_WARNING_FLAGS
    -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wold-style-cast -Wdouble-promotion -Wundef
    -Wnull-dereference)
if(EAVEWRIGHT_WERROR)
    list(APPEND EAVEWRIGHT_WARNING_FLAGS -Werror)
endif()

function(eavewright_set_warnings target)
    target_compile_options(${target} PRIVATE ${EAVEWRIGHT_WARNING_FLAGS})
endfunction()
