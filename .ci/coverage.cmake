# cmake -C .ci/coverage.cmake -S . -B build/coverage -G Ninja
set(CMAKE_CXX_FLAGS_DEBUG "-O0 -g1" CACHE STRING "")  # an optimiser merges branches
set(WHICHEVER_COVERAGE ON CACHE BOOL "")
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
