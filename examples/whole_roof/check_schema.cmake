# SPDX-License-Identifier: BSL-1.0
# The schema that lies beside the example is the one the library writes today.
execute_process(COMMAND "${PROGRAM}" --schema OUTPUT_VARIABLE written RESULT_VARIABLE code)
file(READ "${SCHEMA}" kept)
if(NOT code EQUAL 0 OR NOT written STREQUAL kept)
    message(FATAL_ERROR "The schema has changed. If fields were added, write it anew: whole_roof --schema > ${SCHEMA}")
endif()
