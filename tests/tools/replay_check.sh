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

# Several files, or a backup, are a log as well.
has() { /usr/bin/python3 -c 'import json, sys; sys.exit(sys.argv[2] not in json.load(open(sys.argv[1])))' "$work/out" "$1"; }
has_not() { ! has "$1"; }
demos=(demo-data/pork-loin.json demo-data/salmon-side.json)
replay "${demos[0]}"
check "one session has no log" has_not log
replay "${demos[@]}" --portions 40 --of "150 g"
check "two sessions have a log" has log
check "and their reports" has sessions
cp "$work/out" "$work/first"
replay --portions 40 --of "150 g" "${demos[1]}" "${demos[0]}" "${demos[1]}"
check "a file named twice changes nothing, nor does their order" cmp -s "$work/first" "$work/out"
refused "an option of no known name" "${demos[@]}" --portions 40 --of "150 g" --colour red
refused "an option without its value" "${demos[@]}" --portions
refused "an order of portions of no weight" "${demos[@]}" --portions 40
refused "an order that can never be sure" "${demos[@]}" --portions 40 --of "150 g" --confidence 1
refused "an order from one session" "${demos[0]}" --portions 40 --of "150 g"
refused "a damaged file among good ones" "${demos[@]}" "$work/cut.json"
head -c 3000 <(printf '{"format":"tallyblock-backup","major":1,"minor":0,"sessions":2}\n'; cat "${demos[@]}") >"$work/cut.jsonl"
refused "a backup cut off" "$work/cut.jsonl"

check "the log is what it is in a second implementation" \
  /usr/bin/python3 tests/replay/log_check.py .build/replay/bin/tallyblock_replay

echo "$passed passed, $failed failed"
[ $failed = 0 ]
