#!/usr/bin/env bash
# A book built by mdBook and an article built by pandoc: what their markers ask
# for stands in what is built, follows the rigs, and a broken marker stops the
# build. The files themselves are filled, checked and compared byte by byte.
#
#   tests/tools/articles.sh target/release/snell
set -euo pipefail

# shellcheck source=tests/tools/needs.sh
. "$(dirname "$0")/needs.sh" "${1:-}" python3 cargo

book_tool="$tools/mdbook-0.5.4"
venv="$tools/pandoc-1.17"
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT

if [ ! -x "$book_tool/bin/mdbook" ]; then
  CARGO_TARGET_DIR="$work/mdbook" cargo install --quiet --locked --debug mdbook@0.5.4 --root "$book_tool.new.$$"
  mv "$book_tool.new.$$" "$book_tool"
fi
if [ ! -f "$venv/complete" ]; then
  rm -rf "$venv"
  python3 -m venv "$venv"
  "$venv/bin/pip" install --quiet --disable-pip-version-check pypandoc_binary==1.17
  touch "$venv/complete"
fi
mdbook="$book_tool/bin/mdbook"
pandoc="$("$venv/bin/python" -c 'import pypandoc; print(pypandoc.get_pandoc_path())')"
python() {
  "$venv/bin/python" tests/tools/articles.py "$@"
}

failed=0
tell() {
  if [ "$1" = 0 ]; then echo "holds: $2"; else echo "FAILS: $2"; failed=1; fi
}

# holds WHAT COMMAND…: it ends well.
holds() {
  local what="$1" status=0
  shift
  "$@" >"$work/said" 2>&1 || status=$?
  [ "$status" = 0 ] || cat "$work/said"
  tell "$status" "$what"
}

# stops WHAT TEXT COMMAND…: it ends badly and says TEXT.
stops() {
  local what="$1" text="$2" status=0
  shift 2
  "$@" >"$work/said" 2>&1 || status=$?
  if [ "$status" != 0 ] && grep -qF -- "$text" "$work/said"; then status=0; else cat "$work/said"; status=1; fi
  tell "$status" "$what"
}

book="$work/book"
# Files that are used stay inside a project; a version control makes it one.
mkdir -p "$book/.git" "$book/notebook" "$book/src/two"
cp examples/harrow.rig "$book/notebook/"
cp examples/evening-on-the-weir.md examples/*.svg "$book/src/"
cat >"$book/book.toml" <<TOML
[book]
title = "Two evenings"

[preprocessor.snell]
command = "$snell mdbook"
after = ["links"]
TOML
cat >"$book/src/SUMMARY.md" <<'MD'
# Summary

- [The weir](evening-on-the-weir.md)
  - [The beck](two/beck.md)
- [Not written yet]()
MD
cat >"$book/src/two/beck.md" <<'MD'
# The beck

<!-- rig: use "../../notebook/harrow.rig" -->

The leader is <!-- rig: total of harrow-low -->1 ft<!-- rig: end --> long (`<!-- rig: total of nobody -->`).
<!-- rig: tippet of harrow-low in cm --><!-- rig: end --> of it is *tippet*.

It is <!-- rig: stuff of upper of harrow-low --><!-- rig: end -->.

> 1. As it is tied:
>
>    <!-- rig: parts of harrow-low -->
>    <!-- rig: end -->

<!-- rig: draw harrow-low -->
<!-- rig: end -->

<!-- rig: drift harrow-low as "How the low rig rides, in my own words" -->
<!-- rig: end -->

[//]: # (rig: caption of harrow-low)

[//]: # (rig: end)
MD
cat >"$book/src/two/mine.md" <<'MD'
# My own

<!-- rig: use "../../notebook/harrow.rig" -->

```rig
rig mine from harrow-low
```
MD
sed 's/$/\r/' "$book/src/two/beck.md" >"$book/src/two/windows.md"
sed -i 's/^- \[Not/- [Elsewhere](two\/windows.md)\n- [My own](two\/mine.md)\n- [Not/' "$book/src/SUMMARY.md"

built() {
  "$mdbook" build "$book" --dest-dir "$work/out"
}

holds "mdBook builds the book" built
holds "the book shows its rigs" python book "$work/out" "15 ft 10 in" "132.1 cm"
echo 'live = "rigs"' >>"$book/book.toml"
holds "mdBook builds the book with live rigs" built
holds "its pages with rigs ask for what makes them live" grep -q 'src="rigs/live.js"' "$work/out/evening-on-the-weir.html"
holds "a page brings the files along that it uses" python given "$work/out/two/mine.html" "$book/notebook/harrow.rig"
sed -i '/^live = /d' "$book/book.toml"
sed -i 's/tippet  32 in/tippet  44 in/' "$book/notebook/harrow.rig"
holds "mdBook builds the book after a rig was edited" built
holds "the book shows the rig as it is now" python book "$work/out" "16 ft 10 in" "162.6 cm"
sed -i 's/total of harrow-low/total of harow-low/' "$book/src/two/beck.md"
stops "a broken marker stops the book, and is told" 'there is no rig `harow-low` in sight' built
sed -i 's/total of harow-low/total of harrow-low/' "$book/src/two/beck.md"

# The files themselves.
holds "the article of the examples is filled" "$snell" fill --check examples
cp -r "$book/src" "$work/before"
stops "articles that are not filled yet are told" "two/beck.md:5:15: total of harrow-low" \
  "$snell" fill --check "$book/src"
holds "fill fills them" "$snell" fill "$book/src"
holds "then they are up to date" "$snell" fill --check "$book/src"
holds "nothing outside of the markers changed" python outside "$work/before" "$book/src"
rm -rf "$work/before"
cp -r "$book/src" "$work/before"
sed -i 's/tippet  44 in/tippet  32 in/' "$book/notebook/harrow.rig"
stops "an edited rig makes them stale" '`16 ft 10 in` stands here, and it is `15 ft 10 in`' \
  "$snell" fill --check "$book/src"
holds "fill mends them" "$snell" fill "$book/src"
holds "nothing outside of the markers changed then" python outside "$work/before" "$book/src"
holds "mdBook builds the filled book alike" built
holds "the filled book shows its rigs" python book "$work/out" "15 ft 10 in" "132.1 cm"

# Pandoc, as a filter and in a pipe; in its own Markdown and in that of the web.
mkdir "$work/bin"
ln -s "$snell" "$work/bin/snell-pandoc"
export PATH="$work/bin:$PATH"
article() {
  cd "$book/src/two" && "$pandoc" -f "$1" --filter snell-pandoc beck.md -o "$work/beck.$2"
}
piped() {
  cd "$book/src/two" && "$pandoc" -f gfm -t json beck.md | "$snell" pandoc | "$pandoc" -f json -o "$work/piped.html"
}
for from in markdown gfm; do
  holds "pandoc builds the article from $from" eval "(article $from html)"
  holds "the article from $from shows its rigs" python article "$work/beck.html" "15 ft 10 in" "132.1 cm"
done
holds "pandoc builds the article in a pipe" eval "(set -o pipefail; piped)"
holds "it shows its rigs as well" python article "$work/piped.html" "15 ft 10 in" "132.1 cm"
holds "pandoc builds a document for a word processor" eval "(article gfm docx)"
holds "it holds the table and the pictures" python document "$work/beck.docx" "15 ft 10 in"
holds "pandoc builds an electronic book" eval "(article gfm epub)"
holds "it shows its rigs, with words for those who do not see the pictures" python epub "$work/beck.epub" "15 ft 10 in" "132.1 cm"
latex() {
  cd "$book/src/two" && "$pandoc" -f gfm --filter snell-pandoc --extract-media="$work/latex" -s beck.md -o "$work/beck.tex"
}
holds "pandoc builds TeX" eval "(latex)"
holds "it takes in painted pictures, with words for those who do not see them" python tex "$work/beck.tex" "15 ft 10 in"
if command -v pdflatex >/dev/null; then
  holds "TeX builds a PDF with the pictures" eval "(article gfm pdf)"
  holds "it holds both" test "$(grep -ac '/Subtype */Image' "$work/beck.pdf")" -ge 2
else
  echo "skipped: no pdflatex, which would build a PDF"
fi
# Quarto's Markdown, as it comes to pandoc.
cat >"$book/src/two/beck.qmd" <<'MD'
---
title: "The beck"
---

::: {.callout-note}
## Low water

```{.rig filename="low.rig"}
rig low "The pool"
  butt    60 in  of 0.28 mm nylon
  tippet  32 in  of 6X fluoro
  point   #14 2.8 mm tungsten
```
:::

It is <!-- rig: total of low --><!-- rig: end --> long.

<!-- rig: draw low -->
<!-- rig: end -->
MD
quarto() {
  cd "$book/src/two" && "$pandoc" -f markdown --filter snell-pandoc beck.qmd -o "$work/quarto.html"
}
holds "pandoc builds a page of Quarto" eval "(quarto)"
holds "it shows its rig" python quarto "$work/quarto.html" "7 ft 8 in"
# What is published is read back.
holds "snell reads the rigs of the page of Quarto" eval '"$snell" show "$work/quarto.html:low" | grep -qF "7 ft 8 in"'
holds "snell reads the rigs of the book" "$snell" check --bar fault "$work/out/evening-on-the-weir.html"
# A text that somebody wrote over a filling stops the book and pandoc alike.
sed 's/rig: end [0-9a-f]* --> long/& or so/; s/15 ft 10 in<!--/15 ft or so<!--/' "$book/src/two/beck.md" >"$work/edited.md"
cp "$work/edited.md" "$book/src/two/beck.md"
stops "text over a filling stops the book, and is told" "was changed since it was filled" built
stops "text over a filling stops pandoc, and is told" "was changed since it was filled" eval "(article gfm html)"
sed -i 's/parts of harrow-low/parts of harow-low/' "$book/src/two/beck.md"
stops "a broken marker stops pandoc, and is told" 'there is no rig `harow-low` in sight' eval "(article gfm html)"

exit "$failed"
