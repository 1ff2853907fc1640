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

node tests/tools/web-bytes.mjs "$page"
node tests/tools/web.mjs "$snell" "$page"

# program PACKAGE NAME…: the program of one of these names, installed where it is not there and may be
program() {
  local package="$1"
  shift
  if ! command -v "$@" >/dev/null && [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    apt-get -q update >/dev/null 2>&1 && DEBIAN_FRONTEND=noninteractive apt-get -q install -y --no-install-recommends "$package" >/dev/null 2>&1 || true
  fi
  command -v "$@" | head -n 1
}
# Later versions of playwright-core ask Firefox ESR for what it does not know yet.
modules="$tools/web-2"
if [ ! -f "$modules/complete" ]; then
  rm -rf "$modules"
  mkdir -p "$modules"
  npm install --silent --no-audit --no-fund --prefix "$modules" playwright-core@1.60.0 axe-core@4.14.1
  touch "$modules/complete"
fi
pandoc="$(program pandoc pandoc)"
[ -n "$pandoc" ] || { echo "there is no pandoc here, of which a page is made"; exit 77; }
chromium="$(program chromium chromium chromium-browser google-chrome)"
[ -n "$chromium" ] || { echo "there is no Chromium here, in which the pages are opened"; exit 77; }
node tests/tools/web-pages.mjs "$modules" "$snell" "$page" "$pandoc" chromium "$chromium" ${2:+"$2"}
node tests/tools/web-speed.mjs "$modules" "$page" chromium "$chromium"
firefox="$(program firefox-esr firefox-esr firefox)"
[ -n "$firefox" ] || { echo "there is no Firefox here, in which the pages are opened too"; exit 77; }
echo "-- firefox"
node tests/tools/web-pages.mjs "$modules" "$snell" "$page" "$pandoc" firefox "$firefox" ${2:+"$2/firefox"}
