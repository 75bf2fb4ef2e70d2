# SPDX-License-Identifier: BSL-1.0
# A roof file that must be refused: exit code 2, exactly the expected lines, nothing on the screen, nothing written.
# cmake -DPROGRAM=... -DROOF=....json -DOUT=... -P check.cmake

get_filename_component(name "${ROOF}" NAME)
string(REGEX REPLACE "json$" "expected" expected_file "${ROOF}")
file(READ "${expected_file}" expected)
file(REMOVE_RECURSE "${OUT}")

get_filename_component(folder "${ROOF}" DIRECTORY)
execute_process(COMMAND "${PROGRAM}" "${name}" --out "${OUT}" WORKING_DIRECTORY "${folder}"
    RESULT_VARIABLE code OUTPUT_VARIABLE screen ERROR_VARIABLE lines)

if(NOT code EQUAL 2)
    message(FATAL_ERROR "${name}: exit code ${code}, expected 2\n${lines}")
endif()
if(NOT lines STREQUAL expected)
    message(FATAL_ERROR "${name}: expected\n${expected}but got\n${lines}")
endif()
if(NOT screen STREQUAL "")
    message(FATAL_ERROR "${name}: a report was printed\n${screen}")
endif()
if(EXISTS "${OUT}")
    message(FATAL_ERROR "${name}: ${OUT} was made")
endif()
