"""What articles.sh asks of pages that other programs built.

    articles.py book FOLDER TOTAL TIPPET     pages of mdBook
    articles.py given FILE USED              a page of mdBook with live rigs, and the file that it uses
    articles.py article FILE TOTAL TIPPET    a page of pandoc
    articles.py document FILE TOTAL          a word processor's document of pandoc
    articles.py epub FILE TOTAL TIPPET       an electronic book of pandoc
    articles.py tex FILE TOTAL               TeX of pandoc
    articles.py quarto FILE TOTAL            a page of Quarto's Markdown
    articles.py outside BEFORE AFTER         Markdown that was filled, byte by byte
"""

import html.parser
import json
import pathlib
import re
import sys
import urllib.parse
import zipfile


class Page(html.parser.HTMLParser):
    """The text of a page, its table cells and its pictures; comments are not seen."""

    def __init__(self, source):
        super().__init__()
        self.text, self.cells, self.pictures, self.instead, self.inside = "", [], [], [], []
        self.feed(source)

    def handle_starttag(self, tag, attributes):
        if tag in ("td", "th"):
            self.cells.append("")
        if tag == "img":
            self.pictures.append(dict(attributes)["src"])
            self.instead.append(dict(attributes).get("alt", ""))
        if tag not in ("img", "br", "meta", "link", "input", "hr", "col"):
            self.inside.append(tag)

    def handle_endtag(self, tag):
        if tag in self.inside:
            while self.inside.pop() != tag:
                pass

    def handle_data(self, data):
        self.text += data
        if {"td", "th"} & set(self.inside):
            self.cells[-1] += data


def same(what, found, expected):
    assert found == expected, f"{what}: {found!r}, not {expected!r}"


def shows(page, total, tippet):
    # Readers of the web's Markdown leave a line that begins with a comment as it is.
    text = " ".join(page.text.replace("*", "").split())
    assert f"The leader is {total} long (<!-- rig: total of nobody -->)." in text, text
    assert f"{tippet} of it is tippet." in text and "It is 6X fluoro." in text, text
    tells(page.instead)
    assert "old" not in text.replace("bold", "").split(), text
    assert "upper" in page.cells and "three-turn-surgeon" in page.cells, page.cells
    # mdBook shows each picture a second time, to be looked at closely.
    pictures = {one for one in page.pictures if one.startswith("data:image/svg+xml,")}
    same("pictures", len(pictures), 2)
    for picture in pictures:
        svg = urllib.parse.unquote(picture.partition(",")[2])
        assert svg.startswith("<svg ") and svg.endswith("</svg>\n"), svg[:80]


OWN_WORDS = "How the low rig rides, in my own words"


def tells(instead):
    """Every picture says at length what it shows, or in the writer's words."""
    assert OWN_WORDS in instead, instead
    assert any("From the rod down: line of 0.55 mm" in one for one in instead), instead


def book(folder, total, tippet):
    for name in ("two/beck.html", "two/windows.html"):
        shows(Page((pathlib.Path(folder) / name).read_text()), total, tippet)
    weir = Page((pathlib.Path(folder) / "evening-on-the-weir.html").read_text())
    assert "grows from 6.2 m to 6.55 m" in " ".join(weir.text.split())
    assert "expect  total about 6.55 m" in weir.text, "the fences keep their text"
    assert "1.4 m" in weir.cells, weir.cells


def given(file, used):
    found = re.findall(r'<script type="application/json" data-rig-files[^>]*>(.*?)</script>', pathlib.Path(file).read_text())
    same("elements with files", len(found), 1)
    told = json.loads(found[0])
    same("the page", told["page"], "src/two/mine.md")
    same("what it uses", told["uses"], ['use "../../notebook/harrow.rig"'])
    same("the files", told["files"], {"notebook/harrow.rig": pathlib.Path(used).read_text()})


def article(file, total, tippet):
    shows(Page(pathlib.Path(file).read_text()), total, tippet)


def document(file, total):
    with zipfile.ZipFile(file) as parts:
        text = parts.read("word/document.xml").decode()
        pictures = [name for name in parts.namelist() if name.endswith(".png")]
        painted = [parts.read(name)[:4] for name in pictures]
    words = " ".join("".join(re.findall(r"<w:t[^>]*>([^<]*)", text)).split())
    assert f"The leader is {total} long" in words, words[:400]
    assert "<w:tbl>" in text and "three-turn-surgeon" in words
    same("pictures", painted, [b"\x89PNG"] * 2)
    tells([html.unescape(one) for one in re.findall(r'<wp:docPr[^>]*descr="([^"]*)"', text)])


def epub(file, total, tippet):
    with zipfile.ZipFile(file) as parts:
        names = [name for name in parts.namelist() if re.search(r"text/ch.*\.xhtml$", name)]
        page = Page("".join(parts.read(name).decode() for name in names))
        pictures = [name for name in parts.namelist() if name.endswith(".svg")]
    text = " ".join(page.text.split())
    assert f"The leader is {total} long" in text and f"{tippet} of it is" in text, text
    tells(page.instead)
    same("pictures", len(pictures), 2)


def tex(file, total):
    text = pathlib.Path(file).read_text()
    words = " ".join(text.split())
    assert f"The leader is {total} long" in words, words
    pictures = re.findall(r"\\includegraphics\[([^\]]*)\]\{([^}]*)\}", text)
    same("pictures", len(pictures), 2)
    for options, name in pictures:
        assert pathlib.Path(name).read_bytes()[:4] == b"\x89PNG", name
    assert OWN_WORDS in words and "From the rod down: line of 0.55 mm" in words, words


def quarto(file, total):
    page = Page(pathlib.Path(file).read_text())
    assert f"It is {total} long." in " ".join(page.text.split()), page.text
    assert any(one.startswith("low: The pool. From the rod down: butt 60 in") for one in page.instead), page.instead
    assert "callout-note" in pathlib.Path(file).read_text()


# Told apart from the program's own reading: what stands between two markers on
# a line, or from one marker's line to the next one's.
COMMENTS = rb"(<!-- rig: (?!end|use)[^>]*-->).*?(?:<!-- rig: end(?: [0-9a-f]{8})? -->)"
LINKS = rb"(\[//\]: # \(rig: (?!end|use)[^)]*\)).*?(?:\[//\]: # \(rig: end(?: [0-9a-f]{8})?\))"
FILLED = re.compile(COMMENTS + b"|" + LINKS, re.DOTALL)


def outside(before, after):
    before, after = pathlib.Path(before), pathlib.Path(after)
    pages = sorted(before.rglob("*.md"))
    assert pages
    changed = 0
    for page in pages:
        old, new = page.read_bytes(), (after / page.relative_to(before)).read_bytes()
        strip = lambda text: FILLED.sub(lambda pair: (pair[1] or pair[2]) + b"<end>", hidden(text))
        same(str(page), strip(new), strip(old))
        changed += old != new
        if b"\r\n" in old:
            same(f"{page}: line ends", new.count(b"\n"), new.count(b"\r\n"))
    assert changed, "no page changed"


def hidden(text):
    """Without the opening of markers that the page shows as code."""
    return re.sub(rb"`<!--", b"`<!", text)


if __name__ == "__main__":
    {
        "book": book,
        "given": given,
        "article": article,
        "document": document,
        "epub": epub,
        "tex": tex,
        "quarto": quarto,
        "outside": outside,
    }[sys.argv[1]](*sys.argv[2:])
