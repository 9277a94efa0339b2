# What is installed: program, library with its headers, manual page, completion, documents; and the
# packages of it (cpack): for Debian, and a ZIP for Windows.
set(CPACK_PACKAGE_NAME caseload)
if(WIN32) # one folder, nothing to install; stripped by its linker
  install(TARGETS caseload_program RUNTIME DESTINATION .)
  install(FILES src/packaging/windows.txt DESTINATION . RENAME "read me.txt")
  install(FILES LICENSE THIRD-PARTY.txt docs/examples/light.toml docs/input.md DESTINATION .)
  # The live page is built by preset live; a ZIP without it is none.
  set(CASELOAD_PAGE ${PROJECT_SOURCE_DIR}/build/live/caseload.html CACHE FILEPATH "Live page to pack")
  install(CODE "if(NOT EXISTS \"${CASELOAD_PAGE}\")
    message(FATAL_ERROR \"No live page at ${CASELOAD_PAGE}: cmake --preset live && cmake --build --preset live, \"
      \"or name it by -DCASELOAD_PAGE=FILE\")
  endif()")
  install(FILES ${CASELOAD_PAGE} DESTINATION .)
  set(CPACK_GENERATOR ZIP)
  include(CPack)
  return()
endif()
set(CPACK_STRIP_FILES ON)

include(GNUInstallDirs)
include(CMakePackageConfigHelpers)
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/caseload)

install(TARGETS caseload caseload_fmt EXPORT caseload-targets
  ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR} FILE_SET HEADERS DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(EXPORT caseload-targets NAMESPACE caseload:: DESTINATION ${package_dir})
file(WRITE ${PROJECT_BINARY_DIR}/caseload-config.cmake
  "include(CMakeFindDependencyMacro)\nfind_dependency(Boost)\n"
  "include(\${CMAKE_CURRENT_LIST_DIR}/caseload-targets.cmake)\n")
write_basic_package_version_file(${PROJECT_BINARY_DIR}/caseload-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${PROJECT_BINARY_DIR}/caseload-config.cmake ${PROJECT_BINARY_DIR}/caseload-config-version.cmake
  DESTINATION ${package_dir})

if(TARGET caseload_program)
  install(TARGETS caseload_program RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
  set(manual ${PROJECT_BINARY_DIR}/caseload.1.gz)
  set(completion ${PROJECT_BINARY_DIR}/caseload.bash)
  set(schema ${PROJECT_BINARY_DIR}/setup.schema.json)
  add_custom_command(OUTPUT ${manual} ${completion} ${schema} DEPENDS caseload_program VERBATIM
    COMMAND sh -c "\"$1\" manual | gzip -9n >\"$2\" && \"$1\" manual --completion >\"$3\" && \"$1\" keys --schema >\"$4\""
            sh $<TARGET_FILE:caseload_program> ${manual} ${completion} ${schema})
  add_custom_target(caseload_documents ALL DEPENDS ${manual} ${completion} ${schema})
  install(FILES ${manual} DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
  install(FILES ${completion} DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions RENAME caseload)
  install(FILES ${schema} DESTINATION ${CMAKE_INSTALL_DATADIR}/caseload)
  # Built by preset live, if it was; the program looks for it there.
  install(FILES ${PROJECT_SOURCE_DIR}/build/live/caseload.html DESTINATION ${CMAKE_INSTALL_DATADIR}/caseload OPTIONAL)
endif()
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright)
install(FILES THIRD-PARTY.txt DESTINATION ${CMAKE_INSTALL_DOCDIR})
install(DIRECTORY docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR} PATTERN "*.png" EXCLUDE)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "the caseload team <caseload@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "oil temperature, bearing life and service intervals of a transfer case")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
if(NOT CASELOAD_STATIC) # which needs no library, and asking for them needs dpkg-dev and file
  set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
endif()
include(CPack)
