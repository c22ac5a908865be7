# cmake -C .ci/release.cmake -S . -B build/release -G Ninja
set(CMAKE_BUILD_TYPE Release CACHE STRING "")
set(WHICHEVER_UNITY ON CACHE BOOL "")
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
