#!/usr/bin/env bash
# replay.sh FILE: everything the core derives from a session file, as one JSON object.
# Builds what is needed first; only the object goes to standard output.
set -u
. "$(dirname "${BASH_SOURCE[0]}")/../shell/tools/env.sh"

fail() {
  echo "$1" >&2
  exit 1
}

[ $# = 1 ] || fail "Name one session file, as in: bash tests/replay.sh FILE."
[ -r "$1" ] && [ ! -d "$1" ] || fail "The file $1 cannot be read."

build=$root/.build/replay
# What the build says is shown only when it fails.
said=$({
  "$root/shell/tools/toolchain.sh" core &&
    { [ -f "$build/build.ninja" ] ||
      cmake -G Ninja -S "$root" -B "$build" --log-level=WARNING -DTALLYBLOCK_SCREENS=OFF; } &&
    ninja -C "$build" tallyblock_replay
} 2>&1) || fail "$said
The program that replays files could not be built."

"$build/bin/tallyblock_replay" "$1"
status=$?
[ $status -lt 128 ] || echo "The program that replays files broke down on $1: please report it with the file." >&2
exit $status
