# SPDX-License-Identifier: BSL-1.0
# The pictures of the shapes are what the program draws today, all of them.
# cmake -DPROGRAM=... -DPICTURES=... -DOUT=... -P check_pictures.cmake

file(REMOVE_RECURSE "${OUT}")
execute_process(COMMAND "${PROGRAM}" --out "${OUT}" RESULT_VARIABLE code OUTPUT_QUIET)
if(NOT code EQUAL 0)
    message(FATAL_ERROR "shapes: exit code ${code}")
endif()
file(GLOB drawn RELATIVE "${OUT}" "${OUT}/*.svg")
file(GLOB shown RELATIVE "${PICTURES}" "${PICTURES}/*.svg")
if(NOT drawn STREQUAL shown)
    message(FATAL_ERROR "drawn: ${drawn}\nkept: ${shown}")
endif()
foreach(name IN LISTS drawn)
    file(READ "${OUT}/${name}" new)
    file(READ "${PICTURES}/${name}" old)
    if(NOT new STREQUAL old)
        message(FATAL_ERROR "${name} is old: copy ${OUT}/${name} to examples/shapes")
    endif()
endforeach()
