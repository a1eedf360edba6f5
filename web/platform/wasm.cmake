# How the app is linked for the browser. Included by the CMakeLists.txt at the top.
# Output: bin/tallyblock.mjs and bin/tallyblock.wasm.

file(GLOB platform_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/platform/*.cpp)
list(REMOVE_ITEM platform_sources ${CMAKE_SOURCE_DIR}/web/platform/gl_state.cpp)
if(NOT TALLYBLOCK_SCREENS OR NOT platform_sources)
  return()
endif()

# Dear ImGui's own OpenGL back end, with its questions to the driver answered from known state.
add_library(gl_backend STATIC
  ${IMGUI_DIR}/backends/imgui_impl_opengl3.cpp ${CMAKE_SOURCE_DIR}/web/platform/gl_state.cpp)
target_include_directories(gl_backend SYSTEM PUBLIC ${IMGUI_DIR}/backends)
target_link_libraries(gl_backend PUBLIC imgui)
target_compile_definitions(gl_backend PUBLIC IMGUI_IMPL_OPENGL_ES3)
target_compile_options(gl_backend PRIVATE ${plain_cxx})
set_source_files_properties(${IMGUI_DIR}/backends/imgui_impl_opengl3.cpp PROPERTIES
  COMPILE_OPTIONS "-w;-include;${CMAKE_SOURCE_DIR}/web/platform/gl_state.h")

add_executable(tallyblock ${platform_sources})
set_target_properties(tallyblock PROPERTIES SUFFIX .mjs)
target_link_libraries(tallyblock PRIVATE tallyblock_screens gl_backend tallyblock_warnings)
target_compile_options(tallyblock PRIVATE ${plain_cxx}
  # The macros that carry JavaScript inside C++ are not standard C++.
  -Wno-dollar-in-identifier-extension -Wno-gnu-zero-variadic-macro-arguments)
target_link_options(tallyblock PRIVATE
  --closure=1
  --profiling-funcs # names, for the split; they are taken out after it (build_site.sh)
  -sMODULARIZE
  -sEXPORT_ES6
  -sEXPORT_NAME=createTallyblock
  -sENVIRONMENT=web
  -sMIN_WEBGL_VERSION=2
  -sMAX_WEBGL_VERSION=2
  -sALLOW_MEMORY_GROWTH
  -sINITIAL_MEMORY=16MB
  -sSTACK_SIZE=256KB
  -sFILESYSTEM=0
  -sMALLOC=emmalloc
  -sSUPPORT_LONGJMP=0
  -sINVOKE_RUN=0
  -sEXPORTED_RUNTIME_METHODS=HEAPU8
  -sEXPORTED_FUNCTIONS=_malloc,_free
  -sINCOMING_MODULE_JS_API=canvas,locateFile,instantiateWasm,wasmBinary)

# The words as the page loads them, written by a program that knows nothing else.
if(NOT TALLYBLOCK_TESTS)
  add_executable(words_files ${CMAKE_SOURCE_DIR}/web/platform/build/words_files.cpp
    ${CMAKE_SOURCE_DIR}/web/words/packed.cpp)
  target_include_directories(words_files PRIVATE ${CMAKE_SOURCE_DIR})
  target_link_libraries(words_files PRIVATE tallyblock_warnings)
  target_compile_options(words_files PRIVATE ${plain_cxx})
  target_link_options(words_files PRIVATE -sENVIRONMENT=node -sEXIT_RUNTIME=1)
endif()

# What a plan costs in a browser, compiled as the app is: for tests/bench/browser_bench.mjs alone.
add_executable(tallyblock_plan_bench EXCLUDE_FROM_ALL ${CMAKE_SOURCE_DIR}/tests/bench/plan_bench.cpp)
set_target_properties(tallyblock_plan_bench PROPERTIES SUFFIX .mjs)
target_link_libraries(tallyblock_plan_bench PRIVATE tallyblock_core tallyblock_warnings)
target_compile_options(tallyblock_plan_bench PRIVATE ${plain_cxx})
target_link_options(tallyblock_plan_bench PRIVATE -sMODULARIZE -sEXPORT_ES6 -sENVIRONMENT=web
  -sALLOW_MEMORY_GROWTH -sSTACK_SIZE=256KB -sFILESYSTEM=0 -sMALLOC=emmalloc
  -sINCOMING_MODULE_JS_API=print)
