#!/usr/bin/env bash
# Builds the package for pages: the module, the element, its editor and workers,
# types, a page to write and share in one file, and one for the bank that works
# without a signal.
#
#   crates/snell-web/page/build.sh [FOLDER]      target/page where none is named
#
# It needs cargo with the target wasm32-unknown-unknown, Node and npm. Ends with
# 77 where one of them is not to be had.
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
cd "$here/../../.."
out="${1:-target/page}"
tools="${TOOLS:-$HOME/.cache/snell-tools}"
target="${CARGO_TARGET_DIR:-target}"
bindgen="$(sed -n 's/^wasm-bindgen = "=\(.*\)"/\1/p' Cargo.toml)"

for tool in cargo node npm; do
  command -v "$tool" >/dev/null || { echo "there is no $tool here"; exit 77; }
done
if [ ! -d "$(rustc --print sysroot)/lib/rustlib/wasm32-unknown-unknown" ]; then
  if ! rustup target add wasm32-unknown-unknown; then
    echo "Rust's target wasm32-unknown-unknown is not to be had here"
    exit 77
  fi
fi
binder="$tools/wasm-bindgen-$bindgen"
if [ ! -x "$binder/bin/wasm-bindgen" ]; then
  work="$(mktemp -d)"
  CARGO_TARGET_DIR="$work" cargo install --quiet --debug "wasm-bindgen-cli@$bindgen" --root "$binder.new.$$"
  rm -rf "$work"
  mv "$binder.new.$$" "$binder"
fi
modules="$tools/page-1"
if [ ! -f "$modules/complete" ]; then
  rm -rf "$modules"
  mkdir -p "$modules"
  npm install --silent --no-audit --no-fund --prefix "$modules" binaryen@132.0.0 esbuild@0.28.2 \
    json-schema-to-typescript@16.0.0 @codemirror/autocomplete@6.20.4 @codemirror/commands@6.11.1 \
    @codemirror/lint@6.9.8 @codemirror/state@6.7.6 @codemirror/view@6.43.15
  touch "$modules/complete"
fi

# module FOLDER [WHAT CARGO IS TOLD…]: the module with its JavaScript. Packed by brotli, passes until nothing changes
# take 1.9 kB off. Another 2.5 kB go because nothing lies in the first kilobyte of memory: the stack begins above it, and
# reaches it only where it is all but full.
module() {
  local folder="$1"
  shift
  CARGO_INCREMENTAL=0 cargo build --quiet --locked --profile web --package snell-web --target wasm32-unknown-unknown "$@"
  "$binder/bin/wasm-bindgen" --target web --out-dir "$folder" --out-name snell \
    "$target/wasm32-unknown-unknown/web/snell_web.wasm"
  "$modules/node_modules/.bin/wasm-opt" -Oz --converge --low-memory-unused --strip-debug --strip-producers \
    --enable-bulk-memory --enable-nontrapping-float-to-int --enable-sign-ext --enable-mutable-globals \
    --enable-multivalue --enable-reference-types "$folder/snell_bg.wasm" -o "$folder/snell_bg.opt"
  mv "$folder/snell_bg.opt" "$folder/snell_bg.wasm"
  rm -f "$folder/snell_bg.wasm.d.ts"
}

rm -rf "$out"
mkdir -p "$out"
# Readers of a page fetch what its elements ask for; drifts, cards and fits come with the page for the bank.
module "$out" --no-default-features
module "$out/bank"
cargo run --quiet --locked --package snell-web --example answers >"$out/answers.schema.json"
NODE_PATH="$modules/node_modules" node "$here/build.cjs" "$modules" "$here" "$out"
