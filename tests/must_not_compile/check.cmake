# SPDX-License-Identifier: BSL-1.0
# Requires that SOURCE compiles as it stands, and that it fails with MUST_NOT_COMPILE defined and the flags on its
# "// flags:" line, with an error that matches one of its "// expected:" lines (one a compiler).

file(STRINGS "${SOURCE}" lines)
set(flags -DMUST_NOT_COMPILE)
foreach(line IN LISTS lines)
    if(line MATCHES "^// expected: (.+)$")
        list(APPEND expected "${CMAKE_MATCH_1}")
    elseif(line MATCHES "^// flags: (.+)$")
        list(APPEND flags ${CMAKE_MATCH_1})
    endif()
endforeach()
if(NOT expected)
    message(FATAL_ERROR "${SOURCE} has no line '// expected: <regular expression>'")
endif()

list(JOIN expected "|" expected)

# The C locale, for plain quotation marks in the messages.
set(compile ${CMAKE_COMMAND} -E env LC_ALL=C ${COMPILER} -std=c++20 -fsyntax-only -fno-diagnostics-color -I${INCLUDE})

execute_process(COMMAND ${compile} ${SOURCE} RESULT_VARIABLE result ERROR_VARIABLE messages)
if(NOT result EQUAL 0)
    message(FATAL_ERROR "the sound version does not compile:\n${messages}")
endif()

execute_process(COMMAND ${compile} ${flags} ${SOURCE} RESULT_VARIABLE result ERROR_VARIABLE messages)
if(result EQUAL 0)
    message(FATAL_ERROR "compiled, though it must not")
endif()
if(NOT messages MATCHES "error: [^\n]*(${expected})")
    message(FATAL_ERROR "failed, but not with an error that matches '${expected}':\n${messages}")
endif()
