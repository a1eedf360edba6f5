#!/usr/bin/env bash
# check.sh FILE COMPILER FLAGS...
# The file must be refused by the compiler, with a message that matches its "// expect: <regex>"
# line, and must be accepted with -DCONTROL, so that no mere mistake in it can make it pass.
set -u
file=$1
shift
expected=$(sed -n 's|^// expect: *||p' "$file" | head -n 1)
if [ -z "$expected" ]; then
  echo "$file has no line \"// expect: <regex>\" that says which message the compiler must give."
  exit 1
fi
if ! messages=$("$@" -DCONTROL -fsyntax-only "$file" 2>&1); then
  echo "$file must compile with -DCONTROL, but does not:"
  echo "$messages"
  exit 1
fi
if messages=$("$@" -fsyntax-only "$file" 2>&1); then
  echo "$file must be refused by the compiler, but is accepted."
  exit 1
fi
if ! grep -qE -- "$expected" <<<"$messages"; then
  echo "$file is refused, but no message matches: $expected"
  echo "$messages"
  exit 1
fi
