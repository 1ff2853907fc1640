//! What a finding says: text with measures in braces.

use crate::scope::RuleScope;
use snell_finding::{Code, Finding};
use snell_rig::evaluate::evaluate;
use snell_rig::evaluation::{Meaning, Subjects};
use snell_rig::lack::Lack;
use snell_rig::measure::Get;
use snell_rig::project::LineRef;
use snell_rig::value::Value;
use snell_syntax::{Expr, Text, Word};
use snell_text::Span;
use snell_units::{Dimension, System};

/// A piece of a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Piece {
    /// Plain words.
    Words(String),
    /// A measure or a thing's name.
    Asked(Expr),
    /// Words for what lies under the lower limit, and for what lies over the upper: `{too near|too far}`.
    Either(String, String),
}

/// Cuts a text at its braces.
///
/// # Errors
/// What stands in braces cannot be read, or a brace is left open.
pub(crate) fn read(line: LineRef<'_>, text: Text) -> Result<Vec<Piece>, Box<Finding>> {
    let written = line.text(text);
    let mut pieces = Vec::new();
    let mut at = 0;
    while let Some(open) = written[at..].find('{').map(|open| at + open) {
        let start = text.inner.start + open as u32;
        let Some(length) = written[open..].find('}') else {
            return Err(broken(
                line,
                Span::new(start, start + 1),
                "this brace is left open",
            ));
        };
        let asked = &written[open + 1..open + length];
        if let Some((under, over)) = asked.split_once('|') {
            pieces.push(Piece::Words(written[at..open].to_owned()));
            pieces.push(Piece::Either(under.trim().to_owned(), over.trim().to_owned()));
            at = open + length + 1;
            continue;
        }
        let expr = snell_syntax::expression(asked, start + 1);
        let span = Span::new(start, start + length as u32 + 1);
        let expr = expr.ok_or_else(|| broken(line, span, "this cannot be read as a value"))?;
        pieces.push(Piece::Words(written[at..open].to_owned()));
        pieces.push(Piece::Asked(expr));
        at = open + length + 1;
    }
    pieces.push(Piece::Words(written[at..].to_owned()));
    Ok(pieces)
}

fn broken(line: LineRef<'_>, span: Span, why: &str) -> Box<Finding> {
    let help = "a measure stands in braces: `{gap.length}`";
    Box::new(Finding::fault(Code::SayBroken, line.place(span), why).help(help))
}

/// The text for one thing, and the values in it. What was found and what it was held against tell on which side it lies.
///
/// # Errors
/// A value in it cannot be told.
pub(crate) fn fill(
    scope: &RuleScope<'_, '_, '_>,
    line: LineRef<'_>,
    pieces: &[Piece],
    held: &[Value],
) -> Result<(String, Vec<Value>), Lack> {
    let mut said = String::new();
    let mut values = Vec::new();
    for piece in pieces {
        match piece {
            Piece::Words(words) => said.push_str(words),
            Piece::Either(under, over) => said.push_str(if is_under(held) { under } else { over }),
            Piece::Asked(expr) => said.push_str(&asked(scope, line, expr, &mut values)?),
        }
    }
    Ok((said, values))
}

/// Whether what was found lies under every limit.
fn is_under(held: &[Value]) -> bool {
    match held {
        [found, limits @ ..] => limits.iter().all(|limit| found.si() < limit.si()),
        [] => false,
    }
}

fn asked(
    scope: &RuleScope<'_, '_, '_>,
    line: LineRef<'_>,
    expr: &Expr,
    values: &mut Vec<Value>,
) -> Result<String, Lack> {
    let mut coarse = is_computed_limit(scope, expr);
    if let Some(path) = expr.path() {
        match scope.meaning(line, path)? {
            Meaning::Thing(thing) => return Ok(scope.evaluation.rig.name_of(thing)),
            Meaning::Measure(measure, thing) => {
                if let Get::Words(_) = measure.get {
                    return Ok(measure.words(scope.evaluation, thing).join(" "));
                }
                coarse = measure.is_estimate(scope.evaluation, thing);
            }
            Meaning::Value(_) => {}
        }
    }
    let mut value = evaluate(scope, line, expr)?;
    if is_figure(scope, expr) {
        value = as_the_author_writes(scope, value);
    }
    let told = if coarse {
        told_coarsely(scope, &value)
    } else {
        value.clone()
    };
    values.push(value);
    Ok(scope.evaluation.written(&told))
}

/// Whether an expression is nothing but a figure that the rule works out, and does not just state.
fn is_computed_limit(scope: &RuleScope<'_, '_, '_>, expr: &Expr) -> bool {
    let computed = |path: &[Word]| {
        let mut limits = scope.limits.iter();
        limits.any(|limit| limit.name == &*path[0].folded && !limit.is_stated())
    };
    expr.path().is_some_and(computed)
}

/// A length with no more digits than one that is reckoned earns: to half an inch below two feet, an inch below six, three
/// inches above; to a centimetre below a metre, five above. What is shorter than a hand is told as it is, and so is all else.
fn told_coarsely(scope: &RuleScope<'_, '_, '_>, value: &Value) -> Value {
    const HAND: f64 = 0.1;
    const INCH: f64 = 0.0254;
    let length = value.si();
    if value.dimension() != Dimension::LENGTH || value.ends.is_some() || length < HAND {
        return value.clone();
    }
    let step = match scope.evaluation.system_of(value) {
        System::Imperial if length < 24.0 * INCH => INCH / 2.0,
        System::Imperial if length < 72.0 * INCH => INCH,
        System::Imperial => 3.0 * INCH,
        System::Metric if length < 1.0 => 0.01,
        System::Metric => 0.05,
    };
    value
        .clone()
        .with((length / step).round() * step, Dimension::LENGTH)
}

/// Whether an expression is nothing but one of the rule's figures.
fn is_figure(scope: &RuleScope<'_, '_, '_>, expr: &Expr) -> bool {
    let is = |path: &[Word]| scope.limits.iter().any(|limit| limit.name == &*path[0].folded);
    expr.path().is_some_and(is)
}

/// Lengths up to this are told in millimetres to everybody, as beads and rings are sold, in metres.
/// Source: common practice, no source.
const IN_MILLIMETRES: f64 = 0.02;

/// A figure of a rule in the units of the rig that it is told of: a rulebook that counts in inches is read by people
/// who count in centimetres.
fn as_the_author_writes(scope: &RuleScope<'_, '_, '_>, mut value: Value) -> Value {
    let changes = match value.dimension() {
        Dimension::LENGTH => value.high() > IN_MILLIMETRES,
        dimension => [
            Dimension::SPEED,
            Dimension::SPEED_BY_DEPTH,
            Dimension::TEMPERATURE,
        ]
        .contains(&dimension),
    };
    let system = scope.evaluation.system();
    if changes && value.system.is_some_and(|own| own != system) {
        (value.unit, value.system) = (None, Some(system));
    }
    value
}
