# SPDX-License-Identifier: BSL-1.0
# eavewright.hpp includes every header of the library, in order, but those that need Eigen.

file(GLOB_RECURSE headers RELATIVE ${INCLUDE} ${INCLUDE}/eavewright/*.hpp)
set(expected "")
foreach(header IN LISTS headers)
    file(STRINGS ${INCLUDE}/${header} eigen REGEX "#include <(Eigen/|eavewright/squaring/network)")
    if(NOT eigen AND NOT header STREQUAL "eavewright/eavewright.hpp")
        list(APPEND expected "${header}")
    endif()
endforeach()
list(SORT expected)

file(STRINGS ${INCLUDE}/eavewright/eavewright.hpp lines REGEX "^#include <eavewright/")
list(TRANSFORM lines REPLACE "^#include <(.*)>$" "\\1")

if(NOT lines STREQUAL expected)
    list(TRANSFORM expected REPLACE "(.+)" "#include <\\1>\n")
    string(CONCAT expected ${expected})
    message("${expected}")
    message(FATAL_ERROR "eavewright.hpp should include exactly what stands above")
endif()
