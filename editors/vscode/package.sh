#!/usr/bin/env bash
# Builds the extension:
#
#   editors/vscode/package.sh OUT.vsix                              without the program, which is then looked for on the path
#   editors/vscode/package.sh OUT.vsix PLATFORM PROGRAM NOTICES     for one platform of VS Code's, with the program in it
#   editors/vscode/package.sh OUT.vsix web PAGE NOTICES             for VS Code in a browser, with the module of pages in it;
#                                                                   crates/snell-web/page/build.sh PAGE builds that
#
# Needs node 22 or newer with npm. What it installs lies in $TOOLS or ~/.cache/snell-tools, and in node_modules here.
set -euo pipefail
[ $# -eq 1 ] || [ $# -eq 4 ] || { echo "usage: package.sh OUT.vsix [PLATFORM PROGRAM NOTICES | web PAGE NOTICES]" >&2; exit 2; }
out="$(cd "$(dirname "$1")" && pwd)/$(basename "$1")"
[ $# -eq 1 ] || { inside="$(realpath "$3")" notices="$(realpath "$4")"; }
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
stage="$(mktemp -d)"
trap 'rm -rf "$stage" NOTICES' EXIT
rm -rf dist
npm run --silent build:preview
kind=program
words=(--no-dependencies --allow-missing-repository --out "$out")
[ $# -eq 1 ] || words+=(--target "$2")
if [ "${2:-}" = web ]; then
  kind=web
  npm run --silent build:web -- "$inside"
  install -m 644 "$notices" NOTICES
else
  npm run --silent build
fi
# The licence is the project's; a copy of it goes into the package.
cp -r dist .vscodeignore README.md CHANGELOG.md ../../LICENSE NOTICES icon.png language-configuration.json syntaxes snippets \
  walkthrough "$stage"
node manifest.cjs "$kind" <package.json >"$stage/package.json"
if [ $# -eq 4 ] && [ "$kind" = program ]; then
  mkdir "$stage/server"
  suffix=
  [[ $inside != *.exe ]] || suffix=.exe
  install -m 755 "$inside" "$stage/server/snell$suffix"
  install -m 644 "$notices" "$stage/server/NOTICES"
fi
cd "$stage"
"$vsce/node_modules/.bin/vsce" package "${words[@]}"
