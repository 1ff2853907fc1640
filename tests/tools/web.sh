#!/usr/bin/env bash
# Live rigs in pages: builds the package, holds the module against the program on every example, opens the pages in a browser
# without a screen, and tells how large and how quick all of it is.
#
#   tests/tools/web.sh target/release/snell [SHOTS]     with a folder, pictures of the pages are left there
set -euo pipefail

# shellcheck source=tests/tools/needs.sh
. "$(dirname "$0")/needs.sh" "${1:-}" node npm cargo

page="${CARGO_TARGET_DIR:-target}/page"
bash crates/snell-web/page/build.sh "$page"

echo "bytes, and packed by brotli:"
for name in snell_bg.wasm rig-card.js editor.js worker.js snell.js share.html; do
  node -e 'const z = require("zlib"), bytes = require("fs").readFileSync(process.argv[1] + "/" + process.argv[2]);
    console.log(`  ${process.argv[2]}: ${bytes.length}, ${z.brotliCompressSync(bytes).length}`)' "$page" "$name"
done
node tests/tools/web.mjs "$snell" "$page"

if ! chromium="$(command -v chromium || command -v chromium-browser || command -v google-chrome)"; then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    apt-get -q update >/dev/null && DEBIAN_FRONTEND=noninteractive apt-get -q install -y --no-install-recommends chromium >/dev/null || true
  fi
  chromium="$(command -v chromium)" || { echo "there is no Chromium here, in which the pages are opened"; exit 77; }
fi
modules="$tools/web-1"
if [ ! -f "$modules/complete" ]; then
  rm -rf "$modules"
  mkdir -p "$modules"
  npm install --silent --no-audit --no-fund --prefix "$modules" playwright-core@1.65.1 axe-core@4.14.1
  touch "$modules/complete"
fi
CHROMIUM="$chromium" node tests/tools/web-pages.mjs "$modules" "$snell" "$page" ${2:+"$2"}
