#!/usr/bin/env bash
# Every crate as it would be published: packed in the order of what each needs,
# and built from its package alone.
#
#   tests/tools/packages.sh
#
# Nothing is sent anywhere.
set -euo pipefail
cd "$(dirname "$0")/../.."

said="$(mktemp)"
trap 'rm -f "$said"' EXIT
# An earlier run may have unpacked crates of the same version, which cargo would build instead.
rm -rf "${CARGO_HOME:-$HOME/.cargo}"/registry/{src,cache}/-*/snell-*
# Packages have no profiles of their own: with the lines of ours, what others wrote need not be compiled anew.
export CARGO_PROFILE_DEV_DEBUG=line-tables-only
# In a working copy there may be changes; in a fresh clone there are none.
cargo package --workspace --exclude snell-tests --locked --allow-dirty 2>&1 | tee "$said"

# Only where the code is kept may be left open for now.
if grep '^warning' "$said" | grep -v 'manifest has no documentation, homepage or repository'; then
  echo "packages: cargo warns of the above" >&2
  exit 1
fi
for crate in crates/*/; do
  name="$(basename "$crate")"
  for file in README.md LICENSE Cargo.toml; do
    cargo package --list --quiet --allow-dirty --package "$name" | grep -qx "$file" || {
      echo "packages: $name has no $file" >&2
      exit 1
    }
  done
done
# What others wrote is in the program, and its licences go with it.
cargo package --list --quiet --allow-dirty --package snell | grep -qx NOTICES || {
  echo "packages: snell has no NOTICES" >&2
  exit 1
}
