#!/usr/bin/env bash
# Builds the static site into .build/site, installing what is missing.
set -euo pipefail
. "$(dirname "${BASH_SOURCE[0]}")/env.sh"
"$root/shell/tools/toolchain.sh" core screens web
use_emscripten

build=$root/.build/web
parts=$root/.build/site-parts
if [ ! -f "$build/build.ninja" ]; then
  # -Oz was measured: no slower than -O2 here, and a quarter smaller.
  cmake -G Ninja -S "$root" -B "$build" --log-level=WARNING -DCMAKE_BUILD_TYPE=MinSizeRel \
    "-DCMAKE_CXX_FLAGS_MINSIZEREL=-Oz -flto -DNDEBUG -mnontrapping-fptoint -mbulk-memory -msign-ext -fno-threadsafe-statics" -DTALLYBLOCK_TESTS=OFF \
    "-DCMAKE_TOOLCHAIN_FILE=$EMSCRIPTEN/cmake/Modules/Platform/Emscripten.cmake"
fi
ninja -C "$build" --quiet

mkdir -p "$parts"
if [ ! -f "$parts/font.ttf" ] || [ "$root/shell/tools/font.py" -nt "$parts/font.ttf" ]; then
  /usr/bin/python3 "$root/shell/tools/font.py" "$parts/font.ttf"
fi
/usr/bin/python3 "$root/shell/tools/notices.py" "$parts/notices.txt" "$IMGUI_DIR" "$EMSCRIPTEN"

list=$root/web/platform/parts.txt
rm -f "$parts"/*.wasm "$parts"/words-*.bin
node "$root/shell/tools/parts.mjs" "$build/bin/tallyblock.wasm" "$list" "$parts" \
  "$(binaryen wasm-dis)" "$(binaryen wasm-opt)"
number=0
node "$build/bin/words_files.js" first $number > "$parts/words-en.bin"
for name in $(sed -n 's/^== \([a-z]*\) .*/\1/p' "$list"); do
  number=$((number + 1))
  node "$build/bin/words_files.js" "$name" $number > "$parts/words-en-$name.bin"
done
cp "$build/bin/tallyblock.mjs" "$parts/tallyblock.js" # many servers do not know .mjs
NODE_PATH=$node_modules node "$root/shell/tools/site.mjs" "$root/.build/site" "$list" "$root/shell" \
  "$parts/tallyblock.js" "$parts"/*.wasm "$parts/font.ttf" "$parts"/words-*.bin "$parts/notices.txt"
