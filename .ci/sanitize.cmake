# cmake -C .ci/sanitize.cmake -S . -B build/sanitize -G Ninja
set(WHICHEVER_SANITIZE "address,undefined" CACHE STRING "")
set(WHICHEVER_UNITY ON CACHE BOOL "")
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
