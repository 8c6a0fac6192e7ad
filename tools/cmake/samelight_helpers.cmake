# What several folders of the build share.

# Warnings and language rules for samelight's own targets. Nothing of it reaches those who use the
# library: it is linked privately, through samelight_own_target().
add_library(samelight_warnings INTERFACE)
target_compile_options(samelight_warnings INTERFACE
    -Wall -Wextra -Wpedantic -Wconversion
    # In a quick build a local name may be one that another source has for itself.
    $<$<NOT:$<BOOL:${SAMELIGHT_QUICK_BUILD}>>:-Wshadow>
    # g++ 12 sees an overlap in every `"text" + std::string` (GCC bug 105651); mended in 13.
    $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-restrict>
    $<$<BOOL:${SAMELIGHT_WARNINGS_AS_ERRORS}>:-Werror>)

function(samelight_own_target target)
    set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF)
    # BUILD_INTERFACE keeps the warnings out of the installed package.
    target_link_libraries(${target} PRIVATE $<BUILD_INTERFACE:samelight_warnings>)
endfunction()

# Headers of others that most sources include.
set(samelight_precompiled
    <algorithm> <array> <cmath> <cstddef> <functional> <memory> <optional> <span> <string> <string_view> <utility> <vector>
    <Eigen/Core>)

# samelight_quick_build(TARGET [APART] [PLAIN] [HEADERS...]) or samelight_quick_build(TARGET [APART] [PLAIN] REUSE_FROM OTHER): with
# SAMELIGHT_QUICK_BUILD, headers of others are parsed once and several sources are compiled as one; with APART, each alone. PLAIN is for
# what calls the library and reads or says its answers: it has no loops that pay for the compiler's time, so it is optimised little.
function(samelight_quick_build target)
    cmake_parse_arguments(PARSE_ARGV 1 arg "APART;PLAIN" REUSE_FROM "")
    if(NOT SAMELIGHT_QUICK_BUILD)
        return()
    endif()
    # With them g++ 12 takes the library's own memcpy for an overrun (the warning is otherwise silent in system headers).
    target_compile_options(${target} PRIVATE
        "$<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-array-bounds;-Wno-stringop-overflow;-Wno-stringop-overread>")
    if(arg_PLAIN)
        target_compile_options(${target} PRIVATE "$<$<AND:$<CONFIG:Release>,$<CXX_COMPILER_ID:GNU,Clang>>:-O1>")
    endif()
    if(arg_REUSE_FROM)
        target_precompile_headers(${target} REUSE_FROM ${arg_REUSE_FROM})
    else()
        target_precompile_headers(${target} PRIVATE ${samelight_precompiled} ${arg_UNPARSED_ARGUMENTS})
    endif()
    if(NOT arg_APART)
        set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 6)
    endif()
endfunction()

# find_package() that says in one line what to do about a missing package.
macro(samelight_require package debian_package reason)
    find_package(${package} QUIET ${ARGN})
    if(NOT ${package}_FOUND)
        message(FATAL_ERROR
            "samelight needs ${package} ${ARGN} for ${reason}: on Debian, apt install ${debian_package}")
    endif()
endmacro()
