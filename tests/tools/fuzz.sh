#!/usr/bin/env bash
# Looks for inputs that break a law of `tests/support/laws`, from those that are kept and the project's own texts.
#
#   tests/tools/fuzz.sh SECONDS [TARGET…]     each target for so long
#   tests/tools/fuzz.sh sample [TARGET…]      a few thousand inputs of each, the same in every run
#   tests/tools/fuzz.sh keep [TARGET…]        puts a small set of all that was found into tests/fuzz/corpus
#   tests/tools/fuzz.sh covered [TARGET…]     how much of each crate all inputs together run through
#
# It needs a nightly Rust, and ends with 77 where there is none. What breaks a law lies in target/fuzz/artifacts.
set -euo pipefail
[ $# -gt 0 ] || { echo "usage: fuzz.sh SECONDS|sample|keep|covered [TARGET…]" >&2; exit 2; }
cd "$(dirname "$0")/../.."
what="$1"
shift
if ! cargo +nightly --version >/dev/null 2>&1; then
  echo "there is no nightly Rust here, which builds the targets"
  exit 77
fi
tools="${TOOLS:-$HOME/.cache/snell-tools}/cargo-fuzz-0.13.2"
export PATH="$tools/bin:$PATH"
command -v cargo-fuzz >/dev/null || cargo install cargo-fuzz --version 0.13.2 --locked --debug --root "$tools"

# The code is safe Rust, so that the sanitizers would find nothing and only take time.
fuzz="${CARGO_TARGET_DIR:-$PWD/target}/fuzz"
[ "$what" = covered ] || cargo +nightly fuzz build --fuzz-dir tests/fuzz --target-dir "$fuzz" --sanitizer none
cargo run --quiet --package snell-tests --bin fuzz-seeds "$fuzz/seeds"
[ $# -gt 0 ] || set -- $(cd tests/fuzz/targets && printf '%s\n' *.rs | sed 's/\.rs$//')

if [ "$what" = covered ]; then
  profiles=() objects=()
  for target in "$@"; do
    mkdir -p "$fuzz/found/$target"
    cargo +nightly fuzz coverage --fuzz-dir tests/fuzz --target-dir "$fuzz-covered" --sanitizer none "$target" \
      "$fuzz/found/$target" "tests/fuzz/corpus/$target" "$fuzz/seeds/$target" >&2
    profiles+=("tests/fuzz/coverage/$target/coverage.profdata")
    objects+=(-object "$(find "$fuzz-covered" -path "*/release/$target" -print -quit)")
  done
  llvm="$(rustc +nightly --print sysroot)/lib/rustlib/$(rustc +nightly --print host-tuple)/bin"
  "$llvm/llvm-profdata" merge -sparse "${profiles[@]}" -o "$fuzz/covered.profdata"
  rm -r tests/fuzz/coverage
  "$llvm/llvm-cov" export -summary-only -instr-profile="$fuzz/covered.profdata" "${objects[@]}" >"$fuzz/covered.json"
  python3 tests/tools/covered.py "$fuzz/covered.json"
  exit
fi
programs="$(dirname "$(find "$fuzz" -path '*/release/drifts_are_finite_or_told' -print -quit)")"

for target in "$@"; do
  kept="tests/fuzz/corpus/$target" found="$fuzz/found/$target"
  mkdir -p "$found" "$fuzz/artifacts/$target"
  echo "== $target"
  if [ "$what" = keep ]; then
    rm -rf "$fuzz/smallest" && mkdir "$fuzz/smallest"
    "$programs/$target" -merge=1 -max_len=1500 "$fuzz/smallest" "$found" "$kept" 2>&1 | tail -1
    # Each is run again by an ordinary test, so only the first hundred kilobytes of the shortest stay.
    rm -f "$kept"/*
    find "$fuzz/smallest" -type f -printf '%s %f\n' | sort -n | awk '{ sum += $1; if (sum < 100000) print $2 }' |
      while read -r name; do cp "$fuzz/smallest/$name" "$kept/${name:0:12}"; done
    continue
  fi
  case "$what" in
  sample) bound=(-seed=1 -runs=5000) && rm -rf "$found" && mkdir -p "$found" ;;
  *) bound=("-max_total_time=$what") ;;
  esac
  "$programs/$target" "$found" "$kept" "$fuzz/seeds/$target" -dict=tests/fuzz/words.dict -max_len=4096 \
    "${bound[@]}" -timeout=20 -rss_limit_mb=1024 -artifact_prefix="$fuzz/artifacts/$target/" \
    -print_final_stats=1 -verbosity=0
done
