#!/usr/bin/env bash
# VS Code in a browser: the extension is packaged as for people, with the
# program in it, put into code-server, and driven by Chromium. No other `snell`
# is on the path. Called by ../run.sh.
#
#   vscode/run.sh SNELL CHROMIUM WATER OUT
#
# WATER is a folder that may be changed; OUT takes the package, the pictures and
# what the editor said. $PICTURES, where it is set, gets a copy of the pictures.
set -euo pipefail
[ $# -eq 4 ] || { echo "usage: run.sh SNELL CHROMIUM WATER OUT" >&2; exit 2; }
snell="$1" chromium="$2" water="$3" out="$4"
cd "$(dirname "$0")"
extension=../../../editors/vscode
tools="${TOOLS:-$HOME/.cache/snell-tools}"
export PATH="$tools/node-24/node_modules/.bin:$PATH" TOOLS="$tools"
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
quietly package timeout 240 "$extension/package.sh" "$out/bare.vsix"
./package.py "$out/bare.vsix" "$extension"
case "$(uname -m)" in aarch64 | arm64) platform=linux-arm64 ;; *) platform=linux-x64 ;; esac
quietly package timeout 240 "$extension/package.sh" "$out/rigs.vsix" "$platform" "$snell" ../../../crates/snell/NOTICES
./package.py "$out/rigs.vsix" "$extension" "$snell"
./snippets.py "$snell" "$extension"

server="$tools/code-server-4.139.1/node_modules/.bin/code-server"
places=(--user-data-dir "$out/user" --extensions-dir "$out/extensions")
mkdir -p "$out/user/User"
# What is done is seen in the files, so they are saved at once.
cat >"$out/user/User/settings.json" <<'JSON'
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
PATH="$(tr : '\n' <<<"$PATH" | while read -r folder; do [ -x "$folder/snell" ] || echo "$folder"; done | paste -sd :)"
! command -v snell || { echo "vscode: another snell is on the path" >&2; exit 1; }
quietly install timeout 180 "$server" "${places[@]}" --install-extension "$out/rigs.vsix" --force

# A port that is free now; a group of its own, so that all of the server can be ended.
port="$(node -e 'const s = require("net").createServer().listen(0, "127.0.0.1", () => { console.log(s.address().port); s.close(); })')"
setsid "$server" --auth none --bind-addr "127.0.0.1:$port" "${places[@]}" --disable-telemetry --disable-update-check \
  --disable-workspace-trust --disable-getting-started-override "$water" >"$out/server.log" 2>&1 &
started=$!
trap 'kill -- "-$started" 2>/dev/null || true' EXIT
for turn in $(seq 240); do
  node -e "fetch('http://127.0.0.1:$port/healthz').then(r => process.exit(r.ok ? 0 : 1), () => process.exit(1))" && break
  [ "$turn" != 240 ] || { cat "$out/server.log" >&2; echo "vscode: the server did not come up" >&2; exit 1; }
  sleep 0.5
done

status=0
NODE_PATH="$tools/playwright-1.65.1/node_modules" timeout -k 5 400 node story.cjs "$chromium" "$port" "$water" "$out" || status=$?
[ "$status" != 124 ] || echo "vscode: ended after 400 s" >&2
if [ -n "${PICTURES:-}" ]; then
  mkdir -p "$PICTURES"
  find "$out" -maxdepth 1 -name "*.png" -exec cp {} "$PICTURES" \;
fi
exit "$status"
