#!/usr/bin/env bash
# Installs what is missing, builds, and runs the tests.
#
#   bash tests/run.sh                all stages
#   bash tests/run.sh --quick        the stages marked quick: under three minutes once built
#   bash tests/run.sh NAME...        the stages named
#   bash tests/run.sh --list         their names
#
# What a stage says goes to .build/log/NAME.log and is shown when it fails. The last line is
# "N passed, N failed"; the exit status is 0 only when nothing failed.
set -u
. "$(dirname "${BASH_SOURCE[0]}")/../shell/tools/env.sh"
cd "$root" || exit 1

# name | quick or full | command (a function of tests/tools/stages.sh)
stages=(
  "format     | quick | check_format"
  "text       | quick | check_text"
  "schemas    | quick | check_schemas"
  "core-alone | quick | build_core_alone"
  "nocompile  | quick | run_nocompile"
  "native     | quick | run_native"
  "corpus     | quick | run_corpus"
  "site       | quick | build_site"
  "browser    | quick | run_browser"
  "kills      | full  | run_kills"
  "sanitized  | full  | run_sanitized"
  "gcc        | full  | run_gcc"
  "wasm       | full  | run_wasm"
  "replay     | full  | run_replay"
  "milp       | full  | run_milp"
  "tidy       | full  | run_tidy"
  "fuzz       | full  | run_fuzz"
  "bench      | full  | run_bench"
)
. tests/tools/stages.sh

# Sets `passed` and `failed` from what a stage has written: lines "N passed, N failed", GoogleTest's
# and Node's summaries. Entries of ctest which are GoogleTest programs count by their own summary.
count_results() {
  read -r passed failed < <(awk '
    /^[0-9]+ passed, [0-9]+ failed$/ { good += $1; bad += $3 }
    /\[  PASSED  \] [0-9]+ test/ { match($0, /\[  PASSED  \] [0-9]+/); good += substr($0, RSTART + 13, RLENGTH - 13) }
    /\[  FAILED  \] [0-9]+ test/ { match($0, /\[  FAILED  \] [0-9]+/); bad += substr($0, RSTART + 13, RLENGTH - 13) }
    /Test +#[0-9]+: nocompile\..*Passed/ { good++ }
    /Test +#[0-9]+: nocompile\..*Failed/ { bad++ }
    END { print good + 0, bad + 0 }' "$1")
}

run_stage() {
  local name=$1 command=$2 log=$root/.build/log/$1.log start=$EPOCHREALTIME status=0 seconds
  printf '%-11s' "$name"
  # A stage stops at its first failing command.
  (set -e; "$command") >"$log" 2>&1 </dev/null
  status=$?
  count_results "$log"
  if [ $status = 0 ]; then
    [ $((passed + failed)) -gt 0 ] || passed=1
  else
    [ "$failed" -gt 0 ] || failed=1
  fi
  seconds=$(awk -v a="$start" -v b="$EPOCHREALTIME" 'BEGIN { printf "%.1f", b - a }')
  printf '%5d passed  %3d failed  %7s s\n' "$passed" "$failed" "$seconds"
  grep -h '^shaky' "$log"
  total_passed=$((total_passed + passed))
  total_failed=$((total_failed + failed))
  if [ "$failed" -gt 0 ]; then
    echo "--- the end of .build/log/$name.log:"
    tail -n 40 "$log"
    echo "---"
  fi
}

wanted=()
quick=no
for argument in "$@"; do
  case $argument in
    --quick) quick=yes ;;
    --list)
      for stage in "${stages[@]}"; do echo "$stage"; done
      exit 0
      ;;
    --*)
      echo "There is no option $argument. Those known: --quick, --list."
      exit 1
      ;;
    *) wanted+=("$argument") ;;
  esac
done

for name in ${wanted[@]+"${wanted[@]}"}; do
  printf '%s\n' "${stages[@]}" | grep -q "^$name " || {
    echo "There is no stage $name. See them with --list."
    exit 1
  }
done

total_passed=0
total_failed=0
mkdir -p .build/log
if ! shell/tools/toolchain.sh; then
  echo "The tools could not be installed, so no test was run."
  echo "0 passed, 1 failed"
  exit 1
fi
for stage in "${stages[@]}"; do
  IFS='| ' read -r name when command <<<"$stage"
  if [ ${#wanted[@]} -gt 0 ]; then
    [[ " ${wanted[*]} " == *" $name "* ]] || continue
  elif [ $quick = yes ] && [ "$when" != quick ]; then
    continue
  fi
  run_stage "$name" "$command"
done
echo "$total_passed passed, $total_failed failed"
[ $total_failed = 0 ]
