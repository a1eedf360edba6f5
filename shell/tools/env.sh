# Sourced by the scripts: where the tools are. Changes nothing on the machine.
#
#   root              the top of the tree
#   TALLYBLOCK_CACHE  tools which are not part of the system, outside the tree
#   IMGUI_DIR         Dear ImGui's sources; set it before to use a folder of your own
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
export TALLYBLOCK_CACHE=${TALLYBLOCK_CACHE:-${HOME:?}/.cache/tallyblock}
export IMGUI_DIR=${IMGUI_DIR:-$TALLYBLOCK_CACHE/imgui}

node_modules=$TALLYBLOCK_CACHE/npm/node_modules
export EM_CLOSURE_COMPILER=$node_modules/.bin/google-closure-compiler

# The same source built in another folder is the same to ccache.
export CCACHE_NOHASHDIR=1

emscripten_version=3.1.69
emscripten_prefix=$TALLYBLOCK_CACHE/emscripten

# The folder with Emscripten's own files; empty if it is not installed.
emscripten_root() {
  local folder
  for folder in "$emscripten_prefix/usr/share/emscripten" /usr/share/emscripten; do
    if [ -f "$folder/emcc.py" ] && grep -qs "$emscripten_version" "$folder/emscripten-version.txt"; then
      echo "$folder"
      return
    fi
  done
}

# The path of a tool of Binaryen, e.g. wasm-split.
binaryen() {
  if [ -x "$emscripten_prefix/binaryen/bin/$1" ]; then
    echo "$emscripten_prefix/binaryen/bin/$1"
  else
    command -v "$1"
  fi
}

use_emscripten() {
  EMSCRIPTEN=$(emscripten_root)
  export EMSCRIPTEN
  if [ -f "$emscripten_prefix/config.py" ]; then
    export EM_CONFIG=$emscripten_prefix/config.py
  fi
  if command -v ccache >/dev/null; then
    EM_COMPILER_WRAPPER=$(command -v ccache)
    export EM_COMPILER_WRAPPER
  fi
}
