//! Whether two writings of a line say the same: the same words, values, units
//! and texts in the same order, wherever they stand.

use crate::parse::{Entry, Rule, Token, parse};
use crate::words::{Words, fold};

/// Whether `plain` says what `written` says. No line that cannot be read says
/// the same as another.
pub(super) fn says_the_same(entry: Entry, written: &str, plain: &str) -> bool {
    said(entry, written).is_some_and(|said_before| Some(said_before) == said(entry, plain))
}

/// What a line says, one entry a leaf.
fn said(entry: Entry, line: &str) -> Option<Vec<(Rule, String)>> {
    let mut tokens = Vec::new();
    parse(entry, line, &mut tokens).ok()?;
    let mut words = Words::default();
    // Values are compared as numbers, so that `½` and `1/2` are the same.
    crate::lower::lower(line, &tokens, &mut words).ok()?;
    Some(tokens.iter().map(|token| leaf(line, *token)).collect())
}

fn leaf(line: &str, token: Token) -> (Rule, String) {
    let written = &line[token.start as usize..token.end as usize];
    let said = match token.rule {
        Rule::number => crate::lower::value(written).to_string(),
        Rule::unit | Rule::mark => unit(written),
        Rule::day => super::quantity::plain_day(written),
        Rule::text => inner(written).to_owned(),
        Rule::sign | Rule::star => operator(written).to_owned(),
        Rule::name | Rule::part | Rule::key | Rule::size | Rule::count => fold(written),
        Rule::joint | Rule::kind | Rule::bind_key | Rule::claim_key => fold(written),
        Rule::bound => fold(written).split_whitespace().collect(),
        // The others only hold leaves.
        _ => String::new(),
    };
    let rule = match token.rule {
        Rule::mark => Rule::unit,
        Rule::star => Rule::sign,
        rule => rule,
    };
    (rule, said)
}

fn unit(written: &str) -> String {
    let plain = Words::default().unit(written);
    snell_units::resolve(&plain).map_or_else(|_| plain.to_string(), |resolved| resolved.plain.into_owned())
}

fn inner(text: &str) -> &str {
    let mut characters = text.chars();
    characters.next();
    characters.next_back();
    characters.as_str()
}

fn operator(written: &str) -> &'static str {
    match written {
        "+" => "+",
        "-" | "–" | "—" | "−" => "-",
        "/" | "÷" => "/",
        _ => "times",
    }
}
