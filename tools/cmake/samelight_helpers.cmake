# What several folders of the build share.

# Warnings and language rules for samelight's own targets. Nothing of it reaches those who use the
# library: it is linked privately, through samelight_own_target().
add_library(samelight_warnings INTERFACE)
target_compile_options(samelight_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wconversion -Wshadow
    # g++ 12 sees an overlap in every `"text" + std::string` (GCC bug 105651); mended in 13.
    $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-restrict>
    $<$<BOOL:${SAMELIGHT_WARNINGS_AS_ERRORS}>:-Werror>)

function(samelight_own_target target)
    set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF)
    # BUILD_INTERFACE keeps the warnings out of the installed package.
    target_link_libraries(${target} PRIVATE $<BUILD_INTERFACE:samelight_warnings>)
endfunction()

# find_package() that says in one line what to do about a missing package.
macro(samelight_require package debian_package reason)
    find_package(${package} QUIET ${ARGN})
    if(NOT ${package}_FOUND)
        message(FATAL_ERROR
            "samelight needs ${package} ${ARGN} for ${reason}: on Debian, apt install ${debian_package}")
    endif()
endmacro()
