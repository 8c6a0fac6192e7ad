# Install rules and the package that find_package(samelight) reads.

include(CMakePackageConfigHelpers)
set(package_dir "${CMAKE_INSTALL_LIBDIR}/cmake/samelight")

install(TARGETS samelight samelight_compiled EXPORT samelightTargets
    ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}"
    LIBRARY DESTINATION "${CMAKE_INSTALL_LIBDIR}"
    RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}"
    FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}")
install(EXPORT samelightTargets NAMESPACE samelight:: DESTINATION "${package_dir}")

if(TARGET samelight_io AND SAMELIGHT_IO_WANTED)
    install(TARGETS samelight_io EXPORT samelightIoTargets
        ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}"
        LIBRARY DESTINATION "${CMAKE_INSTALL_LIBDIR}"
        FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}")
    install(EXPORT samelightIoTargets NAMESPACE samelight:: DESTINATION "${package_dir}")
endif()
if(SAMELIGHT_C_WANTED)
    # Found by pkg-config; C++ has better ways.
    install(TARGETS samelight_c samelight_c_static
        ARCHIVE DESTINATION "${CMAKE_INSTALL_LIBDIR}"
        LIBRARY DESTINATION "${CMAKE_INSTALL_LIBDIR}"
        RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}")
    install(DIRECTORY "${PROJECT_SOURCE_DIR}/include/samelight/c" DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/samelight"
        FILES_MATCHING PATTERN "*.h")
    install(FILES "${PROJECT_BINARY_DIR}/package/samelight-c.pc" DESTINATION "${CMAKE_INSTALL_LIBDIR}/pkgconfig")
endif()
if(TARGET samelight_command)
    install(TARGETS samelight_command RUNTIME DESTINATION "${CMAKE_INSTALL_BINDIR}")
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
    DESTINATION "${package_dir}")
# LICENSE refers to data/README.md for the notices of the tables, and that to the manifest: they keep their places beside it.
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE" DESTINATION "${CMAKE_INSTALL_DOCDIR}")
install(FILES "${PROJECT_SOURCE_DIR}/data/README.md" "${PROJECT_SOURCE_DIR}/data/manifest.csv"
    DESTINATION "${CMAKE_INSTALL_DOCDIR}/data")
# What answers for programs look like (src/docs/json.md), and what checks them.
install(DIRECTORY "${PROJECT_SOURCE_DIR}/data/schemas/" DESTINATION "${CMAKE_INSTALL_DOCDIR}/data/schemas"
    FILES_MATCHING PATTERN "*.schema.json")
install(PROGRAMS "${PROJECT_SOURCE_DIR}/data/schemas/check_json.py" DESTINATION "${CMAKE_INSTALL_DOCDIR}/data/schemas")
