# SPDX-License-Identifier: BSL-1.0
# Reads the version out of include/eavewright/version.hpp into EAVEWRIGHT_VERSION.

set(EAVEWRIGHT_VERSION_HEADER "${CMAKE_CURRENT_LIST_DIR}/../include/eavewright/version.hpp")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${EAVEWRIGHT_VERSION_HEADER}")
file(READ "${EAVEWRIGHT_VERSION_HEADER}" text)

foreach(part IN ITEMS major minor patch)
    if(NOT text MATCHES "version_${part} = ([0-9]+);")
        message(FATAL_ERROR "version_${part} not found in ${EAVEWRIGHT_VERSION_HEADER}")
    endif()
    set(version_${part} "${CMAKE_MATCH_1}")
endforeach()
set(EAVEWRIGHT_VERSION "${version_major}.${version_minor}.${version_patch}")

if(NOT text MATCHES "version_text = \"([^\"]*)\"" OR NOT CMAKE_MATCH_1 STREQUAL EAVEWRIGHT_VERSION)
    message(FATAL_ERROR "version_text and the version numbers differ in ${EAVEWRIGHT_VERSION_HEADER}")
endif()
