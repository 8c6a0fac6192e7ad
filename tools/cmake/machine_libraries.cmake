# What find_package() finds when tools/machines builds the tests for another machine or standard library (CMAKE_PROJECT_TOP_LEVEL_INCLUDES):
# libraries that are headers alone, from a folder that links to them and to nothing else of this system's /usr/include, and GoogleTest made of
# its source, by the same compiler and library as the tests.

if(NOT IS_DIRECTORY "${SAMELIGHT_MACHINE_HEADERS}")
    message(FATAL_ERROR "samelight: SAMELIGHT_MACHINE_HEADERS is no folder; tools/machines makes it")
endif()
set(SAMELIGHT_XSIMD_INCLUDE_DIR "${SAMELIGHT_MACHINE_HEADERS}" CACHE PATH "")
# samelight::io isn't built: pugixml and fmt are compiled libraries.
set(CMAKE_DISABLE_FIND_PACKAGE_fmt ON)
set(CMAKE_DISABLE_FIND_PACKAGE_pugixml ON)

function(samelight_header_library name)
    if(NOT TARGET ${name})
        add_library(${name} INTERFACE IMPORTED GLOBAL)
        target_include_directories(${name} SYSTEM INTERFACE "${SAMELIGHT_MACHINE_HEADERS}" ${ARGN})
    endif()
endfunction()

macro(samelight_provide method package)
    if("${package}" STREQUAL "Eigen3")
        samelight_header_library(Eigen3::Eigen "${SAMELIGHT_MACHINE_HEADERS}/eigen3")
        set(Eigen3_FOUND TRUE)
    elseif("${package}" STREQUAL "Boost")
        samelight_header_library(Boost::headers)
        set(Boost_FOUND TRUE)
    elseif("${package}" STREQUAL "nlohmann_json")
        samelight_header_library(nlohmann_json::nlohmann_json)
        set(nlohmann_json_FOUND TRUE)
    elseif("${package}" STREQUAL "GTest")
        if(NOT TARGET gtest)
            set(BUILD_GMOCK OFF CACHE BOOL "")
            set(INSTALL_GTEST OFF CACHE BOOL "")
            add_subdirectory(/usr/src/googletest "${PROJECT_BINARY_DIR}/googletest" EXCLUDE_FROM_ALL)
        endif()
        set(GTest_FOUND TRUE)
    endif()
endmacro()
cmake_language(SET_DEPENDENCY_PROVIDER samelight_provide SUPPORTED_METHODS FIND_PACKAGE)
