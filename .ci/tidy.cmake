# cmake -C .ci/tidy.cmake -S . -B build/tidy -G Ninja
set(CMAKE_CXX_CLANG_TIDY clang-tidy CACHE STRING "")
set(WHICHEVER_PRECOMPILE OFF CACHE BOOL "")  # of another compiler
include(${CMAKE_CURRENT_LIST_DIR}/common.cmake)
