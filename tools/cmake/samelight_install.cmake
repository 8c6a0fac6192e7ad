# Install rules and the package that find_package(samelight) reads. Their components are the Debian packages (samelight_packages.cmake).

include(CMakePackageConfigHelpers)
set(package_dir "${CMAKE_INSTALL_LIBDIR}/cmake/samelight")

install(TARGETS samelight samelight_compiled EXPORT samelightTargets
    ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT dev
    LIBRARY DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT library NAMELINK_COMPONENT dev
    RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}" COMPONENT library
    FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}" COMPONENT dev)
install(EXPORT samelightTargets NAMESPACE samelight:: DESTINATION "${package_dir}" COMPONENT dev)

if(TARGET samelight_io AND SAMELIGHT_IO_WANTED)
    install(TARGETS samelight_io EXPORT samelightIoTargets
        ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT dev
        LIBRARY DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT library NAMELINK_COMPONENT dev
        FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}" COMPONENT dev)
    install(EXPORT samelightIoTargets NAMESPACE samelight:: DESTINATION "${package_dir}" COMPONENT dev)
endif()
# For C++ without CMake: the compiled form. Who wants the headers alone needs no more than a folder.
set(SAMELIGHT_PC_LIBS "-lsamelight")
set(SAMELIGHT_PC_FLAGS "-DSAMELIGHT_COMPILED=1")
if(TARGET samelight_io AND SAMELIGHT_IO_WANTED)
    set(SAMELIGHT_PC_LIBS "-lsamelight_io -lsamelight -lfmt -lpugixml")
endif()
if(SAMELIGHT_HAS_XSIMD)
    string(APPEND SAMELIGHT_PC_FLAGS " -DSAMELIGHT_HAS_XSIMD=1")
endif()
if(BUILD_SHARED_LIBS)
    string(APPEND SAMELIGHT_PC_FLAGS " -DSAMELIGHT_SHARED")
endif()
file(RELATIVE_PATH SAMELIGHT_UP "/${CMAKE_INSTALL_LIBDIR}/pkgconfig" "/")
configure_file("${CMAKE_CURRENT_LIST_DIR}/samelight.pc.in" "${PROJECT_BINARY_DIR}/package/samelight.pc" @ONLY)
install(FILES "${PROJECT_BINARY_DIR}/package/samelight.pc" DESTINATION "${CMAKE_INSTALL_LIBDIR}/pkgconfig" COMPONENT dev)

if(SAMELIGHT_C_WANTED)
    # Found by pkg-config.
    install(TARGETS samelight_c samelight_c_static
        ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT dev
        LIBRARY DESTINATION "${CMAKE_INSTALL_LIBDIR}" COMPONENT library NAMELINK_COMPONENT dev
        RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}" COMPONENT library)
    install(DIRECTORY "${PROJECT_SOURCE_DIR}/include/samelight/c" DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/samelight"
        COMPONENT dev FILES_MATCHING PATTERN "*.h")
    install(FILES "${PROJECT_BINARY_DIR}/package/samelight-c.pc" DESTINATION "${CMAKE_INSTALL_LIBDIR}/pkgconfig" COMPONENT dev)
endif()

if(TARGET samelight_command)
    install(TARGETS samelight_command RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}" COMPONENT command)
    if(TARGET samelight_manual)
        set(SAMELIGHT_ZSH_DIR "${CMAKE_INSTALL_DATADIR}/zsh/site-functions" CACHE STRING "Where zsh looks for completion")
        install(DIRECTORY "${SAMELIGHT_MANUAL_DIR}/man1" DESTINATION "${CMAKE_INSTALL_MANDIR}" COMPONENT command)
        install(FILES "${SAMELIGHT_MANUAL_DIR}/completion/samelight"
            DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions" COMPONENT command)
        install(FILES "${SAMELIGHT_MANUAL_DIR}/completion/_samelight" DESTINATION "${SAMELIGHT_ZSH_DIR}" COMPONENT command)
    endif()
    # The whole program as one page that needs no network, where it was made.
    set(SAMELIGHT_PAGE_FILE "${PROJECT_SOURCE_DIR}/build/page/samelight.html" CACHE FILEPATH "The offline page, to be installed where it is there")
    install(CODE "
        if(EXISTS \"${SAMELIGHT_PAGE_FILE}\")
            file(INSTALL \"${SAMELIGHT_PAGE_FILE}\" RENAME samelight.html
                DESTINATION \"\${CMAKE_INSTALL_PREFIX}/${CMAKE_INSTALL_DATADIR}/samelight\")
        endif()" COMPONENT command)
endif()
if(TARGET samelight_python)
    set(SAMELIGHT_PYTHON_DIR "lib/python3/dist-packages" CACHE STRING "Where Python looks for modules")
    install(TARGETS samelight_python LIBRARY DESTINATION "${SAMELIGHT_PYTHON_DIR}" COMPONENT python)
    # Type checkers read a stub of a module that is one file as a package of stubs (PEP 561).
    install(FILES "${PROJECT_SOURCE_DIR}/src/python/samelight.pyi" DESTINATION "${SAMELIGHT_PYTHON_DIR}/samelight-stubs"
        RENAME __init__.pyi COMPONENT python)
    file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/package/py.typed" CONTENT "")
    install(FILES "${PROJECT_BINARY_DIR}/package/py.typed" DESTINATION "${SAMELIGHT_PYTHON_DIR}/samelight-stubs" COMPONENT python)
endif()

configure_package_config_file(
    "${CMAKE_CURRENT_LIST_DIR}/samelightConfig.cmake.in"
    "${PROJECT_BINARY_DIR}/package/samelightConfig.cmake"
    INSTALL_DESTINATION "${package_dir}"
    NO_SET_AND_CHECK_MACRO)
# Before 1.0 a minor version may change what callers see.
write_basic_package_version_file(
    "${PROJECT_BINARY_DIR}/package/samelightConfigVersion.cmake"
    COMPATIBILITY SameMinorVersion)
install(FILES
    "${PROJECT_BINARY_DIR}/package/samelightConfig.cmake"
    "${PROJECT_BINARY_DIR}/package/samelightConfigVersion.cmake"
    DESTINATION "${package_dir}" COMPONENT dev)
# LICENSE refers to data/README.md for the notices of the tables, and that to the manifest: they keep their places beside it.
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE" DESTINATION "${CMAKE_INSTALL_DOCDIR}" COMPONENT dev)
install(FILES "${PROJECT_SOURCE_DIR}/data/README.md" "${PROJECT_SOURCE_DIR}/data/manifest.csv"
    DESTINATION "${CMAKE_INSTALL_DOCDIR}/data" COMPONENT dev)
# What answers for programs look like (src/docs/json.md), and what checks them.
install(DIRECTORY "${PROJECT_SOURCE_DIR}/data/schemas/" DESTINATION "${CMAKE_INSTALL_DOCDIR}/data/schemas"
    COMPONENT dev FILES_MATCHING PATTERN "*.schema.json")
install(PROGRAMS "${PROJECT_SOURCE_DIR}/data/schemas/check_json.py" DESTINATION "${CMAKE_INSTALL_DOCDIR}/data/schemas" COMPONENT dev)
