# The live page: the engine as WebAssembly inside one HTML file (docs/live.md).
add_executable(caseload_engine src/live/entry.cpp)
target_include_directories(caseload_engine PRIVATE src)
target_link_libraries(caseload_engine PRIVATE caseload)
target_link_options(caseload_engine PRIVATE --no-entry -sMODULARIZE=1
  -sEXPORT_NAME=caseload_engine -sENVIRONMENT=worker -sALLOW_MEMORY_GROWTH=1 -sFILESYSTEM=0
  -sTOTAL_STACK=8MB -sINITIAL_MEMORY=32MB # a text of 1 MiB passes over the stack with 4 bytes a character
  -sEXPORTED_FUNCTIONS=_caseload_ask,_malloc,_free -sEXPORTED_RUNTIME_METHODS=ccall)
set(live_dir ${PROJECT_SOURCE_DIR}/src/live)
set(live_page ${PROJECT_BINARY_DIR}/caseload.html)
add_custom_command(OUTPUT ${live_page} VERBATIM
  DEPENDS caseload_engine tables/page.css src/live/live.css src/live/live.js src/live/form.js src/live/engine.js
          src/live/page.html src/live/assemble.cmake THIRD-PARTY.txt
  COMMAND ${CMAKE_COMMAND} -DPAGE=${live_dir}/page.html
    "-DSTYLES=${PROJECT_SOURCE_DIR}/tables/page.css;${live_dir}/live.css"
    -DENGINE=$<TARGET_FILE:caseload_engine>
    -DWASM=$<TARGET_FILE_DIR:caseload_engine>/caseload_engine.wasm -DGLUE=${live_dir}/engine.js
    "-DSCRIPTS=${live_dir}/form.js;${live_dir}/live.js" -DNOTICES=${PROJECT_SOURCE_DIR}/THIRD-PARTY.txt -DVERSION=${PROJECT_VERSION} -DOUT=${live_page}
    -P ${live_dir}/assemble.cmake)
add_custom_target(caseload_live ALL DEPENDS ${live_page})
