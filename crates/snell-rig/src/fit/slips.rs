//! What to say where a value does not fit, and the way out.

use super::given::Given;
use super::run::{Accept, Run};
use super::shape::{Shape, shape};
use crate::keywords::{ClauseRow, Need, PartKind, Slot, Take};
use crate::literal::Literal;
use crate::names;
use crate::project::LineRef;
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{Clause, Expr, ExprKind, Form, Joint, Link, Number, Operator, Single, Text};
use snell_text::{Place, Span};
use snell_units::nearest;
use std::sync::Arc;

type Found = Box<Finding>;

fn at_end(line: LineRef<'_>, span: Span) -> Place {
    line.place(Span::empty(span.end))
}

pub(super) fn unit_missing(run: &Run<'_, '_>, expr: &Expr, take: Take) -> Found {
    unit_left_out_at(run, expr.span, take)
}

/// No unit stands behind the number at `span`.
fn unit_left_out_at(run: &Run<'_, '_>, span: Span, take: Take) -> Found {
    let written = run.line.written(span);
    let fitting = if take == Take::Turns {
        vec!["turns"]
    } else if take == Take::LineSize {
        vec!["X", "mm", "in"]
    } else if matches!(take, Take::Diameter | Take::BeadSize) {
        vec!["mm", "in"]
    } else {
        take.dimension().map(snell_units::fitting).unwrap_or_default()
    };
    let named: Vec<String> = fitting.iter().take(5).map(|unit| format!("`{unit}`")).collect();
    let mut finding = Finding::fault(
        Code::UnitMissing,
        run.line.place(span),
        format!("`{written}` has no unit"),
    )
    .here(format!("{} goes here", take.told()))
    .help(format!("units that fit: {}", named.join(", ")));
    for unit in fitting.iter().take(2) {
        let glue = if *unit == "X" { "" } else { " " };
        let put = format!("{glue}{unit}");
        let at = at_end(run.line, span);
        finding = finding.fix(Fix::offered(format!("write `{written}{put}`"), at, put));
    }
    Box::new(finding)
}

pub(super) fn mark_missing(run: &Run<'_, '_>, expr: &Expr, take: Take) -> Found {
    let written = run.written(expr);
    let at = run.line.place(Span::empty(expr.span.start));
    Box::new(
        Finding::fault(
            Code::SizeMarkMissing,
            run.place(expr),
            format!("`{written}` is a bare number where {} belongs", take.told()),
        )
        .help(format!("write `#{written}`"))
        .fix(Fix::sure(format!("write `#{written}`"), at, "#")),
    )
}

pub(super) fn unit_unknown(run: &Run<'_, '_>, expr: &Expr, take: Take, word: &str, span: Span) -> Found {
    let place = run.line.place(span);
    let finding = Finding::fault(Code::UnitUnknown, place, format!("there is no unit `{word}`"));
    if let Some(stuff) = glued_size(run, expr, word) {
        let at = run.line.place(Span::empty(span.start + 1));
        return Box::new(
            finding
                .help(format!("a size is followed by a space: `{stuff}`"))
                .fix(Fix::sure(format!("write `{stuff}`"), at, " ")),
        );
    }
    if is_known(run, &word.to_lowercase()) {
        return unit_left_out(run, expr, take);
    }
    // A unit that fits here is meant before one that only looks more alike.
    let fitting = take.dimension().map(snell_units::fitting).unwrap_or_default();
    let near = nearest(word, fitting)
        .map(str::to_owned)
        .or_else(|| match snell_units::resolve(word) {
            Err(snell_units::UnitFault::Unknown { nearest, .. }) => nearest,
            _ => None,
        });
    Box::new(match near {
        Some(near) => finding
            .here(format!("did you mean `{near}`?"))
            .help(format!("`snell why {near}` tells what it is"))
            .fix(Fix::offered(format!("write `{near}`"), place, near)),
        None => finding.help(format!("{} goes here", take.told())),
    })
}

/// `2.8 tungsten`: the word behind the number is no unit but the name that comes next.
fn unit_left_out(run: &Run<'_, '_>, expr: &Expr, take: Take) -> Found {
    let number = expr.single().and_then(Single::number);
    unit_left_out_at(run, number.map_or(expr.span, |number| number.span), take)
}

/// `6Xfluoro` as it was meant: `6X fluoro`.
fn glued_size(run: &Run<'_, '_>, expr: &Expr, word: &str) -> Option<String> {
    let rest = word.strip_prefix(['x', 'X'])?;
    let number = expr.single()?.number()?;
    Some(format!("{}X {rest}", run.line.written(number.span)))
}

/// `6 X fluoro`, which reads as six times something.
pub(super) fn spaced_size(run: &Run<'_, '_>, expr: &Expr) -> Option<Found> {
    let ExprKind::Product(first, rest) = &expr.kind else {
        return None;
    };
    let (operator, second) = rest.first()?;
    let Shape::Bare(number) = shape(first) else {
        return None;
    };
    let between = Span::new(first.span.end, second.span.start);
    let x = run
        .line
        .line
        .tokens_in(between)
        .find(|token| Link::of(run.line.written(token.span)) == Some(Link::X))?;
    let unvalued = matches!(shape(second), Shape::Word(word) if !(run.fitting.is_value)(&word.folded));
    if *operator != Operator::Times || !unvalued || number > 12.0 {
        return None;
    }
    let size = first.span.to(x.span);
    let (written, spaced) = (run.line.written(first.span), run.line.written(size));
    let gap = run.line.place(between);
    Some(Box::new(
        Finding::fault(
            Code::SizeSpaced,
            run.line.place(size),
            format!("`{spaced}` reads as {written} times something"),
        )
        .help(format!("a size is written without a space: `{written}X`"))
        .fix(Fix::sure(format!("write `{written}X`"), gap, "X ")),
    ))
}

/// What sits on a line and is larger than this, in metres, has another unit. Source: common practice, no source.
const LARGEST_ON_LINE: f64 = 0.1;

/// `ring 2 m`
pub(super) fn too_large(run: &Run<'_, '_>, expr: &Expr, take: Take) -> Option<Found> {
    let part = PartKind::of(run.row.key);
    let sits_on_line = matches!(part, Some(PartKind::Ring | PartKind::Swivel | PartKind::Float));
    if take != Take::Diameter || !sits_on_line {
        return None;
    }
    let literal = Literal::of(expr.single()?).ok()?;
    (literal.quantity.si > LARGEST_ON_LINE).then(|| {
        let written = run.line.written(expr.span);
        Box::new(
            Finding::fault(
                Code::UnitWrong,
                run.place(expr),
                format!("`{written}` is too large for what sits on a line"),
            )
            .help("look at its unit"),
        )
    })
}

/// A number like `1,200`.
pub fn doubtful(line: LineRef<'_>, number: Number) -> Found {
    let written = line.written(number.span);
    let place = line.place(number.span);
    let (joined, point) = (written.replace(',', ""), written.replace(',', "."));
    Box::new(
        Finding::fault(
            Code::NumberDoubtful,
            place,
            format!("`{written}` may mean {joined} or {point}"),
        )
        .help(format!("write `{joined}` or `{point}`"))
        .fix(Fix::offered(format!("write `{joined}`"), place, joined))
        .fix(Fix::offered(format!("write `{point}`"), place, point)),
    )
}

/// An X size that the formula does not reach.
pub fn too_fine(line: LineRef<'_>, span: Span) -> Found {
    let written = line.written(span);
    Box::new(
        Finding::fault(
            Code::SizeTooFine,
            line.place(span),
            format!("`{written}` has no agreed diameter"),
        )
        .here("from 9X on labels differ")
        .help("write the diameter as measured, such as `0.06 mm`"),
    )
}

pub(super) fn spread_misplaced(run: &Run<'_, '_>, expr: &Expr) -> Found {
    Box::new(
        Finding::fault(
            Code::SpreadMisplaced,
            run.place(expr),
            format!("`{}` is a spread where one value belongs", run.written(expr)),
        )
        .help("write the one value that is meant"),
    )
}

pub(super) fn value_missing(run: &Run<'_, '_>, slot: &Slot) -> Found {
    let key = run.joint.map_or(run.row.key, Joint::word);
    Box::new(
        Finding::fault(
            Code::ValueLacking,
            run.line.place(run.span),
            format!("`{key}` lacks {}", slot.take.told()),
        )
        .help(format!("the line reads `{}`", run.row.shape())),
    )
}

pub(super) fn clause_misplaced(given: &Given<'_>, clause: &Clause) -> Found {
    let word = clause.joint.word();
    Box::new(
        Finding::fault(
            Code::ClauseMisplaced,
            given.line.place(clause.span),
            format!("`{}` takes no `{word}`", given.row.key),
        )
        .help(format!("the line reads `{}`", given.row.shape())),
    )
}

pub(super) fn clause_twice(given: &Given<'_>, clause: &Clause) -> Found {
    let word = clause.joint.word();
    Box::new(
        Finding::fault(
            Code::ClauseTwice,
            given.line.place(clause.span),
            format!("`{word}` stands twice on this line"),
        )
        .help("keep one of them"),
    )
}

pub(super) fn clause_missing(given: &Given<'_>, row: &ClauseRow, span: Span) -> Found {
    let word = row.joint.word();
    Box::new(
        Finding::fault(
            Code::ValueLacking,
            given.line.place(span),
            format!("`{}` needs a `{word}`", given.row.key),
        )
        .help(format!("the line reads `{}`", given.row.shape())),
    )
}

pub(super) fn text_misplaced(given: &Given<'_>, text: Text) -> Found {
    Box::new(
        Finding::fault(
            Code::TextUnwanted,
            given.line.place(text.span),
            format!("`{}` takes no text", given.row.key),
        )
        .help("put it behind `//` as a comment, or on a `note` line"),
    )
}

pub(super) fn text_missing(given: &Given<'_>, span: Span) -> Found {
    Box::new(
        Finding::fault(
            Code::TextMissing,
            given.line.place(span),
            format!("`{}` needs a text in quotes", given.line.written(span)),
        )
        .help(format!("the line reads `{}`", given.row.shape())),
    )
}

/// A value that no place takes: the first of those that are left.
pub(super) fn left_over<'p>(run: &Run<'_, 'p>, items: &'p [Expr], shape: &Shape<'p>, next: usize) -> Found {
    let expr = &items[0];
    let written = run.written(expr);
    let expected: Vec<&Slot> = run.slots.iter().skip(next).collect();
    let help = format!("the line reads `{}`", run.row.shape());
    let other_unit = expected
        .first()
        .and_then(|slot| unit_wrong(run, expr, slot, shape));
    let needed = expected.first().is_some_and(|slot| slot.need == Need::Must);
    if let (Some(finding), true) = (&other_unit, needed) {
        return finding.clone();
    }
    let joining = joining_word_missing(run, items, shape, next);
    // A length may be left out, and yet it is what goes there, unless a joining word makes sense of the line.
    let mended = joining.as_ref().is_some_and(|finding| !finding.fixes.is_empty());
    if let Some(finding) = other_unit.filter(|_| !mended).or(joining) {
        return finding;
    }
    if let Shape::Word(word) = shape {
        return word_unknown(run, expr, &word.folded);
    }
    if let Shape::NoUnit { word, span } = shape {
        return unit_unknown(run, expr, Take::Any, word, *span);
    }
    if run.passed(expr, shape, next) {
        let message = format!("`{written}` stands too late, or is said twice");
        return Box::new(Finding::fault(Code::ValueLate, run.place(expr), message).help(help));
    }
    let message = format!("`{written}` has no place here");
    Box::new(Finding::fault(Code::ValueMisplaced, run.place(expr), message).help(help))
}

/// A value of another dimension than what goes there: what is needed, or a part's length.
fn unit_wrong(run: &Run<'_, '_>, expr: &Expr, slot: &Slot, shape: &Shape<'_>) -> Option<Found> {
    let Shape::Quantity { dimension, .. } = shape else {
        return None;
    };
    let wanted = slot.take.dimension().filter(|wanted| wanted != dimension)?;
    if slot.need != Need::Must && slot.take != Take::PartLength {
        return None;
    }
    let written = run.written(expr);
    let message = format!(
        "`{written}` is {} where {} is needed",
        dimension.name(),
        wanted.name()
    );
    let finding = Finding::fault(Code::UnitWrong, run.place(expr), message);
    let finding = finding.here(format!("{} goes here", slot.take.told()));
    Some(Box::new(
        finding.help(format!("the line reads `{}`", run.row.shape())),
    ))
}

/// A value that would fit behind a joining word which is not there: `tippet 3 ft 6X`.
fn joining_word_missing<'p>(
    run: &Run<'_, 'p>,
    items: &'p [Expr],
    shape: &Shape<'p>,
    next: usize,
) -> Option<Found> {
    if run.joint.is_some() {
        return None;
    }
    let expr = &items[0];
    let fits = |row: &&ClauseRow| {
        let mut slots = row
            .takes
            .iter()
            .filter(|slot| !matches!(slot.take, Take::Label | Take::Any | Take::Path));
        slots.any(|slot| matches!(run.trial(slot.take, expr, shape), Accept::Yes))
    };
    let row = run.row.clauses.iter().find(fits)?;
    let word = row.joint.word();
    let written = run.written(expr);
    let at = run.line.place(Span::empty(expr.span.start));
    let finding = Finding::fault(
        Code::JoiningWordMissing,
        run.place(expr),
        format!("`{word}` is missing before `{written}`"),
    )
    .help(format!("the line reads `{}`", run.row.shape()));
    // It is offered only where all that is left would then be read.
    let behind = Run {
        joint: Some(row.joint),
        slots: row.takes,
        ..*run
    };
    let is_plain = matches!(*run.line.line.form, Form::Plain(_));
    let stands = |joint: Joint| joint == row.joint || is_plain && run.row.clause(joint).is_none();
    let mut said = run.line.line.said_tokens().iter();
    let in_the_way = said.any(|token| Joint::of(run.line.written(token.span)).is_some_and(stands));
    // `50 cm 50 cm` may be said twice.
    let twice = run.passed(expr, shape, next);
    let reads = !in_the_way && !twice && behind.items(items, &mut Vec::new()).is_ok();
    Some(Box::new(match reads {
        true => finding.fix(Fix::sure(format!("put in `{word}`"), at, format!("{word} "))),
        false => finding,
    }))
}

fn word_unknown(run: &Run<'_, '_>, expr: &Expr, word: &str) -> Found {
    let known = candidates(run, word);
    let place = run.place(expr);
    let told = expected(run.slots);
    let written = run.written(expr);
    let finding = Finding::fault(
        Code::NameUnknown,
        place,
        format!("nothing here is called `{written}`"),
    );
    Box::new(match nearest(word, known.iter().map(String::as_str)) {
        Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
            format!("write `{near}`"),
            place,
            near,
        )),
        None if told.is_empty() => finding.help(format!("the line reads `{}`", run.row.shape())),
        None => finding.help(format!("what goes here: {told}")),
    })
}

/// What fits some places, in a line that an editor has room for: examples only where there are few.
fn expected(slots: &[Slot]) -> String {
    if slots.len() <= 2 {
        let told: Vec<String> = slots.iter().map(|slot| slot.take.told()).collect();
        return told.join("; or ");
    }
    let mut told: Vec<String> = slots.iter().map(|slot| slot.take.told_in_short()).collect();
    let last = told.pop().unwrap_or_default();
    format!("{} or {last}", told.join(", "))
}

/// What a word in these places may be meant to be: of each place's names the nearest, and every word of its table.
fn candidates(run: &Run<'_, '_>, word: &str) -> Vec<String> {
    let mut known = Vec::new();
    for slot in run.slots {
        if let Take::Name(kind) = slot.take {
            let near = run.fitting.names.nearest(run.line.file, kind, word);
            known.extend(near.map(|near| near.to_string()));
        } else if let Take::Word(words) = slot.take {
            known.extend(words.iter().map(|named| named.word.to_owned()));
        }
    }
    known
}

/// Whether a word is a name, or one of a table, that goes in these places.
fn is_known(run: &Run<'_, '_>, word: &str) -> bool {
    let found = |kind| run.fitting.names.find(run.line.file, kind, &Arc::from(word));
    run.slots.iter().any(|slot| {
        matches!(slot.take, Take::Name(kind) if found(kind) != names::Found::Missing)
            || matches!(slot.take, Take::Word(words) if words.iter().any(|named| named.word == word))
    })
}

impl<'p> Run<'_, 'p> {
    /// Whether a value would fit a place before `next`.
    fn passed(&self, expr: &'p Expr, shape: &Shape<'p>, next: usize) -> bool {
        let mut before = self.slots.iter().take(next);
        before.any(|slot| matches!(self.trial(slot.take, expr, shape), Accept::Yes))
    }

    /// Whether a value would fit another place of the line.
    pub(super) fn trial(&self, take: Take, expr: &'p Expr, shape: &Shape<'p>) -> Accept {
        match (take, shape) {
            (Take::Colour | Take::Any, _) | (_, Shape::Computed) => Accept::No,
            _ => self.accept(take, expr, shape, &[]),
        }
    }
}
