# The stages of tests/run.sh, one function each. A stage fails by a failing command. Sourced, with
# the top of the tree as working folder.

jobs=$(nproc)

our_cxx() { git ls-files --cached --others --exclude-standard 'core/*' 'web/*' 'tests/*' | grep -E '\.(h|cpp)$'; }

# configure FOLDER OPTION...: once; builds re-run CMake by themselves when it is due.
configure() {
  local folder=.build/$1
  shift
  [ -f "$folder/build.ninja" ] || cmake -G Ninja -S . -B "$folder" --log-level=WARNING "$@"
}

build() { # FOLDER TARGET...
  local folder=.build/$1
  shift
  ninja -C "$folder" -k 0 "$@"
}

check_format() {
  our_cxx | xargs clang-format-19 --dry-run -Werror
}

# Files stay readable in one sitting, and say nothing about the machine they were written on.
check_text() {
  local bad=0 long
  long=$(our_cxx | xargs wc -l | awk '$2 != "total" && $1 > 400 { print $2 " has " $1 " lines, more than 400" }')
  [ -z "$long" ] || { echo "$long"; bad=1; }
  if git grep -InE '/(ro[o]t|wo[r]k|ho[m]e)/|registry\.[a-z]+js\.|deb\.[a-z]+\.org|\b(TO[D]O|FIX[M]E|X[X]X)\b' -- \
    core web shell tests demo-data ':!*/package-lock.json'; then
    echo "These lines name a folder of one machine, a registry's address, or unfinished work."
    bad=1
  fi
  return $bad
}

check_schemas() { /usr/bin/python3 tests/schema/validate.py; }

# Each header of the core is compiled by itself, with only nlohmann's and the core's in reach, and every
# include of the tree is looked at.
build_core_alone() {
  configure native
  build native core_alone tallyblock_core
  /usr/bin/python3 tests/tools/includes.py
}

run_ctest() { # FOLDER OPTION...
  local folder=.build/$1
  shift
  ctest --test-dir "$folder" --no-tests=error --verbose --parallel "$jobs" "$@"
}

# Hundreds of simulated cooks are run natively and as WebAssembly: another compiler or the sanitizers see the
# same code in the other tests.
without_simulations='-GuideSim*'

run_nocompile() {
  configure native
  cmake -B .build/native --log-level=WARNING
  run_ctest native --label-regex compile
}

run_native() {
  configure native
  build native
  run_ctest native --label-exclude compile
}

run_gcc() {
  if ! command -v g++ >/dev/null; then
    echo "g++ is not installed; clang alone was tried."
    return
  fi
  # A second compiler's opinion and a second library: not for speed, so not optimized. The screens are
  # compiled only; their tests run under clang, plain and sanitized.
  configure gcc -DTALLYBLOCK_TOGETHER=ON -DCMAKE_CXX_COMPILER=g++ -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG=-O0
  build gcc tallyblock_screens test_core test_reference
  GTEST_FILTER=$without_simulations run_ctest gcc --tests-regex '^test_(core|reference)$'
}

run_sanitized() {
  configure sanitized -DTALLYBLOCK_TOGETHER=ON -DTALLYBLOCK_SANITIZE=ON -DCMAKE_BUILD_TYPE=Debug \
    -DCMAKE_CXX_FLAGS_DEBUG=-gline-tables-only
  build sanitized
  GTEST_FILTER=$without_simulations UBSAN_OPTIONS=print_stacktrace=1 run_ctest sanitized --label-exclude compile
}

configure_fuzz() {
  configure fuzz -DTALLYBLOCK_TOGETHER=ON -DTALLYBLOCK_FUZZ=ON -DTALLYBLOCK_SCREENS=OFF -DCMAKE_BUILD_TYPE=Debug \
    -DCMAKE_CXX_FLAGS_DEBUG=-gline-tables-only
  local -a targets=()
  local file
  for file in tests/fuzz/*.cpp; do targets+=("fuzz_$(basename "$file" .cpp)"); done
  build fuzz "${targets[@]}"
}

fuzz_targets() { find .build/fuzz/bin -name 'fuzz_*' -type f 2>/dev/null | sort; }

# Every file that once was interesting to the fuzzer.
run_corpus() {
  configure_fuzz
  local target name good=0 bad=0
  for target in $(fuzz_targets); do
    name=${target##*/fuzz_}
    mkdir -p "tests/fuzz/corpus/$name"
    if "$target" -runs=0 "tests/fuzz/corpus/$name"; then good=$((good + 1)); else bad=$((bad + 1)); fi
  done
  echo "$good passed, $bad failed"
  [ $bad = 0 ]
}

# A minute of new inputs in all; what is found stays in .build/fuzz/found.
run_fuzz() {
  configure_fuzz
  local target name good=0 bad=0 count
  count=$(fuzz_targets | wc -l)
  for target in $(fuzz_targets); do
    name=${target##*/fuzz_}
    mkdir -p ".build/fuzz/found/$name" ".build/fuzz/crash"
    if "$target" -max_total_time=$((60 / count)) -timeout=10 -rss_limit_mb=2048 -print_final_stats=1 \
      -verbosity=1 -artifact_prefix=".build/fuzz/crash/$name-" \
      ".build/fuzz/found/$name" "tests/fuzz/corpus/$name"; then
      good=$((good + 1))
    else
      bad=$((bad + 1))
    fi
  done
  echo "$good passed, $bad failed"
  [ $bad = 0 ]
}

# The core's tests once more, as WebAssembly under Node: another C++ library, another number format.
run_wasm() {
  use_emscripten
  configure wasm -DTALLYBLOCK_TOGETHER=ON -DTALLYBLOCK_SCREENS=OFF -DCMAKE_BUILD_TYPE=Release -DCMAKE_CXX_FLAGS_RELEASE=-O1 \
    "-DCMAKE_TOOLCHAIN_FILE=$EMSCRIPTEN/cmake/Modules/Platform/Emscripten.cmake"
  build wasm test_core test_reference tallyblock_bench
  run_ctest wasm
}

build_site() {
  bash shell/tools/build_site.sh
  node shell/tools/site.mjs --budget .build/site
}

run_browser() {
  [ -f .build/site/index.html ] || bash shell/tools/build_site.sh
  NODE_PATH=$node_modules QUICK=$quick node tests/browser/run.mjs ${ONLY:+--only "$ONLY"}
}

# The whole browser killed in the middle of work, 36 times in three campaigns side by side, and a full
# disk. More of them, with another seed: node tests/browser/campaign.mjs --kills 1000 --seed 4 --full-disk
run_kills() {
  [ -f .build/site/index.html ] || bash shell/tools/build_site.sh
  local seed run bad=0
  local -a runs=()
  for seed in 1 2 3; do
    NODE_PATH=$node_modules timeout 1500 node tests/browser/campaign.mjs --kills 12 --seed "$seed" \
      $([ "$seed" != 1 ] || echo --full-disk) >".build/log/kills-$seed.log" 2>&1 &
    runs+=($!)
  done
  for run in "${runs[@]}"; do wait "$run" || bad=1; done
  cat .build/log/kills-*.log
  return $bad
}

# The script a person calls: the object alone on standard output, a sentence when it cannot.
run_replay() {
  bash tests/tools/replay_check.sh
}

# Some of the planner's kept cases, solved anew by a solver that is not ours.
run_milp() {
  timeout 900 /usr/bin/python3 tests/reference/plan_milp.py check tests/reference/plan_milp.json 20 1
}

# The program itself; tests are watched by both compilers, the sanitizers and by running. Some files of a
# folder are looked at as one: what they include is gone through once, not once for each. Only what
# has changed since it was last found clean, by content: of the files, of any header, of the rules.
run_tidy() {
  configure native
  cmake -B .build/native --log-level=WARNING
  mkdir -p .build/tidy
  local common folder unit mark clean=0
  local -a due=() files=()
  common=$({ cat .clang-tidy; our_cxx | grep -v '^tests/' | grep '\.h$' | xargs cat; } | sha256sum)
  for folder in $(our_cxx | grep '\.cpp$' | grep -vE '^(web/platform|tests)/' | xargs dirname | sort -u); do
    while read -r -a files; do
      mark=.build/tidy/$( (echo "$common" "${files[@]}"; cat "${files[@]}") | sha256sum | cut -c1-32)
      if [ -f "$mark" ]; then
        clean=$((clean + ${#files[@]}))
        continue
      fi
      unit=.build/tidy/${folder//\//-}-${#due[@]}.cpp
      printf '#include "../../%s"\n' "${files[@]}" >"$unit"
      due+=("$unit $mark")
    done < <(our_cxx | grep '\.cpp$' | grep -E "^$folder/[^/]*$" | xargs -n 7)
  done
  echo "$clean files are as they were when last found clean; ${#due[@]} parcels of others to look at."
  [ ${#due[@]} -gt 0 ] || return 0
  # The flags are those of a screen: it has every library in reach. Paths are followed through our own
  # functions, not into the library's; without that it takes five times as long and found no more.
  local flags option options=()
  flags=$(tidy_flags)
  for option in -Xclang -analyzer-opt-analyze-headers -Xclang -analyzer-config -Xclang \
    max-nodes=40000,c++-container-inlining=false,c++-stdlib-inlining=false; do
    options+=("--extra-arg=$option")
  done
  printf '%s\n' "${due[@]}" | FLAGS=$flags OPTIONS=${options[*]} xargs -P "$jobs" -L 1 bash -c '
    if findings=$(clang-tidy-19 --quiet --checks=-bugprone-suspicious-include \
      $OPTIONS "$0" -- $FLAGS 2>/dev/null); then
      touch "$1"
    else
      echo "$findings"
      exit 1
    fi'
}

# What a screen is compiled with, but for what it is and where it goes.
tidy_flags() {
  /usr/bin/python3 -c '
import json, shlex
for entry in json.load(open(".build/native/compile_commands.json")):
    if entry["file"].endswith("web/screens/screens.cpp"):
        words = shlex.split(entry["command"])
        words = words[next(i for i, w in enumerate(words) if "clang++" in w) + 1:words.index("-o")]
        print(" ".join(words))
        break'
}

run_bench() {
  configure native
  build native
  .build/native/bin/tallyblock_bench
  .build/native/bin/tallyblock_plan_bench
  if [ ! -f .build/site/index.html ] || [ ! -f .build/web/build.ninja ]; then
    bash shell/tools/build_site.sh
  fi
  use_emscripten
  build web tallyblock_plan_bench
  NODE_PATH=$node_modules node tests/bench/browser_bench.mjs
  NODE_PATH=$node_modules node tests/bench/thousand_bench.mjs 200
}
