//! Which word of a line is what, for colouring: keys, names, numbers, units,
//! texts and comments.

use super::walk::{ASKED, blocks_of, each_expr, each_within, lines_of};
use snell_analysis::Notebook;
use snell_rig::project::LineRef;
use snell_syntax::{Condition, ExprKind, Form, Joint, Single, SingleKind};
use snell_text::Span;

/// What a word is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub enum Paint {
    /// A word that opens a line or joins.
    Keyword,
    /// The word that opens a block.
    Opener,
    /// A name where it is given.
    Given,
    /// A name where it is used.
    Name,
    /// A number or size.
    Number,
    /// A unit.
    Unit,
    /// A text in quotes.
    Text,
    /// A comment.
    Comment,
}

impl Paint {
    /// Every one, in the order of their numbers.
    pub const ALL: [Self; 8] = [
        Self::Keyword,
        Self::Opener,
        Self::Given,
        Self::Name,
        Self::Number,
        Self::Unit,
        Self::Text,
        Self::Comment,
    ];
}

/// A word and what it is. None overlaps another.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub struct Painted {
    /// Where, on one line of the asked text.
    pub place: Span,
    /// What it is.
    pub paint: Paint,
}

/// Every painted word of the asked text, in order.
pub fn tokens(notebook: &Notebook) -> Vec<Painted> {
    let Some(document) = notebook.document(ASKED) else {
        return Vec::new();
    };
    let project = notebook.project();
    let mut found = Vec::new();
    for line in blocks_of(project, ASKED).flat_map(lines_of) {
        of_line(line, &mut found);
    }
    for file in project.files().filter(|file| !project.ships(*file)) {
        let source = project.source(file);
        for used in source.file.uses.iter().filter(|_| source.file.text == ASKED) {
            let key = Span::empty(used.line.span.start).to(Span::empty(used.line.span.start + 3));
            found.push(painted(key.shifted(used.line.offset), Paint::Keyword));
            found.push(painted(used.path.span.shifted(used.line.offset), Paint::Text));
        }
    }
    for line in document.passages().into_iter().flatten() {
        found.extend(comment(&document.text, line));
    }
    found.sort();
    let mut end = 0;
    found.retain(|one| {
        let apart = one.place.start >= end && !one.place.is_empty();
        if apart {
            end = one.place.end;
        }
        apart
    });
    found
}

fn painted(place: Span, paint: Paint) -> Painted {
    Painted { place, paint }
}

fn of_line(line: LineRef<'_>, found: &mut Vec<Painted>) {
    let mut push = |span: Span, paint| found.push(painted(line.place(span).span, paint));
    let form = &*line.line.form;
    match form {
        Form::Use(text) => push(text.span, Paint::Text),
        Form::Block(head) => {
            push(first_word(line), Paint::Opener);
            push(head.name.span, Paint::Given);
            if let Some(base) = &head.base {
                push(joining(line, head.name.span, base.span), Paint::Keyword);
                push(base.span, Paint::Name);
            }
            if let Some(title) = head.title {
                push(title.span, Paint::Text);
            }
        }
        Form::Change(change) => {
            push(first_word(line), Paint::Keyword);
            push(change.target.span, Paint::Name);
            push(word_behind(line, change.target.span), Paint::Keyword);
            for clause in &change.clauses {
                push(clause.span, Paint::Keyword);
            }
        }
        Form::Bind(bind) => {
            push(bind.key.span, Paint::Keyword);
            push(bind.name.span, Paint::Given);
        }
        Form::Claim(claim) => {
            push(claim.key.span, Paint::Keyword);
            push(condition_word(line, claim.condition_span), Paint::Keyword);
            match &claim.condition {
                Condition::Between(low, high) => push(joining(line, low.span, high.span), Paint::Keyword),
                Condition::Is { words, .. } => {
                    for pair in words.windows(2) {
                        push(joining(line, pair[0].span, pair[1].span), Paint::Keyword);
                    }
                }
                Condition::Bound(..) => {}
            }
        }
        Form::Plain(plain) => {
            push(plain.key.span, Paint::Keyword);
            for clause in &plain.clauses {
                push(clause.span, Paint::Keyword);
                if let Some(text) = clause.text {
                    push(text.span, Paint::Text);
                }
            }
            if let Some(text) = plain.text {
                push(text.span, Paint::Text);
            }
        }
    }
    each_expr(form, &mut |joint, expr| {
        each_within(expr, &mut |inner| match &inner.kind {
            ExprKind::Single(one) => single(one, &mut push),
            ExprKind::Spread(low, high) => {
                single(low, &mut push);
                push(joining(line, low.span, high.span), Paint::Keyword);
                single(high, &mut push);
            }
            ExprKind::Path(words) => {
                let paint = if joint == Some(Joint::As) {
                    Paint::Given
                } else {
                    Paint::Name
                };
                words.iter().for_each(|word| push(word.span, paint));
            }
            ExprKind::Call(word, _) => push(word.span, Paint::Keyword),
            _ => {}
        });
    });
}

fn single(single: &Single, push: &mut dyn FnMut(Span, Paint)) {
    match &single.kind {
        SingleKind::Number(number, Some(unit)) => {
            push(number.span, Paint::Number);
            push(unit.span, Paint::Unit);
        }
        _ => push(single.span, Paint::Number),
    }
}

fn first_word(line: LineRef<'_>) -> Span {
    let written = line.written(line.line.span);
    let length = written.find(char::is_whitespace).unwrap_or(written.len());
    let start = line.line.span.start;
    Span::new(start, start + length as u32)
}

/// What a condition opens with, up to its first value: `between`, `at least`, `is not`.
fn condition_word(line: LineRef<'_>, condition: Span) -> Span {
    let written = line.written(condition).to_lowercase();
    let openers = ["is not", "is", "between", "about", "over", "under"];
    let known = openers.into_iter().find(|word| written.starts_with(word));
    let length = known.map_or_else(
        || written.split_whitespace().take(2).map(str::len).sum::<usize>() + 1,
        str::len,
    );
    Span::new(
        condition.start,
        (condition.start + length as u32).min(condition.end),
    )
}

/// The word that joins what stands at two spans: `from`, `and`, `or`.
fn joining(line: LineRef<'_>, first: Span, second: Span) -> Span {
    let written = line.written(Span::new(first.end, second.start));
    let start = written.find(char::is_alphabetic).unwrap_or(written.len());
    let length = written[start..]
        .find(|letter: char| !letter.is_alphabetic())
        .unwrap_or(written.len() - start);
    let start = first.end + start as u32;
    Span::new(start, start + length as u32)
}

/// The word behind a span: the `to` of `change upper to 54 in`.
fn word_behind(line: LineRef<'_>, span: Span) -> Span {
    joining(line, span, Span::empty(line.line.span.end))
}

/// A line's comment. A `//` within quotes is none.
fn comment(text: &str, line: Span) -> Option<Painted> {
    let written = line.of(text);
    let mut from = 0;
    while let Some(at) = written[from..].find("//").map(|at| from + at) {
        let quotes = written[..at]
            .chars()
            .filter(|c| matches!(c, '"' | '“' | '”'))
            .count();
        let inches = written.as_bytes()[..at]
            .windows(2)
            .filter(|pair| pair[0].is_ascii_digit() && pair[1] == b'"')
            .count();
        if (quotes - inches.min(quotes)) % 2 == 0 {
            return Some(painted(
                Span::new(line.start + at as u32, line.end),
                Paint::Comment,
            ));
        }
        from = at + 2;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use snell_analysis::{Kind, LocalDisk};
    use std::path::Path;

    #[test]
    fn words_that_join_are_painted_as_what_opens_a_line_is() {
        let text = "rig a\n  tippet 30 in as upper\n  expect total between (1 ft + 2 in) and 40 in\n\nrig b from a\n  change upper to 20 in\n";
        let book = Notebook::of_text(Path::new("a.rig"), Kind::Rig, text.to_owned(), &LocalDisk);
        let painted = tokens(&book);
        let keywords = painted.iter().filter(|one| one.paint == Paint::Keyword);
        let words: Vec<&str> = keywords.map(|one| one.place.of(text)).collect();
        assert_eq!(
            words,
            ["tippet", "as", "expect", "between", "and", "from", "change", "to"]
        );
    }
}
