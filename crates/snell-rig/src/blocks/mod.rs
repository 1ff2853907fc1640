//! Blocks other than rigs, read into values: rods, waters, materials, spools,
//! knots, flies and their like.
//!
//! A block that lacks a line still stands: what it leaves unsaid is unknown.

mod fly;
mod gather;
mod line_size;
mod outing;
mod plain;
mod spool;

pub use fly::{Bead, Fly, Wire};
pub use gather::{Chain, chain, line_key, merged};
pub use line_size::{LineSize, Size};
pub use outing::{Catch, Outing};
pub use plain::{Bed, Dressing, Knot, Material, Rod, SpeedOf, Water};
pub use spool::Spool;

pub(crate) use fly::Essentials;
pub(crate) use plain::{rod_essentials, water_essentials};

use crate::evaluate::{Constants, evaluate};
use crate::fit::{Fit, Fitting, Given};
use crate::keywords::{self, Often, Take};
use crate::project::{BlockId, BlockRef, LineRef};
use crate::value::{Faults, Lack, Outcome};
use crate::world::World;
use snell_finding::{Code, Finding, Fix};
use snell_syntax::{BlockKind, Form};
use snell_text::Place;

/// A block as it was read.
#[derive(Debug)]
pub enum Read<'p> {
    /// A rod.
    Rod(Rod),
    /// A water.
    Water(Water),
    /// A bed.
    Bed(Bed),
    /// A material.
    Material(Material),
    /// A spool.
    Spool(Box<Spool<'p>>),
    /// A knot.
    Knot(Knot),
    /// A dressing.
    Dressing(Dressing),
    /// A fly.
    Fly(Box<Fly<'p>>),
    /// An outing.
    Outing(Box<Outing<'p>>),
    /// Rigs, rules and rulebooks are read elsewhere.
    Elsewhere,
}

/// Reads one block; its faults are reported once, by the block in which they stand.
pub fn read<'p>(world: &World<'p>, block: BlockRef<'p>, faults: &Faults) -> Read<'p> {
    let Some(head) = block.head() else {
        return Read::Elsewhere;
    };
    if head.kind == BlockKind::Rig {
        return Read::Elsewhere;
    }
    let lines = Lines::new(world, block, head.kind, faults);
    match head.kind {
        BlockKind::Rod => Read::Rod(Rod::read(&lines)),
        BlockKind::Water => Read::Water(Water::read(&lines)),
        BlockKind::Bed => Read::Bed(Bed::read(&lines)),
        BlockKind::Material => Read::Material(Material::read(&lines)),
        BlockKind::Spool => Read::Spool(Box::new(Spool::read(&lines))),
        BlockKind::Knot => Read::Knot(Knot::read(&lines)),
        BlockKind::Dressing => Read::Dressing(Dressing::read(&lines)),
        BlockKind::Fly => Read::Fly(Box::new(Fly::read(&lines))),
        BlockKind::Outing => Read::Outing(Box::new(Outing::read(&lines))),
        BlockKind::Rig | BlockKind::Rule | BlockKind::Rulebook => Read::Elsewhere,
    }
}

/// Whether a line edits a rig, which is for the rig to read.
fn edits(kind: BlockKind, line: LineRef<'_>) -> bool {
    kind == BlockKind::Outing && matches!(line_key(line).0, "change" | "remove" | "add")
}

/// The lines of a block and its bases, each held against its row.
pub(crate) struct Lines<'a, 'p> {
    world: &'a World<'p>,
    block: BlockRef<'p>,
    kind: BlockKind,
    given: Vec<Given<'p>>,
    faults: &'a Faults,
    /// Whether a line is missing because it could not be read.
    holes: bool,
}

impl<'a, 'p> Lines<'a, 'p> {
    fn new(world: &'a World<'p>, block: BlockRef<'p>, kind: BlockKind, faults: &'a Faults) -> Self {
        let (chain, whole) = match chain(world, block) {
            Ok(chain) => (chain, true),
            Err(finding) => {
                finding.into_iter().for_each(|finding| faults.report(*finding));
                (vec![block], false)
            }
        };
        let fitting = Fitting {
            world,
            is_value: &|_| false,
            faults,
            partial: false,
        };
        let mut holes = !whole || chain.iter().any(|block| block.block.broken);
        let mut given = Vec::new();
        for line in merged(&chain, faults)
            .into_iter()
            .filter(|line| !edits(kind, *line))
        {
            match fit_line(&fitting, kind, line) {
                Some(fitted) => given.push(fitted),
                None => holes = true,
            }
        }
        let lines = Self {
            world,
            block,
            kind,
            given,
            faults,
            holes,
        };
        if !lines.holes {
            lines.report_missing();
        }
        lines
    }

    fn report_missing(&self) {
        let needed = keywords::rows(self.kind)
            .iter()
            .filter(|row| row.often == Often::Needed);
        for row in needed {
            if self.get(row.key).is_none() {
                let (kind, name) = (self.kind.word(), self.name());
                let message = format!("the {kind} `{name}` has no `{}`", row.key);
                let finding = Finding::fault(Code::LineMissing, self.block.name_place(), message);
                self.faults.report(finding.help(format!(
                    "add a line such as `{}`: {}",
                    row.shape(),
                    row.about
                )));
            }
        }
    }

    fn name(&self) -> &'p str {
        self.block.head().map_or("", |head| &head.name.folded)
    }

    fn get(&self, key: &str) -> Option<&Given<'p>> {
        self.given.iter().find(|given| given.row.key == key)
    }

    /// The value of a key's first place, or that it is unknown.
    fn value(&self, key: &'static str, take: Take) -> Outcome {
        match self.get(key) {
            Some(given) if given.faulty => Err(Lack::Faulty),
            Some(given) => match given.get(take) {
                Some(fit) => self.constant(fit),
                None => Err(Lack::Faulty),
            },
            None => Err(self.lacks(key)),
        }
    }

    /// Two lines of which a block says one.
    fn exclusive(&self, one: &str, other: &str) {
        if let (Some(first), Some(second)) = (self.get(one), self.get(other)) {
            let message = format!("a {} says `{one}` or `{other}`, not both", self.kind.word());
            let finding = Finding::fault(Code::LineTwice, second.line.whole(), message);
            self.faults.report(
                finding
                    .label(first.line.whole(), "the first")
                    .help("keep the one that was measured"),
            );
        }
    }

    /// What stands for a line that is not there.
    fn lacks(&self, key: &str) -> Lack {
        if self.holes {
            return Lack::Faulty;
        }
        let what = format!("the `{key}` of the {} `{}`", self.kind.word(), self.name());
        Lack::need(what, Some(self.block.name_place()))
    }

    fn constant(&self, fit: Fit<'p>) -> Outcome {
        constant(self.faults, fit)
    }

    fn named(&self, fit: Fit<'p>) -> Option<BlockId> {
        match fit.take {
            Take::Name(kind) => named(self.world, fit, kind),
            _ => None,
        }
    }
}

/// A value that needs no names.
pub(crate) fn constant<'p>(faults: &Faults, fit: Fit<'p>) -> Outcome {
    let value = evaluate(&Constants(faults), fit.line, fit.expr)?;
    let fits = |dimension| value.dimension() == dimension;
    match fit.take.dimension() {
        Some(dimension)
            if !(fits(dimension) || fit.take == Take::Force && fits(snell_units::Dimension::FORCE)) =>
        {
            Err(faults.lack(wrong_dimension(fit, &value)))
        }
        _ => Ok(value),
    }
}

/// A computed value of another kind than its place takes.
pub(crate) fn wrong_dimension(fit: Fit<'_>, value: &crate::value::Value) -> Finding {
    let message = format!(
        "`{}` comes to {} ({}) where another kind is needed",
        fit.line.written(fit.expr.span),
        value.dimension().name(),
        value.written()
    );
    let finding =
        Finding::fault(Code::UnitWrong, fit.place(), message).here(format!("{} goes here", fit.take.told()));
    crate::evaluate::with_causes(finding, value)
}

/// The block that a name in its place means.
pub(crate) fn named(world: &World<'_>, fit: Fit<'_>, kind: BlockKind) -> Option<BlockId> {
    let crate::fit::Shape::Word(word) = crate::fit::shape(fit.expr) else {
        return None;
    };
    match world.find(fit.line.file, kind, &word.folded) {
        crate::names::Found::Block(id) => Some(id),
        _ => None,
    }
}

/// Holds a plain line against its row; an unknown key is a fault.
pub(crate) fn fit_line<'p>(
    fitting: &Fitting<'_, 'p>,
    kind: BlockKind,
    line: LineRef<'p>,
) -> Option<Given<'p>> {
    let Form::Plain(plain) = &*line.line.form else {
        return own_form(fitting, kind, line);
    };
    match keywords::row(kind, &plain.key.folded) {
        Some(row) => {
            let given = fitting.line(line, row, plain.into());
            (!given.faulty).then_some(given)
        }
        None => {
            fitting.faults.report(key_unknown(kind, line, &plain.key));
            None
        }
    }
}

/// A line with a form of its own where the block takes none such.
fn own_form<'p>(fitting: &Fitting<'_, 'p>, kind: BlockKind, line: LineRef<'p>) -> Option<Given<'p>> {
    let (key, place) = line_key(line);
    let form = keywords::OWN_FORMS.iter().find(|form| form.key == key)?;
    if !form.within.contains(&kind) {
        let kinds: Vec<&str> = form.within.iter().map(|kind| kind.one()).collect();
        let message = format!("`{key}` means nothing in {}", kind.one());
        let finding = Finding::fault(Code::KeyUnknown, place, message);
        fitting
            .faults
            .report(finding.help(format!("it belongs in {}: {}", kinds.join(" or "), form.about)));
    }
    None
}

/// A word that opens no line of its kind of block.
fn key_unknown(kind: BlockKind, line: LineRef<'_>, key: &snell_syntax::Word) -> Finding {
    let place: Place = line.place(key.span);
    let written = line.spelled(key);
    let message = format!("no line of {} opens with `{written}`", kind.one());
    let finding = Finding::fault(Code::KeyUnknown, place, message);
    let own = keywords::OWN_FORMS
        .iter()
        .filter(|form| form.within.contains(&kind))
        .map(|form| form.key);
    let known = keywords::rows(kind).iter().map(|row| row.key).chain(own);
    if let Some(form) = keywords::OWN_FORMS
        .iter()
        .find(|form| form.key == &*key.folded && form.within.contains(&kind))
    {
        return Finding::fault(
            Code::KeyUnknown,
            line.whole(),
            format!("this `{written}` line is not whole"),
        )
        .help(format!("it reads `{}`", form.shape));
    }
    if BlockKind::of(&key.folded).is_some() {
        return finding.help("leave a blank line before a block, and start it at the margin");
    }
    match snell_units::nearest(&key.folded, known.clone()) {
        Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
            format!("write `{near}`"),
            place,
            near,
        )),
        None => {
            let known: Vec<String> = known.map(|key| format!("`{key}`")).collect();
            finding.help(format!("{} says: {}", kind.one(), known.join(", ")))
        }
    }
}
