# For Windows on 64-bit processors, by Debian's mingw-w64 (g++-mingw-w64-x86-64-posix); tools/windows says the rest.
# The libraries are Debian's own headers, which are the same for every system: SAMELIGHT_MINGW_HEADERS is a folder that links
# to them and to nothing else of /usr/include, SAMELIGHT_PUGIXML_SOURCE the folder src of pugixml's source package.

set(CMAKE_SYSTEM_NAME Windows)
set(CMAKE_SYSTEM_PROCESSOR x86_64)
set(CMAKE_C_COMPILER x86_64-w64-mingw32-gcc-posix)
set(CMAKE_CXX_COMPILER x86_64-w64-mingw32-g++-posix)
set(CMAKE_CXX_COMPILER_AR x86_64-w64-mingw32-gcc-ar-posix)
set(CMAKE_CXX_COMPILER_RANLIB x86_64-w64-mingw32-gcc-ranlib-posix)
set(CMAKE_RC_COMPILER x86_64-w64-mingw32-windres)
set(CMAKE_FIND_ROOT_PATH /usr/x86_64-w64-mingw32)
set(CMAKE_FIND_ROOT_PATH_MODE_PROGRAM NEVER)
set(CMAKE_FIND_ROOT_PATH_MODE_LIBRARY ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_INCLUDE ONLY)
set(CMAKE_FIND_ROOT_PATH_MODE_PACKAGE ONLY)

# Nobody asks errno what a function of numbers said, and the command has one thread: 1 % less.
set(CMAKE_CXX_FLAGS_INIT "-ffunction-sections -fdata-sections -fno-math-errno -fno-threadsafe-statics")
# One file: the compiler's own libraries are within.
# No section for each datum: g++ for Windows puts those that are zero at first into the file, 120 kB of tables that are made on first use.
# In one part: g++ 12 fails in `binds_to_current_def_p` where link-time optimisation takes the program in several.
set(CMAKE_EXE_LINKER_FLAGS_INIT "-static -fno-data-sections -flto-partition=none -falign-functions=1 -fmerge-all-constants -Wl,--gc-sections -s")
set(CMAKE_TRY_COMPILE_PLATFORM_VARIABLES SAMELIGHT_MINGW_HEADERS SAMELIGHT_PUGIXML_SOURCE)
