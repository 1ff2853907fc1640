#!/usr/bin/env bash
# What pandoc, markdown-it, MyST, docutils and Asciidoctor take for blocks of
# rigs on the pages of tests/data/pages, asked of themselves and held against
# what is recorded there. The program is held against the record by a plain test.
#
#   tests/tools/fences.sh target/release/snell
#   tests/tools/fences.sh target/release/snell --write    records it anew
set -euo pipefail

# shellcheck source=tests/tools/needs.sh
. "$(dirname "$0")/needs.sh" "${1:-}" python3 node npm

venv="$tools/fences-1"
modules="$tools/fences-node-1"
if [ ! -f "$venv/complete" ]; then
  rm -rf "$venv"
  python3 -m venv "$venv"
  "$venv/bin/pip" install --quiet --disable-pip-version-check \
    docutils==0.22.4 myst-parser==5.2.0 pypandoc_binary==1.17
  touch "$venv/complete"
fi
if [ ! -f "$modules/complete" ]; then
  rm -rf "$modules"
  mkdir -p "$modules"
  npm install --silent --no-audit --no-fund --prefix "$modules" markdown-it@15.0.3 @asciidoctor/core@4.1.0
  touch "$modules/complete"
fi
pandoc="$("$venv/bin/python" -c 'import pypandoc; print(pypandoc.get_pandoc_path())')"
"$venv/bin/python" tests/tools/fences.py "$pandoc" "$modules" "${@:2}"
