//! A block made `from` another: its line of bases, and whose lines stand.

use crate::faults::Faults;
use crate::keywords::{self, Key, Often, OwnKey, RigKey};
use crate::names::{Found, Names};
use crate::project::{BlockRef, LineRef};
use rustc_hash::{FxHashMap, FxHashSet};
use snell_finding::{Code, Finding, Limit};
use snell_syntax::{BlockKind, Form};
use snell_text::Place;

/// The longest line of bases: far beyond a season, and a bound for hostile texts.
const LONGEST: usize = Limit::Bases.count();

/// A block's bases, outermost first, and last the block itself.
///
/// # Errors
/// The base cannot be had; the finding, unless another block reports it.
pub fn lineage<'p>(
    names: &Names<'p>,
    block: BlockRef<'p>,
) -> Result<Vec<BlockRef<'p>>, Option<Box<Finding>>> {
    let mut bases = vec![block];
    let mut at = block;
    while let Some((head, line)) = at.head().zip(at.head_line()) {
        let Some(base) = &head.base else { break };
        let found = if base.folded == head.name.folded {
            names.find_next_out(at)
        } else {
            names.find(at.id.file, head.kind, &base.folded)
        };
        // A fault of a base is the base's to report.
        let own = |finding: Box<Finding>| (at.id == block.id).then_some(finding);
        let next = match found {
            Found::Block(id) => names.project.block(id),
            Found::Missing => return Err(own(Box::new(names.unknown(line, head.kind, base)))),
            Found::Ambiguous(first, second) => {
                let place = line.place(base.span);
                return Err(own(names.ambiguous(line, place, head.kind, base, first, second)));
            }
        };
        if let Some(start) = bases.iter().position(|seen| seen.id == next.id) {
            return Err(circle(&bases[start..], block));
        }
        if bases.len() == LONGEST {
            return Err(Some(Box::new(too_long(block))));
        }
        bases.push(next);
        at = next;
    }
    bases.reverse();
    Ok(bases)
}

/// One fault for a circle, reported by its first member.
fn circle(members: &[BlockRef<'_>], asker: BlockRef<'_>) -> Option<Box<Finding>> {
    let first = members.iter().map(|member| member.id).min()?;
    if asker.id != first {
        return None;
    }
    let name = |block: &BlockRef<'_>| block.head().map_or("", |head| &*head.name.folded).to_owned();
    let names: Vec<String> = members
        .iter()
        .map(|member| format!("`{}`", name(member)))
        .collect();
    let message = match names.as_slice() {
        [one] => format!("{one} is made from itself"),
        _ => format!("{} are made from one another in a circle", names.join(" and ")),
    };
    let mut finding = Finding::fault(Code::FromLoop, asker.name_place(), message);
    for member in members.iter().filter(|member| member.id != asker.id) {
        finding = finding.label(member.name_place(), "a member of the circle");
    }
    Some(Box::new(finding.help("write one of them out, without `from`")))
}

fn too_long(block: BlockRef<'_>) -> Finding {
    let message = format!("more than {LONGEST} blocks are made from one another here");
    Finding::fault(Code::FromLong, block.name_place(), message).help("write one of them out, without `from`")
}

/// The word that opens a line, and where it stands.
pub fn line_key(line: LineRef<'_>) -> (&str, Place) {
    let of = |word: &snell_syntax::Word| line.place(word.span);
    match &*line.line.form {
        Form::Plain(plain) => (&plain.key.folded, of(&plain.key)),
        Form::Bind(bind) => (&bind.key.folded, of(&bind.key)),
        Form::Claim(claim) => (&claim.key.folded, of(&claim.key)),
        Form::Change(_) => ("change", line.whole()),
        Form::Use(_) => ("use", line.whole()),
        Form::Block(head) => (head.kind.word(), line.whole()),
    }
}

/// Whether a line edits a rig: `change`, `remove` or `add`.
pub fn is_edit(line: LineRef<'_>) -> bool {
    match &*line.line.form {
        Form::Change(_) => true,
        Form::Plain(plain) => matches!(RigKey::of(&plain.key.folded), Some(RigKey::Remove | RigKey::Add)),
        Form::Use(_) | Form::Block(_) | Form::Bind(_) | Form::Claim(_) => false,
    }
}

/// What a line is about: its key, and the name where it names something.
#[derive(PartialEq, Eq, Hash, Clone, Debug)]
pub(crate) struct Identity<'p> {
    pub(crate) key: &'p str,
    pub(crate) name: Option<String>,
}

impl<'p> Identity<'p> {
    pub(crate) fn of(kind: BlockKind, line: LineRef<'p>) -> Self {
        let named = |key: &'p str, name: &str| Self {
            key,
            name: Some(name.to_lowercase()),
        };
        match &*line.line.form {
            Form::Bind(bind) => named(&bind.key.folded, &bind.name.folded),
            Form::Claim(claim) if OwnKey::of(&claim.key.folded) == Some(OwnKey::Expect) => {
                named(&claim.key.folded, line.written(claim.subject.span))
            }
            Form::Plain(plain) if keywords::row(kind, &plain.key.folded).is_some_and(|row| row.names) => {
                match plain.items.first().filter(|item| item.path().is_some()) {
                    Some(item) => named(&plain.key.folded, line.written(item.span)),
                    None => Self {
                        key: &plain.key.folded,
                        name: None,
                    },
                }
            }
            Form::Use(_) | Form::Block(_) | Form::Change(_) | Form::Claim(_) | Form::Plain(_) => Self {
                key: line_key(line).0,
                name: None,
            },
        }
    }
}

/// The lines that stand: a derived block's own replace those of its bases with the same identity.
/// A line that stands twice in one block is a fault, reported by the last of the blocks.
pub fn merged<'p>(bases: &[BlockRef<'p>], faults: &Faults) -> Vec<LineRef<'p>> {
    let mut standing: Vec<(Identity<'p>, LineRef<'p>)> = Vec::new();
    let kind = |block: &BlockRef<'_>| block.head().map_or(BlockKind::Rig, |head| head.kind);
    for (depth, block) in bases.iter().enumerate() {
        let of = |line| (Identity::of(kind(block), line), line);
        let own: Vec<_> = block.lines().map(of).collect();
        if depth > 0 {
            let replaced: FxHashSet<_> = own.iter().map(|(identity, _)| identity.clone()).collect();
            standing.retain(|(identity, _)| !replaced.contains(identity));
        }
        if depth + 1 == bases.len() {
            report_twice(&own, kind(block), faults);
        }
        standing.extend(own);
    }
    standing.into_iter().map(|(_, line)| line).collect()
}

fn report_twice(own: &[(Identity<'_>, LineRef<'_>)], kind: BlockKind, faults: &Faults) {
    let mut firsts: FxHashMap<&Identity<'_>, LineRef<'_>> = FxHashMap::default();
    for (identity, line) in own {
        let first = *firsts.entry(identity).or_insert(*line);
        let once = match OwnKey::of(identity.key) {
            Some(OwnKey::Let | OwnKey::Limit) => true,
            Some(OwnKey::Expect | OwnKey::Change | OwnKey::When | OwnKey::Unless | OwnKey::Keep) => false,
            None => keywords::row(kind, identity.key).is_some_and(|row| row.often != Often::Many),
        };
        if once && first.whole() != line.whole() {
            let name = identity.name.as_deref().unwrap_or(identity.key);
            let message = format!("`{name}` stands twice in this {}", kind.word());
            let finding = Finding::fault(Code::LineTwice, line_key(*line).1, message);
            faults.report(finding.label(first.whole(), "the first").help("keep one of them"));
        }
    }
}
