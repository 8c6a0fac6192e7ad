# The C interface as a C compiler sees it: the program in the header's comment, compiled as C11 with -pedantic-errors and run as test entry/c. Run by
# `cmake -DPROGRAM=FILE -P` tests/page/entry_programs.cmake is the test: the program must end well and print something.

enable_language(C)

set(c_header "${PROJECT_SOURCE_DIR}/include/samelight/c/samelight.h")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${c_header}")
file(READ "${c_header}" text)
string(FIND "${text}" "\n// ```c\n" begin)
string(FIND "${text}" "\n// ```\n" end)
if(begin EQUAL -1 OR end EQUAL -1)
    message(FATAL_ERROR "${c_header}: holds no program; wanted one in its comment, between // ```c and // ```")
endif()
math(EXPR begin "${begin} + 9")
math(EXPR length "${end} - ${begin} + 1")
string(SUBSTRING "${text}" ${begin} ${length} program)
string(REGEX REPLACE "(^|\n)// ?" "\\1" program "${program}")
set(source "${CMAKE_CURRENT_BINARY_DIR}/entry/c.c")
file(CONFIGURE OUTPUT "${source}" CONTENT "${program}" @ONLY)

add_executable(entry_c "${source}")
target_link_libraries(entry_c PRIVATE samelight::c)
# The C++ compiler links it, so that sanitizers are those of the library.
set_target_properties(entry_c PROPERTIES C_STANDARD 11 C_STANDARD_REQUIRED ON C_EXTENSIONS OFF LINKER_LANGUAGE CXX)
target_compile_options(entry_c PRIVATE -pedantic-errors -Wall -Wextra -Werror)
add_test(NAME entry/c
    COMMAND "${CMAKE_COMMAND}" "-DPROGRAM=$<TARGET_FILE:entry_c>" -P "${CMAKE_CURRENT_SOURCE_DIR}/page/entry_programs.cmake")
set_tests_properties(entry/c PROPERTIES LABELS "entry;c" TIMEOUT 300)
