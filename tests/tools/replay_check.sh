#!/usr/bin/env bash
# Tests of tests/replay.sh as a person or another program calls it.
set -u
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1
work=.build/replay-check
mkdir -p "$work"
passed=0
failed=0

check() { # WHAT CONDITION...
  local what=$1
  shift
  if "$@"; then
    passed=$((passed + 1))
  else
    failed=$((failed + 1))
    echo "FAILED: $what"
  fi
}

one_object() { /usr/bin/python3 -c 'import json, sys; sys.exit(not isinstance(json.load(open(sys.argv[1])), dict))' "$1"; }
# A sentence: a capital letter to begin with, a full stop or a question mark to end with.
sentence() { grep -qE '^[A-Z].*[.?)]$' "$1"; }
# One readable line, never a dump.
few_lines() { [ "$(wc -l <"$1")" -le 3 ]; }

replay() { bash tests/replay.sh "$@" >"$work/out" 2>"$work/err"; }

refused() { # WHAT ARGUMENT...
  local what=$1
  shift
  replay "$@"
  check "$what ends with a failure" [ $? != 0 ]
  check "$what prints nothing that could be taken for a report" [ ! -s "$work/out" ]
  check "$what gives a sentence" sentence "$work/err"
  check "$what gives no more than that" few_lines "$work/err"
}

bash tests/replay.sh tests/golden/every-kind.json >/dev/null 2>&1 # builds, if it must
for file in tests/golden/*.json $(find demo-data -name '*.json' | sort); do
  replay "$file"
  check "$file ends well" [ $? = 0 ]
  check "$file gives one JSON object" one_object "$work/out"
  check "$file gives no complaint" [ ! -s "$work/err" ]
  cp "$work/out" "$work/first"
  replay "$file"
  check "$file gives the same twice" cmp -s "$work/first" "$work/out"
done

head -c 300 tests/golden/every-kind.json >"$work/cut.json"
printf '\xff\xfe\x00not a session' >"$work/bytes.json"
: >"$work/empty.json"
refused "no file named"
refused "a file that does not exist" "$work/none.json"
refused "a folder" "$work"
refused "a file cut off" "$work/cut.json"
refused "bytes of something else" "$work/bytes.json"
refused "an empty file" "$work/empty.json"

echo "$passed passed, $failed failed"
[ $failed = 0 ]
