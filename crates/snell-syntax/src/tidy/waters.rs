//! The water of a rig on one line, where its author told it on several: `depth 2 ft`, `speed 1 ft/s`, `bed gravel`.

use super::line::Laid;
use super::row::{Role, Row};
use crate::parse::{Entry, Parsed};
use crate::tree::{Expr, File, Form, Line, Plain, SingleKind};
use crate::vocabulary::Joint;
use snell_units::Dimension;
use std::collections::BTreeMap;

/// Puts the lines of each water together in the first of them. Says which rows are left over.
pub(super) fn put_together(file: &File, rows: &[Row], laid: &mut [Option<Laid<'_>>]) -> Vec<bool> {
    let mut gone = vec![false; rows.len()];
    let mut waters: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, row) in rows.iter().enumerate() {
        if let Role::Body(block, line) = row.role
            && water(&file.blocks[block].body[line]).is_some()
        {
            waters.entry(block).or_default().push(at);
        }
    }
    waters.retain(|block, told| told.len() > 1 && !file.blocks[*block].body.iter().any(names_a_water));
    for told in waters.into_values() {
        let lines: Vec<&Line> = told
            .iter()
            .filter_map(|at| match rows[*at].role {
                Role::Body(block, line) => Some(&file.blocks[block].body[line]),
                Role::Blank | Role::Comment { .. } | Role::Kept | Role::Use(_) | Role::Head(_) => None,
            })
            .collect();
        let is_own = lines.iter().any(|line| line.reading.is_some());
        let stand_alone = told.iter().all(|at| rows[*at].next.is_none());
        if !is_own || !stand_alone || !are_apart(&lines) {
            continue;
        }
        let whole: Option<Vec<&Laid<'_>>> = told.iter().map(|at| laid[*at].as_ref()).collect();
        if let Some(together) = whole.as_deref().and_then(joined) {
            for at in &told[1..] {
                gone[*at] = true;
                laid[*at] = None;
            }
            laid[told[0]] = Some(together);
        }
    }
    gone
}

/// A line that tells of the water without a name for it.
fn water(line: &Line) -> Option<&Plain> {
    of_water(line).filter(|plain| !is_named(plain))
}

/// Beside one, each line that tells of the water says it a second time.
fn names_a_water(line: &Line) -> bool {
    of_water(line).is_some_and(is_named)
}

fn of_water(line: &Line) -> Option<&Plain> {
    match &*line.form {
        Form::Plain(plain) => (&*plain.key.folded == "water").then_some(plain),
        Form::Use(_) | Form::Block(_) | Form::Change(_) | Form::Bind(_) | Form::Claim(_) => None,
    }
}

fn is_named(water: &Plain) -> bool {
    water.items.iter().any(|item| item.path().is_some())
}

/// Whether no line says what another says: of values before the joining words one line has all.
fn are_apart(lines: &[&Line]) -> bool {
    let plain = || lines.iter().filter_map(|line| water(line));
    let clauses = |joint: Joint| {
        plain()
            .flat_map(|plain| &plain.clauses)
            .filter(|clause| clause.joint == joint)
            .count()
    };
    let tells_warmth = |plain: &&&Plain| plain.items.iter().any(is_temperature);
    let told = |warmth: bool| {
        let told: Vec<&Plain> = plain().filter(|plain| !plain.items.is_empty()).collect();
        told.iter().filter(|plain| tells_warmth(plain) == warmth).count()
    };
    let texts = plain().filter(|plain| plain.text.is_some()).count()
        + plain()
            .flat_map(|plain| &plain.clauses)
            .filter(|clause| clause.text.is_some())
            .count();
    texts == 0 && told(true) < 2 && told(false) < 2 && clauses(Joint::At) < 2 && clauses(Joint::Over) < 2
}

fn is_temperature(item: &Expr) -> bool {
    let Some(SingleKind::Number(_, Some(unit))) = item.single().map(|single| &single.kind) else {
        return false;
    };
    snell_units::known(&unit.plain).is_some_and(|unit| unit.dimension == Dimension::TEMPERATURE)
}

/// One line of several; nothing where it would be none.
fn joined<'a>(told: &[&Laid<'a>]) -> Option<Laid<'a>> {
    let first = told.first()?;
    let rests = || told.iter().map(|laid| &*laid.rest);
    let values: Vec<&str> = told
        .iter()
        .map(|laid| &*laid.values)
        .filter(|values| !values.is_empty())
        .collect();
    let at = rests().filter(|rest| rest.starts_with("at "));
    let over = rests().filter(|rest| rest.starts_with("over "));
    let rest: Vec<&str> = at.chain(over).collect();
    let comments: Vec<&str> = told
        .iter()
        .filter_map(|laid| laid.comment.as_deref())
        .map(|comment| comment.trim_start_matches('/').trim())
        .collect();
    let together = Laid {
        key: first.key.clone(),
        values: values.join(" "),
        rest: rest.join(" "),
        comment: (!comments.is_empty()).then(|| format!("// {}", comments.join("; ")).into()),
        is_section: false,
        entry: Entry::Body,
        reworded: false,
        strict: Some(""),
    };
    let is_whole = rests().filter(|rest| !rest.is_empty()).count() == rest.len();
    let mut parsed = Parsed::default();
    parsed.read(
        Entry::Body,
        &format!("water {} {}", together.values, together.rest),
    );
    (parsed.odd.is_none() && is_whole).then_some(together)
}
