# What all flavours share. Include it from an initial cache; what a flavour sets before that line holds.
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "-O1 -g1" CACHE STRING "")
set(CMAKE_CXX_FLAGS_RELEASE "-O2 -DNDEBUG" CACHE STRING "")
set(CMAKE_EXPORT_COMPILE_COMMANDS ON CACHE BOOL "")
set(WHICHEVER_WARNINGS ON CACHE BOOL "")
set(WHICHEVER_PRECOMPILE ON CACHE BOOL "")
set(WHICHEVER_TESTS_COMPLETE ON CACHE BOOL "")
find_program(ccache ccache)
if(ccache)
  # A precompiled header is kept by content only where the cache is told that its times and macros do not matter.
  # Said here, so that it does not rest on how a machine is set up.
  set(CMAKE_CXX_COMPILER_LAUNCHER
      env CCACHE_SLOPPINESS=pch_defines,time_macros,include_file_mtime,include_file_ctime ${ccache} CACHE STRING "")
endif()
