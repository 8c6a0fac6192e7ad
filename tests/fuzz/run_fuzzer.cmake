# Runs a fuzzer shortly: first every seed, then 20 seconds of new inputs from them.
# -DFUZZER=program -DSEEDS=folder -DWORK=folder, emptied first. Seeds are copied, as the fuzzer
# writes what it finds into the folder it is given.

file(REMOVE_RECURSE "${WORK}/corpus")
file(MAKE_DIRECTORY "${WORK}/corpus")
file(GLOB seeds "${SEEDS}/*")
list(LENGTH seeds count)
message(STATUS "${count} seeds in ${SEEDS}")
foreach(seed IN LISTS seeds)
    file(COPY "${seed}" DESTINATION "${WORK}/corpus")
endforeach()

execute_process(
    COMMAND "${FUZZER}" "${WORK}/corpus" -seed=1 -max_total_time=20 -timeout=10 -print_final_stats=1
        "-artifact_prefix=${WORK}/"
    RESULT_VARIABLE result)
if(NOT result EQUAL 0)
    message(FATAL_ERROR "${FUZZER} ended with ${result}; the input it stopped at lies in ${WORK}")
endif()
