#!/usr/bin/env bash
# Builds the app, installing what is missing, and serves it to this machine's browser.
# The address is printed; the port is 8080 or the next free one.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)
bash "$here/tools/build_site.sh"
exec node "$here/tools/static_server.mjs" "$here/../.build/site" 8080
