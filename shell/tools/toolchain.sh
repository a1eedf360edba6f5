#!/usr/bin/env bash
# Installs what building and testing Tallyblock needs, on Debian 12 or Debian 13.
#
#   shell/tools/toolchain.sh [core] [screens] [web] [checks]      (nothing named: all of them)
#
#   core     C++ compiler, CMake, Ninja, nlohmann-json, GoogleTest
#   screens  Dear ImGui's sources
#   web      Emscripten, Node, Closure compiler, font: all that makes the site
#   checks   formatter, linter, schema checker, benchmark library, MILP solver, browser and its driver
#
# System packages come through the machine's own apt configuration, the rest goes to
# ${TALLYBLOCK_CACHE:-$HOME/.cache/tallyblock}. Nothing is written into the tree. When all is there
# it says nothing and takes a fraction of a second.
set -euo pipefail
. "$(dirname "${BASH_SOURCE[0]}")/env.sh"

imgui_version=1.92.2b+ds
imgui_sha256=e7bd201d56b5ee90d24d5dac85e5c12f98bdb95410252a62d27b7f89e4566d48
log=$TALLYBLOCK_CACHE/install.log

say() { echo "$*" >&2; }

fail() {
  say "$*"
  if [ -s "$log" ]; then
    say "The last lines of $log:"
    tail -n 5 "$log" >&2
  fi
  exit 1
}

# ---- system packages --------------------------------------------------------------------------

as_root() {
  if [ "$(id -u)" = 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    fail "System packages are missing and only root can install them: run once as root, or install sudo."
  fi
}

missing_packages() {
  local installed
  installed=$(dpkg-query -W -f '${db:Status-Status} ${Package}\n' "$@" 2>/dev/null |
    sed -n 's/^installed //p')
  printf '%s\n' "$@" | grep -vxF -e "${installed:-none}"
}

install_packages() {
  local missing
  missing=$(missing_packages "$@" | tr '\n' ' ') || true
  [ -n "$missing" ] || return 0
  say "Installing system packages: $missing"
  as_root apt-get update -qq >>"$log" 2>&1 ||
    fail "The list of system packages could not be fetched. Is the machine connected?"
  # shellcheck disable=SC2086
  as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing \
    >>"$log" 2>&1 || fail "These system packages could not be installed: $missing"
}

# ---- packages of another Debian release, kept apart from the system ----------------------------

# apt_apart FOLDER TYPE SUITE...: afterwards "${apart[@]}" makes apt use only these suites, with
# lists and cache of its own in FOLDER.
apt_apart() {
  local folder=$1 type=$2 mirror suite
  shift 2
  mkdir -p "$folder/lists/partial" "$folder/cache/archives/partial"
  mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Label: Debian' |
    head -n 1)
  if [ -z "$mirror" ]; then # the machine has never fetched its lists
    as_root apt-get update -qq >>"$log" 2>&1 || fail "The list of system packages could not be fetched."
    mirror=$(apt-get indextargets --format '$(REPO_URI)' 'Created-By: Packages' 'Label: Debian' |
      head -n 1)
  fi
  [ -n "$mirror" ] || fail "apt is not set up with a Debian mirror, so Debian's other releases cannot be reached."
  for suite in "$@"; do
    printf 'Types: %s\nURIs: %s\nSuites: %s\nComponents: main\nSigned-By: %s\n\n' \
      "$type" "$mirror" "$suite" "$(ls /usr/share/keyrings/debian-archive-keyring.* | head -n 1)"
  done >"$folder/apart.sources"
  apart=(-o "Dir::Etc::sourcelist=$folder/apart.sources" -o Dir::Etc::sourceparts=/dev/null
    -o Dir::Etc::preferences=/dev/null -o Dir::Etc::preferencesparts=/dev/null
    -o "Dir::State::lists=$folder/lists" -o "Dir::Cache=$folder/cache"
    -o "APT::Sandbox::User=$(id -un)"
    # Mirrors frozen at a day have lists past their date. What matters is fixed by its version.
    -o Acquire::Check-Valid-Until=false)
  apt-get "${apart[@]}" update -qq >>"$log" 2>&1 ||
    fail "The package lists of Debian $* could not be fetched."
}

# ---- Dear ImGui -------------------------------------------------------------------------------

# The pinned version, or else the lowest later one of the same series, of those offered.
choose_imgui() {
  apt-cache "${apart[@]}" showsrc imgui 2>>"$log" | sed -n 's/^Version: //p' | sort -uV |
    awk -v pinned="$imgui_version" '
      index($0, pinned "-") == 1 { print; found = 1; exit }
      /^1\.92\./ { if (!later) later = $0 }
      END { if (!found && later) print later }'
}

install_imgui() {
  [ -f "$IMGUI_DIR/imgui.h" ] && return 0
  [ "$IMGUI_DIR" = "$TALLYBLOCK_CACHE/imgui" ] ||
    fail "IMGUI_DIR names $IMGUI_DIR, but there is no imgui.h in it."
  say "Fetching Dear ImGui's sources."
  install_packages xz-utils
  local work=$TALLYBLOCK_CACHE/imgui.part version archive
  rm -rf "$work"
  mkdir -p "$work/sources"
  apt_apart "$work" deb-src testing unstable
  version=$(choose_imgui)
  [ -n "$version" ] ||
    fail "Debian offers no Dear ImGui 1.92 any more. Get its sources and set IMGUI_DIR to their folder."
  (cd "$work" && apt-get "${apart[@]}" source --download-only "imgui=$version" >>"$log" 2>&1) ||
    fail "Dear ImGui $version could not be fetched."
  archive=$(ls "$work"/imgui_*.orig.tar.*z | head -n 1)
  if [[ $version == "$imgui_version"-* ]]; then
    echo "$imgui_sha256  $archive" | sha256sum --check --status ||
      fail "Dear ImGui's archive is not the one expected (its SHA-256 differs). Nothing was installed."
  else
    say "Warning: Debian no longer has Dear ImGui $imgui_version; using the later $version, which nobody tried here."
  fi
  tar -xf "$archive" -C "$work/sources" --strip-components=1
  rm -rf "$TALLYBLOCK_CACHE/imgui"
  mv "$work/sources" "$TALLYBLOCK_CACHE/imgui"
  rm -rf "$work"
}

# ---- Emscripten -------------------------------------------------------------------------------

# unpack_package ARCHIVE FOLDER: without what a plain release needs not (threads, debugging, ...).
unpack_package() {
  dpkg-deb --fsys-tarfile "$1" | tar -x -C "$2" \
    --exclude='./usr/share/doc/*/html' --exclude='./usr/share/emscripten/test' \
    --exclude='./usr/share/emscripten/docs' --exclude='*-debug*.a' --exclude='*-mt*.a' \
    --exclude='*-ww*.a' --exclude='*/wasm32-emscripten/pic' --exclude='*/lto-pic'
}

# Debian 12 has a too old Emscripten. The package of Debian 13 works there beside Debian 12's own
# clang-19, with the C library its optimiser needs kept in the same folder.
install_emscripten_apart() {
  local final=$emscripten_prefix work=$emscripten_prefix.part package tool loader
  say "Unpacking Emscripten $emscripten_version into $final."
  install_packages clang-19 lld-19 llvm-19 node-acorn python3
  rm -rf "$work"
  mkdir -p "$work/apt/debs" "$work/runtime"
  apt_apart "$work/apt" deb trixie
  (cd "$work/apt/debs" && apt-get "${apart[@]}" download emscripten binaryen libc6 libstdc++6 \
    libgcc-s1 >>"$log" 2>&1) || fail "Emscripten could not be fetched from Debian 13."
  unpack_package "$work"/apt/debs/emscripten_*.deb "$work"
  unpack_package "$work"/apt/debs/binaryen_*.deb "$work"
  for package in libc6 libstdc++6 libgcc-s1; do
    unpack_package "$work"/apt/debs/${package}_*.deb "$work/runtime"
  done
  loader=$(cd "$work" && ls runtime/usr/lib/*/ld-linux-*.so.* | head -n 1)
  mkdir -p "$work/binaryen/bin"
  for tool in "$work"/usr/bin/wasm*; do
    tool=$(basename "$tool")
    printf '#!/bin/sh\nexec "%s" --library-path "%s:%s" "%s" "$@"\n' \
      "$final/$loader" "$final/$(dirname "$loader")" "$final/usr/lib/$(basename "$(dirname "$loader")")" \
      "$final/usr/bin/$tool" >"$work/binaryen/bin/$tool"
    chmod +x "$work/binaryen/bin/$tool"
  done
  mkdir -p "$work/usr/share/emscripten/node_modules"
  ln -sfn /usr/share/nodejs/acorn "$work/usr/share/emscripten/node_modules/acorn"
  cat >"$work/config.py" <<CONFIG
LLVM_ROOT = '/usr/bin'
LLVM_ADD_VERSION = '19'
CLANG_ADD_VERSION = '19'
BINARYEN_ROOT = '$final/binaryen'
NODE_JS = '$(command -v node)'
FROZEN_CACHE = True
CONFIG
  rm -rf "$work/apt" "$final"
  mv "$work" "$final"
}

install_emscripten() {
  [ -z "$(emscripten_root)" ] || return 0
  if [ "$(apt-cache madison emscripten 2>/dev/null | grep -c "$emscripten_version")" != 0 ]; then
    install_packages emscripten
  else
    install_emscripten_apart
  fi
  [ -n "$(emscripten_root)" ] || fail "Emscripten $emscripten_version could not be installed."
}

# ---- Node and its packages --------------------------------------------------------------------

install_node() {
  if ! command -v node >/dev/null || ! command -v npm >/dev/null; then
    install_packages nodejs npm
  fi
  local wanted=$root/shell/tools/package-lock.json folder=$TALLYBLOCK_CACHE/npm
  cmp -s "$wanted" "$folder/installed.json" && return 0
  say "Installing the Node packages named in shell/tools/package.json."
  mkdir -p "$folder"
  cp "$root"/shell/tools/package.json "$wanted" "$folder/"
  (cd "$folder" && npm ci --no-fund --no-audit --no-update-notifier >>"$log" 2>&1) ||
    fail "The Node packages could not be installed."
  cp "$wanted" "$folder/installed.json"
}

# ---- what was asked for -----------------------------------------------------------------------

install_part() {
  case $1 in
    core) install_packages clang-19 libclang-rt-19-dev llvm-19 cmake ninja-build ccache \
      nlohmann-json3-dev googletest ;;
    screens) install_imgui ;;
    web)
      install_packages python3 fonts-inter python3-fonttools
      install_node
      install_emscripten
      ;;
    checks)
      install_packages clang-format-19 clang-tidy-19 python3 python3-jsonschema libbenchmark-dev coinor-cbc chromium
      install_node
      ;;
    *) fail "There is no part named $1. The parts are: core, screens, web, checks." ;;
  esac
}

grep -qsE '^VERSION_ID="?1[23]"?$' /etc/os-release && grep -qs '^ID=debian' /etc/os-release ||
  fail "This is set up for Debian 12 and Debian 13. On other systems, see DEVELOPERS.md for what is needed."
mkdir -p "$TALLYBLOCK_CACHE"
exec 9>"$TALLYBLOCK_CACHE/lock"
flock 9
: >"$log"
[ $# -gt 0 ] || set -- core screens web checks
for part in "$@"; do
  install_part "$part"
done
