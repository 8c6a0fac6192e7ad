# The programs in the comments of the entry headers (include/samelight/*.hpp), compiled and run as tests entry/NAME, that of white.hpp
# header-only as well. Each header has one, which includes that header alone, beside the standard library. Run by
# `cmake -DPROGRAM=FILE -P` this file is the test: the program must end well and print something.

if(CMAKE_SCRIPT_MODE_FILE)
    execute_process(COMMAND "${PROGRAM}" RESULT_VARIABLE result OUTPUT_VARIABLE printed)
    message("${printed}")
    if(NOT result STREQUAL "0")
        message(FATAL_ERROR "${PROGRAM}: ended with ${result}; wanted 0")
    elseif(NOT printed MATCHES "[^ \n]")
        message(FATAL_ERROR "${PROGRAM}: printed nothing; wanted a line at least")
    endif()
    return()
endif()

# The program in a header's first ```cpp block, without the comment's slashes.
function(entry_program header result)
    file(READ "${header}" text)
    if(NOT text MATCHES "\n// ```cpp\n(.*)\n// ```\n")
        message(FATAL_ERROR "${header}: holds no program; wanted one in its comment, between // ```cpp and // ```")
    endif()
    string(REGEX REPLACE "(^|\n)// ?" "\\1" program "${CMAKE_MATCH_1}\n")
    get_filename_component(own "${header}" NAME)
    string(REGEX MATCHALL "samelight/[a-z0-9_/]+\\.hpp" included "${program}")
    if(NOT included STREQUAL "samelight/${own}")
        message(FATAL_ERROR "${header}: its program includes ${included}; wanted samelight/${own} alone")
    endif()
    set(${result} "${program}" PARENT_SCOPE)
endfunction()

function(add_entry_program name source library)
    add_executable(entry_${name} "${source}")
    target_link_libraries(entry_${name} PRIVATE ${library})
    samelight_own_target(entry_${name})
    add_test(NAME entry/${name}
        COMMAND "${CMAKE_COMMAND}" "-DPROGRAM=$<TARGET_FILE:entry_${name}>" -P "${CMAKE_CURRENT_FUNCTION_LIST_FILE}")
    set_tests_properties(entry/${name} PROPERTIES LABELS entry TIMEOUT 300)
endfunction()

file(GLOB entries CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/include/samelight/*.hpp")
foreach(entry IN LISTS entries)
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${entry}")
    get_filename_component(name "${entry}" NAME_WE)
    entry_program("${entry}" program)
    set(source "${CMAKE_CURRENT_BINARY_DIR}/entry/${name}.cpp")
    # Left as it is where it says the same, so that it isn't compiled again.
    file(CONFIGURE OUTPUT "${source}" CONTENT "${program}" @ONLY)
    add_entry_program(${name} "${source}" samelight::compiled)
    if(name STREQUAL "white")
        add_entry_program(white_header_only "${source}" samelight::samelight)
    endif()
endforeach()
