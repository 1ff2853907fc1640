//! A document as pandoc hands it to a filter: its markers and `rig` fences are
//! written out as a page, which the notebook reads, and what belongs between
//! the markers is put into the document's tree.
//!
//! Which rigs are meant is not known here.

use crate::page::{self, markdown, pandoc};
use serde_json::{Map, Value, json};
use snell_article::{Article, Content, Picture};
use snell_text::{FenceTag, Markup, Page, Span};

/// What a document has that a notebook reads.
#[derive(Default)]
pub struct Outline {
    /// The page: `rig` fences and markers in the document's order.
    pub page: String,
    /// The end of each marker in it, by number.
    ends: Vec<u32>,
    /// Whether a marker in a line of text is open, so that what follows it is what it was filled with.
    within: bool,
    /// The beginnings of fences that pandoc took for text.
    pub misread: Vec<String>,
}

/// What a raw piece of HTML is to the outline.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Where {
    Block,
    Inline,
}

impl Outline {
    /// Reads a document, in which every marker then stands by itself.
    pub fn of(document: &mut Value) -> Self {
        part(&mut document["blocks"]);
        let mut outline = Self::default();
        outline.walk(&document["blocks"]);
        outline
    }

    fn walk(&mut self, value: &Value) {
        match value {
            Value::Array(all) => all.iter().for_each(|one| self.walk(one)),
            Value::Object(node) => match raw(value) {
                Some((comment, place)) => self.marker(comment, place),
                None if is_rig_fence(value) => self.fence(value),
                None if is_misread_fence(value) => self.misread(value),
                None if self.within && self.text(node) => {}
                None => node.values().for_each(|one| self.walk(one)),
            },
            _ => {}
        }
    }

    fn misread(&mut self, code: &Value) {
        const MOST: usize = 24;
        let text = code["c"][1].as_str().unwrap_or_default();
        let shown: String = text.chars().take(MOST).collect();
        self.misread.push(shown);
    }

    /// Text behind an open marker; whether the node is some. A paragraph ends what stands open.
    fn text(&mut self, node: &Map<String, Value>) -> bool {
        match node.get("t").and_then(Value::as_str) {
            Some("Str") => {
                let text = node.get("c").and_then(Value::as_str).unwrap_or_default();
                self.page.push_str(&markdown::escaped(text));
                true
            }
            Some("Space" | "SoftBreak" | "LineBreak") => {
                self.page.push(' ');
                true
            }
            Some("Para" | "Plain" | "Header" | "RawBlock") => {
                self.within = false;
                false
            }
            _ => false,
        }
    }

    /// A marker: alone on a line where it is a block, else in a line of text.
    fn marker(&mut self, comment: &str, place: Where) {
        match place {
            Where::Block => self.page.push_str(&format!("\n\n{comment}\n\n")),
            // A word before it, so that the line is none of HTML.
            Where::Inline => {
                let starts = self.page.is_empty() || self.page.ends_with('\n');
                self.page.push_str(if starts { "it " } else { "" });
                self.page.push_str(comment);
                self.within = opens(comment);
            }
        }
        self.ends.push(self.page.trim_end().len() as u32);
    }

    fn fence(&mut self, code: &Value) {
        let words: Vec<&str> = classes(code).collect();
        let text = code["c"][1].as_str().unwrap_or_default();
        let longest = text.lines().map(|line| {
            let line = line.trim_start();
            line.len() - line.trim_start_matches('`').len()
        });
        let fence = "`".repeat(longest.max().unwrap_or(0).max(2) + 1);
        self.page.push_str(&format!(
            "\n\n{fence}{{.{}}}\n{text}\n{fence}\n\n",
            words.join(" .")
        ));
    }

    /// The number of the marker that ends at a byte of the page.
    fn number(&self, end: u32) -> Option<usize> {
        self.ends.binary_search(&end).ok()
    }
}

/// Whether a marker opens a place: it neither ends one nor names a file.
fn opens(comment: &str) -> bool {
    let words = comment
        .split_once(':')
        .map_or("", |(_, words)| words.trim_start());
    let first = words.split_whitespace().next().unwrap_or_default();
    !["end", "use"].iter().any(|word| first.eq_ignore_ascii_case(word))
}

/// Parts raw HTML that has more in it than one marker: some readers take a line that begins with one as a whole.
fn part(value: &mut Value) {
    match value {
        Value::Array(all) => {
            let mut parted = Vec::with_capacity(all.len());
            for mut one in all.drain(..) {
                part(&mut one);
                match pieces(&one) {
                    Some(pieces) => parted.extend(pieces),
                    None => parted.push(one),
                }
            }
            *all = parted;
        }
        Value::Object(node) => node.values_mut().for_each(part),
        _ => {}
    }
}

/// Raw HTML cut at its markers; none where there is nothing to cut.
fn pieces(node: &Value) -> Option<Vec<Value>> {
    let is_raw = node["t"] == "RawBlock" || node["t"] == "RawInline";
    let html = node["c"][1]
        .as_str()
        .filter(|_| is_raw && node["c"][0] == "html")?;
    let markers = markers(html);
    if markers.is_empty() || raw(node).is_some() {
        return None;
    }
    let mut ends = Vec::new();
    for marker in &markers {
        ends.extend([marker.comment.start as usize, marker.comment.end as usize]);
    }
    ends.push(html.len());
    let mut at = 0;
    let mut pieces = Vec::new();
    for end in ends {
        let piece = html[at..end].trim();
        if !piece.is_empty() {
            pieces.push(json!({"t": node["t"], "c": ["html", piece]}));
        }
        at = end;
    }
    Some(pieces)
}

/// A raw piece of HTML that is one marker.
fn raw(node: &Value) -> Option<(&str, Where)> {
    let place = match node["t"].as_str()? {
        "RawBlock" => Where::Block,
        "RawInline" => Where::Inline,
        _ => return None,
    };
    if node["c"][0] != "html" {
        return None;
    }
    let html = node["c"][1].as_str()?.trim();
    let found = markers(html);
    let whole = |marker: &snell_text::Marker| marker.comment == Span::from(0..html.len());
    (found.len() == 1 && found.iter().all(whole)).then_some((html, place))
}

fn markers(html: &str) -> Vec<snell_text::Marker> {
    Page::read(html, Markup::Markdown).markers
}

fn is_rig_fence(node: &Value) -> bool {
    node["t"] == "CodeBlock" && FenceTag::of_classes(classes(node)).is_some()
}

/// Code in a line of text that was a fence: pandoc knows no words behind the first but in braces, `rig alone`, and no word
/// without a dot within them, `{rig}`.
fn is_misread_fence(node: &Value) -> bool {
    let text = node["c"][1].as_str().unwrap_or_default();
    let mut words = text
        .split_whitespace()
        .skip_while(|word| *word != "rig" && !word.ends_with('}'))
        .skip(1);
    let opens = text.starts_with("rig ") || text.starts_with("{rig");
    node["t"] == "Code" && opens && words.any(|word| word == "rig")
}

/// The classes of a block of code; some readers hand over all that stands before the first space as one.
fn classes(code: &Value) -> impl Iterator<Item = &str> + Clone {
    let classes = code["c"][0][1].as_array();
    let words = classes.into_iter().flatten().filter_map(Value::as_str);
    let words = words.flat_map(|class| class.split(|letter: char| ",{}.:;".contains(letter)));
    words.filter(|word| !word.is_empty())
}

/// Puts what belongs between the markers into the document. The words of those whose end stands elsewhere in the
/// tree, so that they could not be filled.
pub fn fill(
    document: &mut Value,
    outline: &Outline,
    article: &Article,
    link: &dyn Fn(&Picture) -> String,
) -> Vec<String> {
    let mut places: Vec<Place<'_>> = article
        .places
        .iter()
        .filter_map(|place| {
            Some(Place {
                first: outline.number(place.slot.open.end)?,
                last: outline.number(place.slot.around.end)?,
                content: &place.content,
                asked: &place.asked,
                done: false,
            })
        })
        .collect();
    let mut filler = Filler {
        places: &mut places,
        next: 0,
        link,
    };
    filler.walk(&mut document["blocks"]);
    let left = places.iter().filter(|place| !place.done);
    left.map(|place| place.asked.to_owned()).collect()
}

struct Place<'a> {
    /// The numbers of its markers.
    first: usize,
    last: usize,
    content: &'a Content,
    asked: &'a str,
    done: bool,
}

struct Filler<'f, 'a> {
    places: &'f mut [Place<'a>],
    /// The number of the marker that comes next.
    next: usize,
    /// Where a picture is found.
    link: &'f dyn Fn(&Picture) -> String,
}

impl Filler<'_, '_> {
    fn walk(&mut self, value: &mut Value) {
        match value {
            Value::Array(all) => self.list(all),
            Value::Object(node) => node.values_mut().for_each(|one| self.walk(one)),
            _ => {}
        }
    }

    /// A list of blocks or inlines, or of anything else.
    fn list(&mut self, all: &mut Vec<Value>) {
        let mut at = 0;
        while at < all.len() {
            let Some((_, place)) = raw(&all[at]) else {
                if !is_rig_fence(&all[at]) {
                    self.walk(&mut all[at]);
                }
                at += 1;
                continue;
            };
            let number = self.next;
            self.next += 1;
            let wanted = self.places.iter_mut().find(|one| one.first == number);
            let length = wanted
                .as_ref()
                .and_then(|one| length(&all[at..], one.last - number));
            if let (Some(wanted), Some(length)) = (wanted, length) {
                wanted.done = true;
                self.next = wanted.last + 1;
                let new = content(wanted.content, place, self.link);
                let count = new.len();
                all.splice(at..at + length, new);
                at += count;
            } else {
                at += 1;
            }
        }
    }
}

/// How far it is to the marker that many further on in the same list, itself included.
fn length(list: &[Value], further: usize) -> Option<usize> {
    let mut markers = list.iter().enumerate().filter(|(_, one)| raw(one).is_some());
    markers.nth(further).map(|(at, _)| at + 1)
}

fn content(content: &Content, place: Where, link: &dyn Fn(&Picture) -> String) -> Vec<Value> {
    match (content, place) {
        (Content::Figure(text), Where::Inline) => pandoc::inlines(text),
        _ => pandoc::blocks(&page::of(content, link)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn raw_block(html: &str) -> Value {
        json!({"t": "RawBlock", "c": ["html", html]})
    }

    #[test]
    fn a_line_taken_as_a_whole_is_parted() {
        let line = "<!-- rig: total of a -->5 m<!-- rig: end --> is long.\n";
        let mut document = json!({"blocks": [raw_block(line), raw_block("<hr>")]});
        let outline = Outline::of(&mut document);
        assert_eq!(
            document["blocks"],
            json!([
                raw_block("<!-- rig: total of a -->"),
                raw_block("5 m"),
                raw_block("<!-- rig: end -->"),
                raw_block("is long."),
                raw_block("<hr>"),
            ])
        );
        assert_eq!(markers(&outline.page).len(), 2);
    }

    #[test]
    fn a_fence_that_was_taken_for_text_is_noticed() {
        let code =
            |text: &str| json!({"blocks": [{"t": "Para", "c": [{"t": "Code", "c": [["", [], []], text]}]}]});
        let misread = |text: &str| Outline::of(&mut code(text)).misread.len();
        assert_eq!(
            ["rig alone rig a   point #14", "{rig} rig a"].map(misread),
            [1, 1]
        );
        assert_eq!(
            ["rig low", "rig alone", "rig", "snell check rig a"].map(misread),
            [0; 4]
        );
    }

    #[test]
    fn what_a_marker_was_filled_with_stands_behind_it() {
        let inline = |html: &str| json!({"t": "RawInline", "c": ["html", html]});
        let word = |text: &str| json!({"t": "Str", "c": text});
        let mut document = json!({"blocks": [{"t": "Para", "c": [
            word("It"), inline("<!-- rig: total of a -->"), word("5"), {"t": "Space"}, word("m*"),
            inline("<!-- rig: end -->"), word("long"),
        ]}]});
        let outline = Outline::of(&mut document);
        assert_eq!(outline.page, "it <!-- rig: total of a -->5 m\\*<!-- rig: end -->");
    }

    #[test]
    fn fences_keep_their_words_and_their_ticks() {
        let code = "rig a\n  note \"```\"";
        let mut document = json!({"blocks": [
            {"t": "CodeBlock", "c": [["", ["rig", "alone"], []], code]},
            {"t": "CodeBlock", "c": [["", ["sh"], []], "ls"]},
        ]});
        let page = Outline::of(&mut document).page;
        let fences = snell_text::fences(&page);
        assert_eq!(fences.len(), 1);
        assert_eq!(fences[0].tag, snell_text::FenceTag::Alone);
        assert_eq!(fences[0].lines.len(), 2);
    }
}
