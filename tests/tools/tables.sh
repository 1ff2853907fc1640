#!/usr/bin/env bash
# The tables that the water's numbers are held against, worked out anew by the
# libraries that they name and compared.
#
#   tests/tools/tables.sh          # compares
#   tests/tools/tables.sh write    # makes them again, for a new version of a library
#
# What it needs is installed once into a folder outside of the project: $TOOLS,
# or ~/.cache/snell-tools. Without python3 it is passed over, but not where CI is
# true.
set -euo pipefail

deed="${1:-check}"
cd "$(dirname "$0")/../.."

if ! command -v python3 >/dev/null; then
  echo "skipped: no python3"
  [ "${CI:-}" = true ] && exit 1
  exit 0
fi

python=(chemicals==1.5.2 fluids==1.3.1 moorpy==1.3.0 scipy==1.17.1 aerosandbox==4.2.10)
venv="${TOOLS:-$HOME/.cache/snell-tools}/tables-1.5.2-1.3.1-1.3.0-1.17.1-4.2.10"
if [ ! -f "$venv/complete" ]; then
  rm -rf "$venv"
  mkdir -p "$(dirname "$venv")"
  python3 -m venv "$venv"
  "$venv/bin/pip" install --quiet --disable-pip-version-check "${python[@]}"
  touch "$venv/complete"
fi
exec "$venv/bin/python" crates/snell-water/tests/data/outside/tables.py "$deed"
