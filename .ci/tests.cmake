# cmake -C .ci/tests.cmake -S . -B build/tests -G Ninja     built to be run once: what takes time is compiling
set(WHICHEVER_UNITY ON CACHE BOOL "")
include(${CMAKE_CURRENT_LIST_DIR}/debug.cmake)
