# SPDX-License-Identifier: BSL-1.0
# Builds and runs the consumer in WORK, anew. WAY is find_package (from LIBRARY_BUILD, installed into a fresh prefix) or
# add_subdirectory (from LIBRARY_SOURCE).

function(run)
    execute_process(COMMAND ${ARGV} RESULT_VARIABLE result OUTPUT_VARIABLE output ERROR_VARIABLE output)
    message("${output}")
    if(NOT result EQUAL 0)
        message(FATAL_ERROR "failed: ${ARGV}")
    endif()
endfunction()

file(REMOVE_RECURSE "${WORK}")
if(WAY STREQUAL "find_package")
    run(${CMAKE_COMMAND} --install ${LIBRARY_BUILD} --prefix ${WORK}/prefix)
    set(found_by -DCMAKE_PREFIX_PATH=${WORK}/prefix -DEAVEWRIGHT_PREFIX=${WORK}/prefix)
else()
    set(found_by -DEAVEWRIGHT_SOURCE=${LIBRARY_SOURCE})
endif()
run(${CMAKE_COMMAND} -S ${CMAKE_CURRENT_LIST_DIR} -B ${WORK}/build -DCMAKE_CXX_COMPILER=${COMPILER} ${found_by})
run(${CMAKE_COMMAND} --build ${WORK}/build)
run(${WORK}/build/consumer)
