# SPDX-License-Identifier: BSL-1.0
# eavewright.hpp includes every header of the library, in order, but those that need Eigen. With -DWRITE=ON it is made so:
# cmake -DINCLUDE=include -DWRITE=ON -P tests/consumer/umbrella.cmake

cmake_path(ABSOLUTE_PATH INCLUDE)
file(GLOB_RECURSE headers RELATIVE ${INCLUDE} ${INCLUDE}/eavewright/*.hpp)
set(expected "")
foreach(header IN LISTS headers)
    file(STRINGS ${INCLUDE}/${header} eigen REGEX "#include <(Eigen/|eavewright/squaring/network)")
    if(NOT eigen AND NOT header STREQUAL "eavewright/eavewright.hpp")
        list(APPEND expected "${header}")
    endif()
endforeach()
list(SORT expected)

list(TRANSFORM expected REPLACE "(.+)" "#include <\\1>\n")
string(CONCAT expected ${expected})

set(umbrella ${INCLUDE}/eavewright/eavewright.hpp)
file(READ ${umbrella} text)
string(FIND "${text}" "#include" start)
string(SUBSTRING "${text}" 0 ${start} opening)
string(SUBSTRING "${text}" ${start} -1 included)

if(WRITE)
    file(WRITE ${umbrella} "${opening}${expected}")
elseif(NOT included STREQUAL expected)
    message("${expected}")
    message(FATAL_ERROR "eavewright.hpp should include exactly what stands above")
endif()
