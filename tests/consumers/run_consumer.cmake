# Configures, builds and runs the project in -DCONSUMER from scratch, in the folder -DWORK.

file(REMOVE_RECURSE "${WORK}")
set(arguments
    -S "${CONSUMER}" -B "${WORK}" -G "${GENERATOR}"
    "-DCMAKE_CXX_COMPILER=${COMPILER}"
    "-DCMAKE_CXX_FLAGS=${FLAGS}"
    "-DCMAKE_BUILD_TYPE=${CONFIG}"
    "-DSAMELIGHT_SOURCE=${SAMELIGHT_SOURCE}"
    "-DFETCHCONTENT_SOURCE_DIR_SAMELIGHT=${SAMELIGHT_SOURCE}"
    "-DFETCHCONTENT_FULLY_DISCONNECTED=ON")
if(PREFIX)
    list(APPEND arguments "-DCMAKE_PREFIX_PATH=${PREFIX}")
endif()

execute_process(COMMAND "${CMAKE_COMMAND}" ${arguments} COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND "${CMAKE_COMMAND}" --build "${WORK}" --config "${CONFIG}"
    COMMAND_ERROR_IS_FATAL ANY)
execute_process(COMMAND "${WORK}/consumer" OUTPUT_VARIABLE printed COMMAND_ERROR_IS_FATAL ANY)
message(STATUS "the consumer printed: ${printed}")
if(NOT printed MATCHES "^samelight ${VERSION}\n")
    message(FATAL_ERROR "${CONSUMER} should have printed the version, ${VERSION}")
endif()
