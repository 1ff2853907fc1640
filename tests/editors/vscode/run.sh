#!/usr/bin/env bash
# VS Code in a browser: the extension is packaged as for people, put into
# code-server, and driven by Chromium: with the program in it, or where `web` is
# asked for with the module of pages, which the browser itself runs. On a busy
# machine that takes too long for every run, so it is asked for by hand. No other `snell` is on the path. Called by ../run.sh.
#
#   vscode/run.sh SNELL CHROMIUM WATER OUT [program|web]…
#
# WATER is a folder whose copies are changed; OUT takes the packages, the pictures
# and what the editor said. $PICTURES, where it is set, gets a copy of the pictures.
set -euo pipefail
[ $# -ge 4 ] || { echo "usage: run.sh SNELL CHROMIUM WATER OUT [program|web]…" >&2; exit 2; }
snell="$1" chromium="$2" water="$3" out="$4"
shift 4
[ $# -gt 0 ] || set -- program
cd "$(dirname "$0")"
top="$(cd ../../.. && pwd)"
extension=$top/editors/vscode
tools="${TOOLS:-$HOME/.cache/snell-tools}"
export PATH="$tools/node-24/node_modules/.bin:$PATH" TOOLS="$tools"
notices="$top/crates/snell/NOTICES"
mkdir -p "$out"

# What is put into a log is shown where it failed.
quietly() {
  local log="$out/$1.log"
  shift
  "$@" >"$log" 2>&1 || {
    tail -n 40 "$log" >&2
    echo "vscode: failed: $*" >&2
    exit 1
  }
}

(cd "$extension" && timeout 60 "$tools/tmgrammar-0.1.3/node_modules/.bin/vscode-tmgrammar-test" \
  -g syntaxes/rig.tmLanguage.json 'test/*.rig')
node --test "$extension/test/program.test.js" >"$out/program.log" 2>&1 || { cat "$out/program.log" >&2; exit 1; }
case "$(uname -m)" in aarch64 | arm64) platform=linux-arm64 ;; *) platform=linux-x64 ;; esac

package_program() {
  quietly package timeout 240 "$extension/package.sh" "$out/bare.vsix"
  ./package.py "$out/bare.vsix" "$extension"
  quietly package timeout 240 "$extension/package.sh" "$out/program.vsix" "$platform" "$snell" "$notices"
  ./package.py "$out/program.vsix" "$extension" "$snell"
  ./snippets.py "$snell" "$extension"
}

package_web() {
  local page="${CARGO_TARGET_DIR:-$top/target}/page"
  local module="$page/bank/snell_bg.wasm"
  # The checks of pages built it, unless they were not run since.
  if [ ! -f "$module" ] || find "$top/crates" -newer "$module" -type f \( -name '*.rs' -o -name '*.js' \) | grep -q .; then
    quietly page "$top/crates/snell-web/page/build.sh" "$page"
  fi
  quietly package timeout 240 "$extension/package.sh" "$out/web.vsix" web "$page" "$notices"
  ./package.py "$out/web.vsix" "$extension"
}

server="$tools/code-server-4.139.1/node_modules/.bin/code-server"
PATH="$(tr : '\n' <<<"$PATH" | while read -r folder; do [ -x "$folder/snell" ] || echo "$folder"; done | paste -sd :)"
! command -v snell || { echo "vscode: another snell is on the path" >&2; exit 1; }

# settings USER: what is done is seen in the files, so they are saved at once.
settings() {
  mkdir -p "$1/User"
  cat >"$1/User/settings.json" <<'JSON'
{
  "files.autoSave": "afterDelay",
  "files.autoSaveDelay": 100,
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "security.workspace.trust.enabled": false,
  "workbench.startupEditor": "none",
  "workbench.enableExperiments": false,
  "telemetry.telemetryLevel": "off",
  "update.mode": "none",
  "extensions.autoUpdate": false,
  "extensions.autoCheckUpdates": false,
  "chat.disableAIFeatures": true,
  "git.enabled": false,
  "[markdown]": { "editor.semanticHighlighting.enabled": false, "editor.defaultFormatter": "snell.snell-rig" }
}
JSON
}

trap '[ -z "${started:-}" ] || kill -- "-$started" 2>/dev/null || true' EXIT

# evening KIND: the package of that kind in an editor of its own, on a copy of the water.
evening() {
  local kind="$1" folder="$out/$1" port status=0
  local places=(--user-data-dir "$folder/user" --extensions-dir "$folder/extensions")
  mkdir -p "$folder"
  cp -r "$water" "$folder/water"
  settings "$folder/user"
  quietly install timeout 180 "$server" "${places[@]}" --install-extension "$out/$kind.vsix" --force
  # A port that is free now; a group of its own, so that all of the server can be ended.
  port="$(node -e 'const s = require("net").createServer().listen(0, "127.0.0.1", () => { console.log(s.address().port); s.close(); })')"
  setsid "$server" --auth none --bind-addr "127.0.0.1:$port" "${places[@]}" --disable-telemetry --disable-update-check \
    --disable-workspace-trust --disable-getting-started-override "$folder/water" >"$folder/server.log" 2>&1 &
  started=$!
  for turn in $(seq 240); do
    node -e "fetch('http://127.0.0.1:$port/healthz').then(r => process.exit(r.ok ? 0 : 1), () => process.exit(1))" && break
    [ "$turn" != 240 ] || { cat "$folder/server.log" >&2; echo "vscode: the server did not come up" >&2; exit 1; }
    sleep 0.5
  done
  NODE_PATH="$tools/playwright-1.65.1/node_modules" timeout -k 5 400 node story.cjs "$chromium" "$port" "$folder/water" "$folder" || status=$?
  [ "$status" != 124 ] || echo "vscode: ended after 400 s" >&2
  kill -- "-$started" 2>/dev/null || true
  started=
  if [ -n "${PICTURES:-}" ]; then
    mkdir -p "$PICTURES/$kind"
    find "$folder" -maxdepth 1 -name "*.png" -exec cp {} "$PICTURES/$kind" \;
  fi
  return "$status"
}

for kind in "$@"; do
  case "$kind" in program | web) ;; *) echo "vscode: no package of the kind $kind" >&2; exit 2 ;; esac
  echo "-- with the $kind"
  "package_$kind"
  evening "$kind"
done
