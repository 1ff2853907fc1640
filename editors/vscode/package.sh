#!/usr/bin/env bash
# Builds the extension:
#
#   editors/vscode/package.sh OUT.vsix                              without the program, which is then looked for on the path
#   editors/vscode/package.sh OUT.vsix PLATFORM PROGRAM NOTICES     for one platform of VS Code's, with the program in it
#
# Needs node 22 or newer with npm. What it installs lies in $TOOLS or ~/.cache/snell-tools, and in node_modules here.
set -euo pipefail
[ $# -eq 1 ] || [ $# -eq 4 ] || { echo "usage: package.sh OUT.vsix [PLATFORM PROGRAM NOTICES]" >&2; exit 2; }
out="$(cd "$(dirname "$1")" && pwd)/$(basename "$1")"
[ $# -eq 1 ] || { program="$(realpath "$3")" notices="$(realpath "$4")"; }
cd "$(dirname "$0")"

tools="${TOOLS:-$HOME/.cache/snell-tools}"
vsce="$tools/vsce-4.1.0"
if [ ! -f "$vsce/complete" ]; then
  rm -rf "$vsce"
  mkdir -p "$vsce"
  npm install --silent --no-audit --no-fund --prefix "$vsce" @vscode/vsce@4.1.0 >/dev/null
  touch "$vsce/complete"
fi

npm ci --silent --no-audit --no-fund || npm ci --no-audit --no-fund
npm run --silent build
# The licence is the project's; a copy of it goes into the package.
cp ../../LICENSE LICENSE
trap 'rm -rf LICENSE NOTICES server' EXIT
words=(--no-dependencies --allow-missing-repository --out "$out")
rm -rf server
if [ $# -eq 4 ]; then
  mkdir server
  suffix=
  [[ $program != *.exe ]] || suffix=.exe
  install -m 755 "$program" "server/snell$suffix"
  install -m 644 "$notices" server/NOTICES
  words+=(--target "$2")
fi
"$vsce/node_modules/.bin/vsce" package "${words[@]}"
