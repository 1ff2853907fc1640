#!/usr/bin/env bash
# Thirty unlike rigs in every picture and medium, on one page to be looked at:
# to scale, in the water, as cards, in the terminal with and without Unicode, and
# as printed pages. What can be computed of it, `--test gallery` computes.
#
#   tests/tools/gallery.sh target/release/snell [FOLDER]
#
# With Chromium it also prints the pages and counts them, and with AXE, the path of
# axe.min.js, it looks for what keeps people from reading them.
set -euo pipefail

snell="$(realpath "$1")"
out="${2:-target/gallery}"
cd "$(dirname "$0")/../.."
rigs=tests/data/gallery.rig
mkdir -p "$out/svg" "$out/png"
out="$(realpath "$out")"

"$snell" draw "$rigs" -o "$out/svg/rig.svg" > "$out/told.txt" 2> /dev/null || true
"$snell" draw "$rigs" --in-water -o "$out/svg/water.svg" >> "$out/told.txt" 2> /dev/null || true
"$snell" card "$rigs" -o "$out/svg/card.svg" >> "$out/told.txt" 2> /dev/null || true
"$snell" draw "$rigs" -o "$out/png/rig.png" >> "$out/told.txt" 2> /dev/null || true
"$snell" show "$rigs" --form html > "$out/sheets.html" 2> /dev/null || true
"$snell" show "$rigs" --form html --class > "$out/class.html" 2> /dev/null || true
"$snell" card "$rigs" --form html > "$out/cards.html" 2> /dev/null || true
LANG=C.UTF-8 "$snell" draw "$rigs" > "$out/terminal.txt" 2> /dev/null || true
LC_ALL=C "$snell" draw "$rigs" > "$out/ascii.txt" 2> /dev/null || true

{
  echo '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Gallery</title>'
  echo '<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">'
  echo '<style>body{margin:1rem;font-family:sans-serif}figure{display:inline-block;vertical-align:top;margin:.3rem}'
  echo 'a{color:inherit}svg{max-width:100%;height:auto}pre{overflow-x:auto}</style></head><body><main><h1>Gallery</h1>'
  echo '<p><a href="sheets.html">Sheets</a>, <a href="class.html">for a class</a>, <a href="cards.html">cards</a></p>'
  for kind in rig water card; do
    echo "<h2>$kind</h2>"
    number=0
    for file in "$out"/svg/"$kind"-*.svg; do
      number=$((number + 1))
      # Pictures in files of their own share an id.
      echo '<figure>'
      sed -E "s/(id=\"|labelledby=\"| )(rig|card)-(title|about)/\\1$kind-$number-\\3/g" "$file"
      echo '</figure>'
    done
  done
  echo '<h2>terminal</h2><pre tabindex="0">'
  sed 's/&/\&amp;/g; s/</\&lt;/g' "$out/terminal.txt"
  echo '</pre></main></body></html>'
} > "$out/index.html"
echo "wrote $out/index.html"

browser="$(command -v chromium || command -v chromium-browser || true)"
[ -n "$browser" ] || exit 0
browse() {
  timeout 120 "$browser" --headless --no-sandbox --disable-gpu "$@" 2> /dev/null
}

failed=0
for page in sheets class cards; do
  browse --no-pdf-header-footer --print-to-pdf="$out/$page.pdf" "file://$out/$page.html" > /dev/null
  pages="$(grep -aoE '/Type ?/Page\b' "$out/$page.pdf" | wc -l)"
  wanted="$(grep -c '<article' "$out/$page.html")"
  if [ "$pages" = "$wanted" ]; then echo "holds: $page.html prints a page a rig, $pages"; else
    echo "FAILS: $page.html prints $pages pages for $wanted rigs"
    failed=1
  fi
done

[ -n "${AXE:-}" ] || exit "$failed"
for page in index sheets class cards; do
  {
    sed 's#</body></html>##; s#^</body>$##; s#^</html>$##' "$out/$page.html"
    printf '<script>'
    sed 's#</script>#<\\/script>#g' "$AXE"
    echo '</script><script>axe.run().then(r=>{document.title="AXE "+r.violations.map(v=>v.impact+" "+v.id+" x"+v.nodes.length).join(", ")+" END"})</script></body></html>'
  } > "$out/$page-axe.html"
  told="$(browse --virtual-time-budget=60000 --dump-dom "file://$out/$page-axe.html" | grep -oE '<title>AXE .*END</title>' | head -1)"
  rm "$out/$page-axe.html"
  if [ "$told" = '<title>AXE  END</title>' ]; then echo "holds: axe finds nothing in $page.html"; else
    echo "FAILS: axe in $page.html: $told"
    failed=1
  fi
done
exit "$failed"
