# What cpack makes: Debian packages, one a component of samelight_install.cmake. tools/packages says the rest.

set(SAMELIGHT_PACKAGE_CONTACT "samelight contributors <samelight@packages.debian.org>" CACHE STRING
    "Who makes these packages, for their users: NAME <ADDRESS>")

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME samelight)
set(CPACK_PACKAGE_VERSION "${PROJECT_VERSION}")
# Each package's own stands first in its description.
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "")
set(CPACK_PACKAGE_CONTACT "${SAMELIGHT_PACKAGE_CONTACT}")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_GROUPING IGNORE)
set(CPACK_COMPONENTS_ALL dev)

set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SOURCE samelight)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)

set(needed "libeigen3-dev (>= 3.4), libboost-dev (>= 1.74)")
if(SAMELIGHT_HAS_XSIMD)
    string(APPEND needed ", libxsimd-dev")
endif()
if(SAMELIGHT_IO_WANTED)
    string(APPEND needed ", libfmt-dev, libpugixml-dev")
endif()
if(SAMELIGHT_C_WANTED)
    set(library "libsamelight-c${SAMELIGHT_C_ABI}")
    list(APPEND CPACK_COMPONENTS_ALL library)
    set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME "${library}")
    set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libs)
    set(CPACK_DEBIAN_LIBRARY_PACKAGE_SHLIBDEPS ON)
    set(CPACK_DEBIAN_LIBRARY_DESCRIPTION "White targets for displays: the library for C
A shared library with a plain C interface: what an instrument must read on a
display so that its white looks the same as a reference, corrections for a
meter, and the proof of the work.")
    # What is linked with it names it so; and dpkg, not a script of the package's own, tells the loader of it.
    file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/package/shlibs" CONTENT "libsamelight_c ${SAMELIGHT_C_ABI} ${library} (>= ${PROJECT_VERSION})\n")
    file(CONFIGURE OUTPUT "${PROJECT_BINARY_DIR}/package/triggers" CONTENT "activate-noawait ldconfig\n")
    set(CPACK_DEBIAN_LIBRARY_PACKAGE_CONTROL_EXTRA "${PROJECT_BINARY_DIR}/package/shlibs;${PROJECT_BINARY_DIR}/package/triggers")
    string(APPEND needed ", ${library} (= ${PROJECT_VERSION})")
endif()

set(CPACK_DEBIAN_DEV_PACKAGE_NAME samelight-dev)
set(CPACK_DEBIAN_DEV_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEV_PACKAGE_DEPENDS "${needed}")
set(CPACK_DEBIAN_DEV_DESCRIPTION "White targets for displays: the library for C++ and C
Headers, CMake and pkg-config files and static libraries: what an instrument
must read on a display so that its white looks the same as a reference white,
how sure that is, corrections for a meter, and the proof of the work. For C++
it is header-only or compiled; for C there is a shared library, too.")

if(TARGET samelight_command)
    list(APPEND CPACK_COMPONENTS_ALL command)
    set(CPACK_DEBIAN_COMMAND_PACKAGE_NAME samelight)
    set(CPACK_DEBIAN_COMMAND_PACKAGE_SECTION science)
    set(CPACK_DEBIAN_COMMAND_PACKAGE_SHLIBDEPS ON)
    set(CPACK_DEBIAN_COMMAND_DESCRIPTION "White targets for displays: the command
Says what an instrument must read on a display so that its white looks the
same as a reference white, from the display's own measured spectra, how sure
that is, and what it costs in light. It makes and chooses corrections for a
meter, plans a visit, and proves the work.")
endif()
if(TARGET samelight_python)
    list(APPEND CPACK_COMPONENTS_ALL python)
    set(CPACK_DEBIAN_PYTHON_PACKAGE_NAME python3-samelight)
    set(CPACK_DEBIAN_PYTHON_PACKAGE_SECTION python)
    set(CPACK_DEBIAN_PYTHON_PACKAGE_SHLIBDEPS ON)
    get_property(python_minor GLOBAL PROPERTY SAMELIGHT_PYTHON_MINOR)
    math(EXPR next_minor "${python_minor} + 1")
    set(CPACK_DEBIAN_PYTHON_PACKAGE_DEPENDS "python3 (>= 3.${python_minor}), python3 (<< 3.${next_minor}), python3-numpy")
    set(CPACK_DEBIAN_PYTHON_DESCRIPTION "White targets for displays: the Python module
Says what an instrument must read on a display so that its white looks the
same as a reference white, how sure that is, corrections for a meter, and the
proof of the work, from numpy's arrays.")
endif()

# ---- What every package has: its terms and its changes -------------------------------------------------

find_package(Python3 QUIET COMPONENTS Interpreter)
set(papers "${PROJECT_BINARY_DIR}/package/papers")
if(Python3_FOUND)
    add_custom_command(
        OUTPUT "${papers}/copyright" "${papers}/changelog.gz"
        COMMAND Python3::Interpreter -B "${PROJECT_SOURCE_DIR}/tools/packaging/papers.py"
            "${PROJECT_SOURCE_DIR}" "${PROJECT_VERSION}" "${SAMELIGHT_PACKAGE_CONTACT}" "${papers}"
        DEPENDS "${PROJECT_SOURCE_DIR}/tools/packaging/papers.py" "${PROJECT_SOURCE_DIR}/LICENSE"
            "${PROJECT_SOURCE_DIR}/data/README.md" "${PROJECT_SOURCE_DIR}/CHANGELOG.md"
        COMMENT "Making the packages' copyright and changelog"
        VERBATIM)
    add_custom_target(samelight_papers ALL DEPENDS "${papers}/copyright" "${papers}/changelog.gz")
    foreach(component IN LISTS CPACK_COMPONENTS_ALL)
        string(TOUPPER "${component}" upper)
        # Not for a plain install, which makes no packages.
        install(FILES "${papers}/copyright" "${papers}/changelog.gz"
            DESTINATION "share/doc/${CPACK_DEBIAN_${upper}_PACKAGE_NAME}" COMPONENT ${component} EXCLUDE_FROM_ALL)
    endforeach()
endif()

include(CPack)
