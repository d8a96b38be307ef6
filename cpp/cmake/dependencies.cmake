# SPDX-License-Identifier: MIT
# What the library needs from the system, found here and nowhere else. All that is missing is told at
# once, with the one line that installs it: nothing is ever downloaded by a build.
set(missing_packages "")

find_package(Threads REQUIRED)

# Boost's own CMake files where there are some, else the module that CMake brings (newer CMake has none).
find_package(Boost 1.74 CONFIG QUIET)
if(NOT Boost_FOUND AND EXISTS "${CMAKE_ROOT}/Modules/FindBoost.cmake")
  find_package(Boost 1.74 MODULE QUIET)
endif()
if(NOT Boost_FOUND)
  list(APPEND missing_packages libboost-dev)
endif()

# No version here: the version file of Eigen 5 may refuse a request for 3.4.
find_package(Eigen3 CONFIG QUIET)
if(NOT Eigen3_FOUND OR Eigen3_VERSION VERSION_LESS 3.4)
  list(APPEND missing_packages libeigen3-dev)
endif()

# Debian's toml++ brings pkg-config and meson files but none for CMake.
find_path(SEASONRISK_TOMLPLUSPLUS_DIR toml++/toml.h)
mark_as_advanced(SEASONRISK_TOMLPLUSPLUS_DIR)
if(NOT SEASONRISK_TOMLPLUSPLUS_DIR)
  list(APPEND missing_packages libtomlplusplus-dev)
endif()

if(SEASONRISK_BUILD_TESTS)
  find_package(Catch2 3 CONFIG QUIET)
  if(NOT Catch2_FOUND)
    find_package(Catch2 2.13 CONFIG QUIET)
  endif()
  if(NOT Catch2_FOUND)
    list(APPEND missing_packages catch2)
  endif()
endif()

if(missing_packages)
  list(JOIN missing_packages " " missing_words)
  message(FATAL_ERROR "seasonrisk needs packages that are not installed. Type:\n  sudo apt-get install ${missing_words}\n")
endif()

# Third-party headers are SYSTEM: their warnings are not ours to mend.
add_library(seasonrisk_tomlplusplus INTERFACE)
target_include_directories(seasonrisk_tomlplusplus SYSTEM INTERFACE "${SEASONRISK_TOMLPLUSPLUS_DIR}")
