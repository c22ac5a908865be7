# cmake -C .ci/sanitize.cmake -S . -B build/sanitize -G Ninja
set(WHICHEVER_SANITIZE "address,undefined" CACHE STRING "")
set(WHICHEVER_UNITY ON CACHE BOOL "")
# Built to be run once, so that compiling is what takes time.
set(CMAKE_CXX_FLAGS_DEBUG "-O0 -g1" CACHE STRING "")
set(CMAKE_CXX_FLAGS "-D_GLIBCXX_ASSERTIONS" CACHE STRING "")
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
