# cmake -C .ci/debug.cmake -S . -B build/debug -G Ninja
set(WHICHEVER_BOTH_LIBRARIES ON CACHE BOOL "")
# A place beyond a vector's end ends the run here, too, not only under the sanitizers.
set(CMAKE_CXX_FLAGS "-D_GLIBCXX_ASSERTIONS" CACHE STRING "")
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
