#!/usr/bin/env bash
# The grammar for editors, held against the language itself: what reads in one
# reads in the other, a broken line leaves its neighbours alone, colours fall
# where they should, and `src/parser.c` is what `grammar.js` gives.
#
#   tests/tools/grammar.sh            checks
#   tests/tools/grammar.sh generate   makes src/parser.c anew
#
# What it needs is installed once into a folder outside of the project: $TOOLS,
# or ~/.cache/snell-tools. That takes about two minutes on two cores.
set -euo pipefail
cd "$(dirname "$0")/../.."

tools="${TOOLS:-$HOME/.cache/snell-tools}"
cli=0.27.1
binding=0.26.1
grammar=grammar/tree-sitter-rig
mkdir -p "$tools"
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT

for tool in cargo cc python3; do
  command -v "$tool" >/dev/null || { echo "grammar: $tool is missing" >&2; exit 1; }
done

# Both are put in their places whole, so that a run that was broken off leaves nothing half done.
sitter="$tools/tree-sitter-$cli/bin/tree-sitter"
if [ ! -x "$sitter" ]; then
  # A folder of its own to build in: what the project builds is not touched.
  CARGO_TARGET_DIR="$work/build" cargo install --quiet --locked --debug --root "$work/cli" "tree-sitter-cli@$cli"
  rm -rf "$tools/tree-sitter-$cli"
  mv "$work/cli" "$tools/tree-sitter-$cli"
  rm -rf "$work/build"
fi
venv="$tools/tree-sitter-python-$binding"
if [ ! -f "$venv/complete" ]; then
  rm -rf "$venv"
  python3 -m venv "$venv"
  "$venv/bin/pip" install --quiet --disable-pip-version-check "tree-sitter==$binding"
  touch "$venv/complete"
fi

export NO_COLOR=1 XDG_CONFIG_HOME="$work/config" XDG_CACHE_HOME="$work/cache"
if [ "${1:-}" = generate ]; then
  (cd "$grammar" && "$sitter" generate)
  exit
fi

cp -r "$grammar" "$work/rig"
(cd "$work/rig" && "$sitter" generate && timeout 120 "$sitter" test)
if ! cmp -s "$grammar/src/parser.c" "$work/rig/src/parser.c"; then
  echo "grammar: $grammar/src/parser.c is stale; refresh it with: tests/tools/grammar.sh generate" >&2
  exit 1
fi

cc -shared -fPIC -O1 -I "$grammar/src" -o "$work/rig.so" "$grammar/src/parser.c" "$grammar/src/scanner.c"
cargo run --quiet --package snell-tests --bin judged-lines >"$work/judged.tsv"
timeout 300 "$venv/bin/python" tests/tools/grammar.py "$work/rig.so" "$grammar" "$work/judged.tsv"
