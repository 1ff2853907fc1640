//! The rigs of a published page: what stands in its blocks of code, whichever
//! program wrote the HTML.
//!
//! A page is full of entities and tags, so its places are no places of a rig.
//! The rigs are written out as a text of their own, each line of it on the line
//! of the page on which it stands there.

use crate::found::{Fence, Page};
use crate::info::FenceTag;
use crate::lines::lines;
use crate::span::Span;
use html5gum::{DefaultEmitter, StartTag, Token, Tokenizer};

/// The rigs of a page of HTML, by their lines, and where they stand in that text.
pub fn published(html: &str) -> (String, Page) {
    let mut emitter = DefaultEmitter::<usize>::new_with_span();
    emitter.naively_switch_states(true);
    let mut reading = Reading {
        html,
        line: 0,
        at: 0,
        dividers: Vec::new(),
        block: None,
        passed: None,
        text: String::new(),
        lines: 0,
        page: Page::default(),
    };
    for token in Tokenizer::new_with_emitter(html, emitter) {
        match token {
            Ok(Token::StartTag(tag)) => reading.begin(&tag),
            Ok(Token::EndTag(tag)) => reading.end(&tag.name),
            Ok(Token::String(text)) => reading.string(&String::from_utf8_lossy(&text), text.span.start),
            Ok(_) => {}
            // A text in memory is always read to its end.
            Err(never) => match never {},
        }
    }
    reading.close();
    (reading.text, reading.page)
}

/// A block of code that is open.
#[derive(Default)]
struct Block {
    tag: Option<FenceTag>,
    /// The line of the page on which its text begins.
    line: usize,
    text: String,
}

struct Reading<'h> {
    html: &'h str,
    /// The line of the page at a byte of it.
    line: usize,
    at: usize,
    /// The tags that hold in the divisions that are open: some programs name the language around a block.
    dividers: Vec<Option<FenceTag>>,
    block: Option<Block>,
    /// The element that is passed over, with how many of its name are open in it: the numbers of lines are no part of a
    /// rig.
    passed: Option<(Vec<u8>, usize)>,
    text: String,
    /// How many lines the text has so far.
    lines: usize,
    page: Page,
}

impl Reading<'_> {
    fn begin(&mut self, tag: &StartTag<usize>) {
        if let Some((name, open)) = &mut self.passed {
            *open += usize::from(*name == *tag.name);
            return;
        }
        if is_of_numbers(tag) {
            self.passed = Some((tag.name.to_vec(), 1));
            return;
        }
        let named = tag_of(tag);
        match tag.name.as_slice() {
            b"div" | b"figure" if !tag.self_closing => {
                let around = self.dividers.last().copied().flatten();
                self.dividers.push(named.or(around));
            }
            b"pre" => {
                self.close();
                let around = self.dividers.last().copied().flatten();
                self.block = Some(Block {
                    tag: named.or(around),
                    ..Block::default()
                });
            }
            b"code" => {
                if let Some(block) = &mut self.block {
                    block.tag = named.or(block.tag);
                }
            }
            b"br" => {
                if let Some(block) = &mut self.block {
                    block.text.push('\n');
                }
            }
            _ => {}
        }
    }

    fn end(&mut self, name: &[u8]) {
        if let Some((passed, open)) = &mut self.passed {
            *open -= usize::from(*passed == *name);
            if *open == 0 {
                self.passed = None;
            }
            return;
        }
        match name {
            b"div" | b"figure" => drop(self.dividers.pop()),
            b"pre" => self.close(),
            _ => {}
        }
    }

    fn string(&mut self, text: &str, start: usize) {
        let line = self.line_at(start);
        if let (None, Some(block)) = (&self.passed, &mut self.block) {
            if block.text.is_empty() {
                block.line = line;
            }
            block.text.push_str(&text.replace('\u{a0}', " "));
        }
    }

    fn line_at(&mut self, at: usize) -> usize {
        let between = self.html.as_bytes().get(self.at..at).unwrap_or_default();
        self.line += between.iter().filter(|byte| **byte == b'\n').count();
        self.at = at.max(self.at);
        self.line
    }

    /// Writes a block of rigs out, as far down as it stands in its page.
    fn close(&mut self) {
        let Some(block) = self.block.take() else { return };
        let Some(tag) = block.tag else { return };
        if !self.text.is_empty() && !self.text.ends_with('\n') {
            self.text.push('\n');
            self.lines += 1;
        }
        while self.lines < block.line {
            self.text.push('\n');
            self.lines += 1;
        }
        let start = self.text.len() as u32;
        self.text.push_str(&block.text);
        self.lines += block.text.matches('\n').count();
        let lines: Vec<Span> = lines(&block.text).map(|line| line.shifted(start)).collect();
        self.page.fences.push(Fence { tag, lines });
    }
}

/// Whether an element holds the numbers of lines, as programs that colour code write them.
fn is_of_numbers(tag: &StartTag<usize>) -> bool {
    const NUMBERS: [&str; 5] = ["ln", "lineno", "linenos", "linenodiv", "line-numbers"];
    let class = tag.attributes.get(&b"class"[..]);
    let class = class
        .map(|class| String::from_utf8_lossy(class).into_owned())
        .unwrap_or_default();
    !tag.self_closing && class.split_whitespace().any(|word| NUMBERS.contains(&word))
}

/// The tag of an element that holds rigs, by its classes or the language that it names.
fn tag_of(tag: &StartTag<usize>) -> Option<FenceTag> {
    /// What programs write before the name of the language.
    const PREFIXES: [&str; 4] = ["highlight-source-", "highlight-", "language-", "lang-"];
    let value = |name: &str| {
        let value = tag.attributes.get(name.as_bytes())?;
        Some(String::from_utf8_lossy(value).into_owned())
    };
    let all: Vec<String> = ["class", "lang", "data-lang", "data-language"]
        .into_iter()
        .filter_map(value)
        .collect();
    let apart = |letter: char| letter.is_whitespace() || ",{}.".contains(letter);
    let bare = |word| {
        PREFIXES
            .iter()
            .find_map(|prefix| str::strip_prefix(word, prefix))
            .unwrap_or(word)
    };
    let words = all.iter().flat_map(|value| value.split(apart)).map(bare);
    FenceTag::of_classes(words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_of_several_programs_on_their_lines() {
        for html in [
            "<p>A</p>\n<pre><code class=\"language-rig\">rig a\n  note &quot;b &amp; c&quot;\n</code></pre>\n",
            "<p>A</p>\n<pre class=\"rig\"><code>rig a\n  note \"b &amp; c\"\n</code></pre>",
            "<p>A</p>\n<div class=\"highlight-rig notranslate\"><div class=\"highlight\"><pre><span></span>rig a\n  <span>note</span> \"b &#38; c\"\n</pre></div></div>",
            "<p>A</p>\n<div class=\"highlight-rig\"><table><td class=\"linenos\"><pre>1 2</pre></td><td><pre><span class=\"ln\">1 </span>rig a\n<span class=\"ln\">2 </span>  note \"b &amp; c\"\n</pre></td></table></div>",
            "<!-- a --><pre>x</pre>\n<pre lang=\"rig\">rig a\n  note \"b & c\"</pre>",
        ] {
            let (text, page) = published(html);
            assert_eq!(text.trim_end(), "\nrig a\n  note \"b & c\"".trim_end(), "{html}");
            assert_eq!(page.fences.len(), 1);
            assert_eq!(page.fences[0].lines[1].of(&text), "  note \"b & c\"");
        }
    }

    #[test]
    fn tags_and_what_is_none() {
        let (_, page) =
            published("<pre class=\"rig alone\">rig a</pre><pre>rig b</pre><code class=\"rig\">rig c</code>");
        let tags: Vec<FenceTag> = page.fences.iter().map(|fence| fence.tag).collect();
        assert_eq!(tags, [FenceTag::Alone]);
        let (_, page) = published("<script>\"<pre class='rig'>rig a</pre>\"</script>");
        assert!(page.fences.is_empty());
    }
}
