# cmake -C .ci/debug.cmake -S . -B build/debug -G Ninja
set(WHICHEVER_BOTH_LIBRARIES ON CACHE BOOL "")
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
