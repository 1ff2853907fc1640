#!/usr/bin/env bash
# What others wrote, held against deny.toml by `cargo deny`.
#
#   tests/tools/deny.sh licenses bans sources
#   tests/tools/deny.sh advisories                  ends with 77 where the database cannot be fetched
#
# The tool is installed once, outside of the project, where it is not there.
set -euo pipefail
[ $# -gt 0 ] || { echo "usage: deny.sh CHECK…" >&2; exit 2; }
cd "$(dirname "$0")/../.."
tools="${TOOLS:-$HOME/.cache/snell-tools}/cargo-deny-0.20.2"
export PATH="$tools/bin:$PATH"
# Unoptimized it is built in a third of the time, and runs for a second.
command -v cargo-deny >/dev/null || cargo install cargo-deny --version 0.20.2 --locked --debug --root "$tools"

if [ "$1" = advisories ] && ! cargo deny fetch db; then
  echo "the database of advisories is not to be had here"
  exit 77
fi
cargo deny --locked check "$@"
