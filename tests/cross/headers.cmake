# Included at project() by the presets mingw and live (CMAKE_PROJECT_TOP_LEVEL_INCLUDES).
# The libraries used are headers only, but naming /usr/include to a cross compiler also gives it
# the host's C headers. So: a folder in the build that links to the wanted ones and no other.
set(cross_headers ${CMAKE_BINARY_DIR}/cross_headers)
file(MAKE_DIRECTORY ${cross_headers})
foreach(name boost CLI fast_float fmt toml++)
  if(NOT EXISTS /usr/include/${name})
    message(FATAL_ERROR "/usr/include/${name} is missing: install what README.md lists")
  endif()
  file(CREATE_LINK /usr/include/${name} ${cross_headers}/${name} SYMBOLIC)
endforeach()

# What CMakeLists.txt looks for, found there; no search of the host.
set(Boost_NO_BOOST_CMAKE ON)
set(Boost_INCLUDE_DIR ${cross_headers})
set(CASELOAD_TOML_DIR ${cross_headers})
file(WRITE ${cross_headers}/cmake/fmt-config.cmake
  "add_library(fmt::fmt INTERFACE IMPORTED)\n"
  "target_include_directories(fmt::fmt INTERFACE \"${cross_headers}\")\n")
set(fmt_DIR ${cross_headers}/cmake)
file(WRITE ${cross_headers}/cmake/CLI11Config.cmake
  "add_library(CLI11::CLI11 INTERFACE IMPORTED)\n"
  "target_include_directories(CLI11::CLI11 INTERFACE \"${cross_headers}\")\n")
set(CLI11_DIR ${cross_headers}/cmake)
