#!/usr/bin/env bash
# replay.sh FILE: everything the core derives from a session file, as one JSON object.
# replay.sh FILE... [--portions N --of WEIGHT]: the same of several, or of a backup, with the log of them; all
# options are in tests/replay/replay_main.cpp.
# Builds what is needed first; only the object goes to standard output.
set -u
. "$(dirname "${BASH_SOURCE[0]}")/../shell/tools/env.sh"

fail() {
  echo "$1" >&2
  exit 1
}

files=0
value=no
for word in "$@"; do
  if [ $value = yes ]; then
    value=no
  elif [ "${word#--}" != "$word" ]; then
    value=yes
  else
    files=$((files + 1))
    [ -r "$word" ] && [ ! -d "$word" ] || fail "The file $word cannot be read."
  fi
done
[ $files -gt 0 ] || fail "Name a session file, as in: bash tests/replay.sh FILE."

build=$root/.build/replay
# What the build says is shown only when it fails.
said=$({
  "$root/shell/tools/toolchain.sh" core &&
    { [ -f "$build/build.ninja" ] ||
      cmake -G Ninja -S "$root" -B "$build" --log-level=WARNING -DTALLYBLOCK_SCREENS=OFF; } &&
    ninja -C "$build" tallyblock_replay
} 2>&1) || fail "$said
The program that replays files could not be built."

"$build/bin/tallyblock_replay" "$@"
status=$?
[ $status -lt 128 ] || echo "The program that replays files broke down on $*: please report it with the file." >&2
exit $status
