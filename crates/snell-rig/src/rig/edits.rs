//! The parts of a rig: as written, or those of its base with its edits made.

use super::part::WrittenPart;
use crate::fit::{Fitting, Given, Values};
use crate::keywords::{Key, PartKind, RigKey};
use crate::project::{BlockRef, LineRef};
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{BlockKind, Change, Expr, Form, Joint, Plain, Word};
use snell_text::Span;

/// The parts of the last of some blocks, each made from the one before it. What is wrong with a base breaks a
/// rig made from it too; that both report it is mended where findings are collected.
pub(crate) fn parts<'p>(
    fitting: &Fitting<'_, 'p>,
    bases: &[BlockRef<'p>],
    broken: &mut bool,
) -> Vec<WrittenPart<'p>> {
    let mut parts: Vec<WrittenPart<'p>> = Vec::new();
    for block in bases {
        let mut edits = Edits {
            fitting,
            base: parts.into_iter().map(Standing::new).collect(),
            derived: block
                .head()
                .is_some_and(|head| head.base.is_some() || head.kind == BlockKind::Outing),
            edited: Vec::new(),
            own: Vec::new(),
            base_broken: *broken,
            broken: *broken || block.block.broken,
        };
        edits.take(*block);
        *broken = edits.broken;
        parts = edits.made();
    }
    parts
}

/// A part of the base, what happens to it, and what is put in behind it.
struct Standing<'p> {
    part: WrittenPart<'p>,
    removed: bool,
    behind: Vec<WrittenPart<'p>>,
}

impl<'p> Standing<'p> {
    fn new(part: WrittenPart<'p>) -> Self {
        Self {
            part,
            removed: false,
            behind: Vec::new(),
        }
    }
}

struct Edits<'a, 'f, 'p> {
    fitting: &'a Fitting<'f, 'p>,
    base: Vec<Standing<'p>>,
    derived: bool,
    /// Which parts of the base were changed or removed, and by which line.
    edited: Vec<(usize, LineRef<'p>)>,
    own: Vec<WrittenPart<'p>>,
    /// Whether a part of the base could not be read, so that what an edit names may be that part.
    base_broken: bool,
    broken: bool,
}

/// A target as written: a name and perhaps a number.
struct Aim<'p> {
    name: &'p Word,
    count: Option<u16>,
    span: Span,
}

impl<'p> Edits<'_, '_, 'p> {
    fn take(&mut self, block: BlockRef<'p>) {
        let is_outing = block.head().is_some_and(|head| head.kind == BlockKind::Outing);
        for line in block.lines() {
            let done = match &*line.line.form {
                Form::Change(change) => self.change(line, change),
                Form::Plain(plain) => match RigKey::of(&plain.key.folded) {
                    Some(RigKey::Remove) => self.remove(line, plain),
                    Some(RigKey::Add) => self.add(line, plain),
                    // That an outing takes no such line is told where it is read.
                    Some(RigKey::Part(kind)) if !is_outing => self.plain(line, plain, kind),
                    Some(RigKey::Part(_) | RigKey::Setting(_) | RigKey::Allow) | None => Some(()),
                },
                Form::Use(_) | Form::Block(_) | Form::Bind(_) | Form::Claim(_) => Some(()),
            };
            self.broken |= done.is_none();
        }
    }

    fn made(mut self) -> Vec<WrittenPart<'p>> {
        for (standing, target) in self.targets().into_iter().enumerate() {
            self.base[standing].part.target = Some(target);
        }
        let mut parts = Vec::with_capacity(self.base.len() + self.own.len());
        for standing in self.base {
            if !standing.removed {
                parts.push(standing.part);
            }
            parts.extend(standing.behind);
        }
        parts.extend(self.own);
        parts
    }

    fn fault(&self, finding: Finding) -> Option<()> {
        self.fitting.faults.report(finding);
        None
    }

    fn plain(&mut self, line: LineRef<'p>, plain: &'p Plain, kind: PartKind) -> Option<()> {
        if self.derived && !self.base.is_empty() {
            return self.fault(self.part_in_derived(line, plain, kind));
        }
        let given = sound(self.fitting.line(line, kind.row(), plain.into()))?;
        self.own.push(WrittenPart {
            kind,
            given,
            target: None,
        });
        Some(())
    }

    fn remove(&mut self, line: LineRef<'p>, plain: &'p Plain) -> Option<()> {
        let given = sound(self.fitting.line(line, RigKey::Remove.row(), plain.into()))?;
        self.needs_base(line, "remove")?;
        let aim = self.aim(line, &plain.items, plain.key.span)?;
        let at = self.find(line, &aim)?;
        self.once(at, given.line)?;
        self.base[at].removed = true;
        Some(())
    }

    fn change(&mut self, line: LineRef<'p>, change: &'p Change) -> Option<()> {
        self.needs_base(line, "change")?;
        let aim = Aim {
            name: &change.target.name,
            count: change.target.count,
            span: change.target.span,
        };
        let at = self.find(line, &aim)?;
        self.once(at, line)?;
        let row = self.base[at].part.kind.row();
        let values = Values {
            items: &change.items,
            clauses: &change.clauses,
            text: None,
            span: change.target.span,
        };
        let given = sound(self.partial().change(line, row, values))?;
        self.base[at].part.change(given);
        Some(())
    }

    fn partial(&self) -> Fitting<'_, 'p> {
        Fitting {
            names: self.fitting.names,
            is_value: self.fitting.is_value,
            faults: self.fitting.faults,
            partial: true,
        }
    }

    fn add(&mut self, line: LineRef<'p>, plain: &'p Plain) -> Option<()> {
        self.needs_base(line, "add")?;
        let Some((key, kind)) = added(plain) else {
            let message = "`add` lacks the part to put in";
            let finding = Finding::fault(Code::ValueLacking, line.place(plain.key.span), message);
            return self.fault(
                finding.help("it reads `add PART after TARGET`, such as `add shot 0.4 g after upper`"),
            );
        };
        let Some(after) = plain.clauses.iter().find(|clause| clause.joint == Joint::After) else {
            let finding = Finding::fault(
                Code::ValueLacking,
                line.place(plain.key.span),
                "`add` needs an `after`",
            );
            return self.fault(finding.help("say which part of the base it follows: `after upper`"));
        };
        let aim = self.aim(line, &after.items, after.span)?;
        let at = self.find(line, &aim)?;
        let given = sound(self.fitting.added(line, kind.row(), plain, key.span))?;
        self.base[at].behind.push(WrittenPart {
            kind,
            given,
            target: None,
        });
        Some(())
    }

    fn needs_base(&self, line: LineRef<'p>, key: &str) -> Option<()> {
        if self.derived {
            return Some(());
        }
        let message = format!("`{key}` edits a base, and this rig is made from none");
        let finding = Finding::fault(Code::EditWithoutBase, line.whole(), message);
        self.fault(finding.help("write the part itself, or open the rig with `rig NAME from BASE`"))
    }

    /// A target out of values: a name and perhaps a number.
    fn aim(&self, line: LineRef<'p>, items: &'p [Expr], instead: Span) -> Option<Aim<'p>> {
        let name = items.first().and_then(Expr::word);
        let count = items.get(1).map(count_of);
        match (name, count, items.len()) {
            (Some(name), None, 1) => Some(Aim {
                name,
                count: None,
                span: items[0].span,
            }),
            (Some(name), Some(Some(count)), 2) => Some(Aim {
                name,
                count: Some(count),
                span: items[0].span.to(items[1].span),
            }),
            _ => {
                let span = items
                    .first()
                    .zip(items.last())
                    .map_or(instead, |(first, last)| first.span.to(last.span));
                let message = format!("`{}` names no part", line.written(span));
                let finding = Finding::fault(Code::TargetUnknown, line.place(span), message);
                self.fault(finding.help("write a label, or a role and its number: `upper`, `taper 2`"));
                None
            }
        }
    }

    /// The part of the base that a target means.
    fn find(&self, line: LineRef<'p>, aim: &Aim<'p>) -> Option<usize> {
        let labelled = |standing: &Standing<'p>| {
            standing
                .part
                .label()
                .is_some_and(|(_, label)| label.folded == aim.name.folded)
        };
        if let (Some(at), None) = (self.base.iter().position(labelled), aim.count) {
            return Some(at);
        }
        let kind = PartKind::of(&aim.name.folded);
        let of_kind =
            |(at, standing): (usize, &Standing<'p>)| (Some(standing.part.kind) == kind).then_some(at);
        let all: Vec<usize> = self.base.iter().enumerate().filter_map(of_kind).collect();
        let found = match aim.count {
            None if all.len() == 1 => all.first().copied(),
            None => None,
            Some(count) => all.get(usize::from(count).wrapping_sub(1)).copied(),
        };
        if found.is_none() && !self.base_broken {
            self.fault(self.target_unknown(line, aim, all.len()));
        }
        found
    }

    fn target_unknown(&self, line: LineRef<'p>, aim: &Aim<'p>, of_role: usize) -> Finding {
        let written = line.written(aim.span);
        let place = line.place(aim.span);
        if of_role > 1 && aim.count.is_none() {
            let message = format!("the base has {of_role} parts `{}`", aim.name.folded);
            let finding = Finding::fault(Code::TargetUnknown, place, message).here("which of them?");
            return finding.help(format!(
                "number it from the reel: `{} 1` to `{} {of_role}`",
                aim.name.folded, aim.name.folded
            ));
        }
        let message = format!("the base has no part `{written}`");
        let finding = Finding::fault(Code::TargetUnknown, place, message);
        let known = self.targets();
        let names = known.iter().map(String::as_str);
        match snell_units::nearest(&aim.name.folded, names) {
            Some(near) if aim.count.is_none() => finding
                .here(format!("did you mean `{near}`?"))
                .fix(Fix::offered(format!("write `{near}`"), place, near)),
            _ => finding.help(format!("it has: {}", known.join(", "))),
        }
    }

    /// How each part of the base can be named.
    fn targets(&self) -> Vec<String> {
        let name = |(at, standing): (usize, &Standing<'p>)| {
            if let Some((_, label)) = standing.part.label() {
                return label.folded.to_string();
            }
            let kind = standing.part.kind;
            let alike = |standings: &[Standing<'p>]| {
                let alike = standings.iter().filter(|other| other.part.kind == kind);
                alike.count()
            };
            match alike(&self.base) {
                1 => kind.word().to_owned(),
                _ => format!("{} {}", kind.word(), alike(&self.base[..=at])),
            }
        };
        self.base.iter().enumerate().map(name).collect()
    }

    fn once(&mut self, at: usize, line: LineRef<'p>) -> Option<()> {
        if let Some((_, first)) = self.edited.iter().find(|(edited, _)| *edited == at) {
            let message = "two edits have one target";
            let finding = Finding::fault(Code::EditTwice, line.whole(), message);
            return self.fault(
                finding
                    .label(first.whole(), "the first")
                    .help("make one line of them"),
            );
        }
        self.edited.push((at, line));
        Some(())
    }

    fn part_in_derived(&self, line: LineRef<'p>, plain: &Plain, kind: PartKind) -> Finding {
        let key = kind.word();
        let message = format!("a rig made from another writes no `{key}` of its own");
        let place = line.place(plain.key.span);
        // A line in its author's own hand may have no key.
        let is_keyless = place.span.is_empty();
        let finding = Finding::fault(
            Code::PartInDerived,
            if is_keyless { line.whole() } else { place },
            message,
        );
        let of_role: Vec<_> = self
            .base
            .iter()
            .filter(|standing| standing.part.kind == kind)
            .collect();
        match of_role.as_slice() {
            [] => {
                let key = if is_keyless {
                    format!("{key} ")
                } else {
                    String::new()
                };
                finding.help(format!(
                    "put it in with `add {key}{} after TARGET`",
                    line.as_written()
                ))
            }
            [one] => {
                let label = one.part.label().map(|(_, label)| &*label.folded);
                let start = format!("change {} to", label.unwrap_or(key));
                let told = finding.help(format!("write `{start} …`"));
                if is_keyless {
                    return told;
                }
                told.fix(Fix::sure(format!("write `{start} …`"), place, start))
            }
            many => finding.help(format!(
                "write `change {key} 1 to …`, with its number from the reel up to {}",
                many.len()
            )),
        }
    }
}

fn count_of(expr: &Expr) -> Option<u16> {
    let count = expr.single()?.count().filter(|count| *count < 1000)?;
    u16::try_from(count).ok()
}

/// The part that an `add` puts in.
fn added(plain: &Plain) -> Option<(&Word, PartKind)> {
    let key = plain.items.first()?.word()?;
    Some((key, PartKind::of(&key.folded)?))
}

/// A line of which all fits.
fn sound(given: Given<'_>) -> Option<Given<'_>> {
    (!given.faulty).then_some(given)
}
