#!/usr/bin/env bash
# Packages for Linux, made of a program that is there, and installed as people do: each must tell a finding within ten seconds.
#
#   tests/tools/dist.sh target/release/snell
#
# For VS Code see `tests/editors/run.sh`. What cannot be had here is told, and ends it with 77 if all else holds.
set -euo pipefail

# shellcheck source=tests/tools/needs.sh
. "$(dirname "$0")/needs.sh" "${1:-}" python3 node npm cargo
case "$(uname -sm)" in
"Linux x86_64") label=linux-x64 deb=amd64 ;;
"Linux aarch64") label=linux-arm64 deb=arm64 ;;
*) echo "there is no package for $(uname -sm) to be tried"; exit 77 ;;
esac

work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT
made="$work/made"
.ci/dist --program "$snell" "$made" "$label" >"$work/said" 2>&1 || { cat "$work/said"; exit 1; }
grep "^packed" "$work/said"

failed=0 lacking=()
tell() {
  if [ "$1" = 0 ]; then echo "holds: $2"; else echo "FAILS: $2"; failed=1; fi
}
# holds WHAT COMMAND…
holds() {
  local what="$1" status=0
  shift
  "$@" >"$work/said" 2>&1 || status=$?
  [ "$status" = 0 ] || cat "$work/said"
  tell "$status" "$what"
}
# stops WHAT COMMAND…
stops() {
  local what="$1" status=0
  shift
  "$@" >"$work/said" 2>&1 || status=$?
  tell "$([ "$status" != 0 ]; echo $?)" "$what"
}
# says WORDS: the last command did.
says() { tell "$(grep -qF "$1" "$work/said"; echo $?)" "… and says: $1"; }

printf 'rig slip\n  tippet 20 of 6X fluoro\n  point #14\n' >"$work/slip.rig"
# finds WHAT COMMAND…: with nothing of the builder's settings, the finding is told in time.
finds() {
  local what="$1" said
  shift
  said="$(env -i PATH="$PATH" HOME="$work" timeout 10 "$@" check "$work/slip.rig" --form lines 2>&1 || true)"
  tell "$(grep -qF '`20` has no unit' <<<"$said"; echo $?)" "$what tells a finding"
}

version="$("$snell" --version | cut -d' ' -f2)"
archive="snell-$version-$label.tar.gz"
holds "the sums are those of the files" eval '(cd "$made" && sha256sum --quiet -c SHA256SUMS)'

mkdir "$work/spoilt"
cp "$made/SHA256SUMS" "$made/$archive" "$work/spoilt"
echo >>"$work/spoilt/$archive"
# The script is run by whatever a machine calls sh, and a home may have any name.
for shell in sh dash bash "busybox sh"; do
  if ! command -v "${shell%% *}" >/dev/null; then
    echo "passed over: there is no ${shell%% *} here"
    continue
  fi
  home="$work/the home of $shell"
  # shellcheck disable=SC2086
  installs() { env -i PATH="$PATH" HOME="$home" TMPDIR="$work/empty" FROM="$1" $shell "$made/install.sh"; }
  mkdir -p "$work/empty"
  stops "$shell installs no archive with another sum" installs "$work/spoilt"
  says "not the one in SHA256SUMS"
  stops "$shell installs nothing where there is no network" installs "https://127.0.0.1:9/none"
  says "could not be fetched"
  stops "$shell installs nothing from an address without TLS" installs "http://127.0.0.1:9/none"
  stops "… and leaves nothing there" test -e "$home"
  holds "$shell installs the archive" installs "$made"
  finds "the program of the archive" "$home/.local/bin/snell"
  holds "… and again, over it" installs "$made"
  holds "… and leaves no other file" test "$(find "$work/empty" "$home" -type f)" = "$home/.local/bin/snell"
done
for file in LICENSE NOTICES README.md snell.cdx.json man/snell.1 completions/_snell completions/snell.bash; do
  holds "the archive has $file" tar -tzf "$made/$archive" "snell-$version-$label/$file"
done

# Every crate that the program is built of stands in its bill of materials, and with a licence.
holds "the bill of materials is whole" python3 - "$made/$archive" "snell-$version-$label/snell.cdx.json" <<'PY'
import json, subprocess, sys, tarfile

with tarfile.open(sys.argv[1]) as archive:
    bill = json.load(archive.extractfile(sys.argv[2]))
text = json.dumps(bill)
assert bill["bomFormat"] == "CycloneDX" and "/tmp/" not in text and "/home/" not in text, "it tells where it was made"
told = {(part["name"], part["version"]): part for part in bill["components"]}
tree = subprocess.run(
    ["cargo", "tree", "--locked", "--package", "snell", "--edges", "normal,no-proc-macro", "--prefix", "none", "--format", "{p}"],
    capture_output=True, text=True, check=True,
).stdout
needed = {tuple(line.replace(" v", " ").split()[:2]) for line in tree.splitlines() if line and "proc-macro" not in line}
needed = {crate for crate in needed if crate[0] != "snell"}
assert len(needed) > 50, len(needed)
assert not needed - told.keys(), f"missing: {sorted(needed - told.keys())}"
bare = [name for name, part in told.items() if not part.get("licenses")]
assert not bare, f"without a licence: {bare}"
PY

holds "pip installs the wheel" eval \
  'python3 -m venv "$work/venv" && "$work/venv/bin/pip" install -q --no-index --disable-pip-version-check "$made"/*.whl'
finds "the program of the wheel" "$work/venv/bin/snell"

mkdir "$work/npm"
echo '{}' >"$work/npm/package.json"
holds "npm installs its packages" eval \
  'cd "$work/npm" && npm install --offline --silent --no-audit --no-fund "$made"/snell-rig-linux-*.tgz "$made/snell-$version.tgz"'
finds "the program of npm" "$work/npm/node_modules/.bin/snell"

if ! command -v dpkg >/dev/null; then
  lacking+=("dpkg, for the package of Debian")
elif [ "$(id -u)" != 0 ]; then
  lacking+=("the right to install a package of Debian: be root")
else
  # In a root of its own, so that nothing of this machine changes; it has no shell for scripts, and the package has none.
  mkdir -p "$work/root/var/lib/dpkg"/{info,updates,triggers}
  touch "$work/root/var/lib/dpkg"/{status,available}
  holds "dpkg installs the package of Debian" dpkg --root="$work/root" --log=/dev/null --force-not-root --install "$made/snell_${version}_$deb.deb"
  finds "the program of Debian's package" "$work/root/usr/bin/snell"
fi

if [ "$failed" = 0 ] && [ ${#lacking[@]} -gt 0 ]; then
  printf 'lacking: %s\n' "${lacking[@]}"
  exit 77
fi
exit "$failed"
