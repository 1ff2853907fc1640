# What .ci/dist needs of others, and what is made with it. Sourced, with `tools`, `work`, `packages`, `version` and `stage` set.
# Every tool has its version in the name of its folder, and is installed once.
# shellcheck shell=bash disable=SC2154

# python_tools NAME PACKAGE==VERSION…: a folder with their programs.
python_tools() {
  local folder="$tools/$1"
  shift
  if [ ! -f "$folder/complete" ]; then
    rm -rf "$folder"
    python3 -m venv "$folder"
    "$folder/bin/pip" install --quiet --disable-pip-version-check "$@" >&2
    touch "$folder/complete"
  fi
  echo "$folder/bin"
}

wheel_tools() { python_tools wheel-1.33.0 hatchling==1.33.0; }
zig_tools() { python_tools zig-0.17.1-0.24.1 ziglang==0.17.1 cargo-zigbuild==0.24.1; }

# bill_of_materials TRIPLE FILE: the crates that the program for a system is built of, in CycloneDX's format.
bill_of_materials() {
  local tool="$tools/cargo-cyclonedx-0.5.9"
  # Unoptimized it is built in a third of the time, and runs for a second.
  [ -x "$tool/bin/cargo-cyclonedx" ] ||
    cargo install --quiet cargo-cyclonedx --version 0.5.9 --locked --debug --root "$tool" >&2
  # It writes a file beside every manifest of the workspace.
  local copy="$work/materials"
  if [ ! -d "$copy" ]; then
    mkdir "$copy"
    cp -r Cargo.toml Cargo.lock README.md crates tests "$copy"
  fi
  (cd "$copy" && PATH="$tool/bin:$PATH" cargo cyclonedx -qq --manifest-path crates/snell/Cargo.toml \
    --format json --spec-version 1.5 --target "$1" --no-build-deps --override-filename materials)
  sed "s|file://$copy/|file:///|g" "$copy/crates/snell/materials.json" >"$2"
}

# make_deb ARCHITECTURE, as `deb-control` and Debian's policy ask for.
make_deb() {
  command -v dpkg-deb >/dev/null || { echo "dist: no dpkg-deb, so no package for Debian" >&2; return 0; }
  local root="$work/deb-$label" doc
  doc="$root/usr/share/doc/snell"
  install -D -m 755 "$stage/snell" "$root/usr/bin/snell"
  install -D -m 644 "$stage/completions/snell.bash" "$root/usr/share/bash-completion/completions/snell"
  install -D -m 644 "$stage/completions/_snell" "$root/usr/share/zsh/vendor-completions/_snell"
  install -D -m 644 "$stage/completions/snell.fish" "$root/usr/share/fish/vendor_completions.d/snell.fish"
  mkdir -p "$root/usr/share/man/man1"
  cp "$stage"/man/*.1 "$root/usr/share/man/man1"
  gzip -9n "$root"/usr/share/man/man1/*.1
  install -D -m 644 "$stage/LICENSE" "$doc/copyright"
  install -m 644 "$stage/NOTICES" "$stage/snell.cdx.json" "$doc"
  gzip -9nc "$stage/CHANGELOG.md" >"$doc/changelog.gz"
  gzip -9n "$doc/NOTICES"
  mkdir "$root/DEBIAN"
  cat >"$root/DEBIAN/control" <<CONTROL
Package: snell
Version: $version
Architecture: $1
Section: text
Priority: optional
Installed-Size: $(du -sk --apparent-size "$root/usr" | cut -f1)
Maintainer: the snell authors <snell@valley.example>
Description: plain-text language, linter and language server for fishing rigs
 A rig is written rod end first, one line a part, with a unit on every number.
 snell adds up the leader, says how deep each fly rides and what does not hold
 together, draws the rig, and lists what to cut. It works on .rig files and on
 the rigs in a Markdown page, and speaks to editors.
CONTROL
  chmod -R u+rwX,go+rX,go-w "$root"
  dpkg-deb --build --root-owner-group -Zxz "$root" "$out/snell_${version}_$1.deb" >/dev/null
}
