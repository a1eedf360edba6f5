# How the tests are compiled. Included by the CMakeLists.txt at the top.

find_path(GOOGLETEST_SOURCES googletest/src/gtest-all.cc PATHS /usr/src/googletest
  NO_CMAKE_FIND_ROOT_PATH REQUIRED)
add_library(gtest STATIC
  ${GOOGLETEST_SOURCES}/googletest/src/gtest-all.cc
  ${GOOGLETEST_SOURCES}/googlemock/src/gmock-all.cc
  ${GOOGLETEST_SOURCES}/googlemock/src/gmock_main.cc)
target_include_directories(gtest SYSTEM PUBLIC
  ${GOOGLETEST_SOURCES}/googletest/include ${GOOGLETEST_SOURCES}/googlemock/include)
target_include_directories(gtest PRIVATE
  ${GOOGLETEST_SOURCES}/googletest ${GOOGLETEST_SOURCES}/googlemock)
target_compile_options(gtest PRIVATE -w)
if(EMSCRIPTEN)
  # Tests run under Node and read the files of the tree through it.
  target_link_options(gtest INTERFACE -sENVIRONMENT=node -sNODERAWFS=1 -sEXIT_RUNTIME=1
    -sALLOW_MEMORY_GROWTH=1 -sSTACK_SIZE=1MB)
endif()

# test_program(NAME FOLDER LIBRARY...): one program and one ctest entry for the folder's *.cpp.
# What a test itself says is not optimized, whatever the build: it runs once, and takes a third of
# the time to compile.
function(test_program name folder)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/tests/${folder}/*.cpp)
  if(sources)
    set_source_files_properties(${sources} PROPERTIES COMPILE_OPTIONS -O0)
    add_executable(${name} ${sources})
    target_link_libraries(${name} PRIVATE ${ARGN} gtest tallyblock_warnings)
    target_compile_definitions(${name} PRIVATE TALLYBLOCK_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
    add_test(NAME ${name} COMMAND ${name})
  endif()
endfunction()

test_program(test_core core tallyblock_core)
target_sources(test_core PRIVATE ${CMAKE_SOURCE_DIR}/tests/bench/guide_sim.cpp
  ${CMAKE_SOURCE_DIR}/tests/bench/row_of_kinds.cpp)
test_program(test_reference reference tallyblock_core)
if(TALLYBLOCK_SCREENS AND NOT EMSCRIPTEN)
  test_program(test_kit kit tallyblock_kit)
  test_program(test_web web tallyblock_screens)
  target_sources(test_web PRIVATE ${CMAKE_SOURCE_DIR}/tests/kit/render_png.cpp)
endif()
# Plain programs of the core. Timings of a checked build would mean nothing.
#   tallyblock_bench        figures, report, reading a file, a whole log; natively and under Node
#   tallyblock_plan_bench   plans; natively, and in the browser by web/platform/wasm.cmake
#   tallyblock_guide_bench  the guide's simulated pieces
if(NOT TALLYBLOCK_SANITIZE AND NOT TALLYBLOCK_FUZZ)
  add_executable(tallyblock_bench ${CMAKE_SOURCE_DIR}/tests/bench/core_bench.cpp)
  target_link_libraries(tallyblock_bench PRIVATE tallyblock_core tallyblock_warnings)
  target_compile_definitions(tallyblock_bench PRIVATE TALLYBLOCK_SOURCE_DIR="${CMAKE_SOURCE_DIR}")
  if(EMSCRIPTEN)
    target_link_options(tallyblock_bench PRIVATE -sENVIRONMENT=node -sEXIT_RUNTIME=1
      -sALLOW_MEMORY_GROWTH=1 -sSTACK_SIZE=1MB)
  else()
    add_executable(tallyblock_plan_bench ${CMAKE_SOURCE_DIR}/tests/bench/plan_bench.cpp)
    target_link_libraries(tallyblock_plan_bench PRIVATE tallyblock_core tallyblock_warnings)
  endif()
endif()
if(EMSCRIPTEN)
  return()
endif()

add_executable(tallyblock_guide_bench ${CMAKE_SOURCE_DIR}/tests/bench/guide_bench.cpp
  ${CMAKE_SOURCE_DIR}/tests/bench/guide_sim.cpp
  ${CMAKE_SOURCE_DIR}/tests/bench/row_of_kinds.cpp)
target_link_libraries(tallyblock_guide_bench PRIVATE tallyblock_core tallyblock_warnings)

# tallyblock_replay FILE: the core's report for one saved file.
file(GLOB replay_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/tests/replay/*.cpp)
if(replay_sources)
  add_executable(tallyblock_replay ${replay_sources})
  target_link_libraries(tallyblock_replay PRIVATE tallyblock_core tallyblock_warnings)
endif()

# Each file of tests/nocompile must be refused, and accepted with -DCONTROL: see check.sh there.
file(GLOB nocompile_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/tests/nocompile/*.cpp)
foreach(source ${nocompile_sources})
  cmake_path(GET source STEM name)
  add_test(NAME nocompile.${name}
    COMMAND bash ${CMAKE_SOURCE_DIR}/tests/nocompile/check.sh ${source} ${CMAKE_CXX_COMPILER}
      -std=c++20 ${plain_cxx} -DJSON_NOEXCEPTION -isystem ${json_folder}
      -I ${CMAKE_SOURCE_DIR})
  set_tests_properties(nocompile.${name} PROPERTIES LABELS compile)
endforeach()

# tests/fuzz/NAME.cpp -> fuzz_NAME, with its corpus in tests/fuzz/corpus/NAME.
if(TALLYBLOCK_FUZZ)
  file(GLOB fuzz_sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/tests/fuzz/*.cpp)
  foreach(source ${fuzz_sources})
    cmake_path(GET source STEM name)
    add_executable(fuzz_${name} ${source})
    target_link_libraries(fuzz_${name} PRIVATE tallyblock_app tallyblock_warnings)
    target_link_options(fuzz_${name} PRIVATE -fsanitize=fuzzer)
  endforeach()
endif()
