# For Linux on another processor, by Debian's cross compiler: SAMELIGHT_TRIPLET is its name without -g++. tools/machines says the rest.
set(CMAKE_TRY_COMPILE_PLATFORM_VARIABLES SAMELIGHT_TRIPLET)
set(CMAKE_SYSTEM_NAME Linux)
string(REGEX REPLACE "-.*" "" CMAKE_SYSTEM_PROCESSOR "${SAMELIGHT_TRIPLET}")
set(CMAKE_C_COMPILER "${SAMELIGHT_TRIPLET}-gcc")
set(CMAKE_CXX_COMPILER "${SAMELIGHT_TRIPLET}-g++")
set(CMAKE_FIND_ROOT_PATH "/usr/${SAMELIGHT_TRIPLET}")
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
set(CMAKE_FIND_ROOT_PATH_MODE_LIBRARY ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_INCLUDE ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_PACKAGE ONLY)
# The libraries of that machine are within the program, so that an emulator needs nothing but it.
set(CMAKE_EXE_LINKER_FLAGS_INIT "-static")
