//! A rig: its settings, and its line from the reel to the point as sections,
//! joins and flies.
//!
//! Only what was written is here. Lengths may be expressions, so what they
//! come to, and all that follows from it, is for `evaluation`.

mod edits;
mod lay_out;
mod layout;
mod parts;
mod settings;

pub use layout::{Dropper, FlyAt, FlyOn, Join, Layout, OnLine, OnLineKind, Section, Stuff};
pub use parts::Part;
pub use settings::{Settings, Stated};

use crate::blocks::{self, Chain, Read, chain, line_key, merged};
use crate::fit::{Fitting, Given};
use crate::keywords;
use crate::measure;
use crate::project::{BlockRef, LineRef};
use crate::value::Faults;
use crate::world::World;
use rustc_hash::FxHashSet;
use snell_syntax::{Bind, BlockKind, Claim, ExprKind, Form};

/// A rig as it is written, bases and edits put together.
#[derive(Debug)]
pub struct Rig<'p> {
    /// Its block.
    pub block: BlockRef<'p>,
    /// Its name as written.
    pub name: String,
    /// The name of the rig that it is made from.
    pub base: Option<&'p str>,
    /// What it says but for its parts.
    pub settings: Settings<'p>,
    /// Its `let` lines.
    pub lets: Vec<(LineRef<'p>, &'p Bind)>,
    /// Its `expect` lines.
    pub expects: Vec<(LineRef<'p>, &'p Claim)>,
    /// Its `allow` lines.
    pub allows: Vec<Given<'p>>,
    /// Its line.
    pub layout: Layout<'p>,
    /// Whether a line of it, or of a base, could not be read: not all that it says is known.
    pub broken: bool,
    /// Whether that line may be one of a part: what counts its parts or runs along its line is not known.
    pub holes: bool,
}

/// The blocks that a rig is put together from: its bases and itself; of an outing, its rig's, and the outing.
fn blocks_of<'p>(
    world: &World<'p>,
    block: BlockRef<'p>,
) -> Result<Chain<'p>, Option<Box<snell_finding::Finding>>> {
    let Read::Outing(outing) = world.read(block.id) else {
        return chain(world, block);
    };
    // That an outing names no rig is told where it is read.
    let rig = outing.rig.ok_or(None)?;
    let mut all = chain(world, world.project.block(rig))?;
    all.push(block);
    Ok(all)
}

/// Puts a rig together, or the rig of an outing as it was fished. Where its base cannot be had, what it says itself is still read.
pub fn read<'p>(world: &World<'p>, block: BlockRef<'p>, faults: &Faults) -> Rig<'p> {
    let (chain, whole) = match blocks_of(world, block) {
        Ok(chain) => (chain, true),
        Err(finding) => {
            finding.into_iter().for_each(|finding| faults.report(*finding));
            (vec![block], false)
        }
    };
    let values = value_names(&chain);
    // Without its base, any word may be a value that the base names.
    let is_value = |word: &str| !whole || measure::of_rig(word).is_some() || values.contains(word);
    let fitting = Fitting {
        world,
        is_value: &is_value,
        faults,
        partial: false,
    };
    let mut broken = !whole;
    let parts = edits::parts(&fitting, &chain, &mut broken);
    let mut rig = Rig {
        block,
        name: name(block),
        base: block
            .head()
            .and_then(|head| head.base.as_ref())
            .zip(block.head_line())
            .map(|(base, line)| line.spelled(base)),
        settings: Settings::default(),
        lets: Vec::new(),
        expects: Vec::new(),
        allows: Vec::new(),
        layout: lay_out::lay_out(&fitting, parts, &mut broken),
        broken: false,
        holes: false,
    };
    rig.holes = broken;
    let is_outing = matches!(world.read(block.id), Read::Outing(_));
    for line in merged(&chain, faults) {
        // An outing says of a rig only what edits it, and the water. What the rig claims is not held against
        // what was done at the bank.
        let own = is_outing && rig.owns(line) && line_key(line).0 != "water";
        let claim = is_outing && matches!(line_key(line).0, "expect" | "allow");
        if !own && !claim {
            rig.take(&fitting, line, &mut broken);
        }
    }
    rig.broken = broken;
    rig.check_names(faults);
    rig
}

/// A block's name as written; of lines before any block, the file's.
pub fn name(block: BlockRef<'_>) -> String {
    match (block.head(), block.head_line()) {
        (Some(head), Some(line)) => line.spelled(&head.name).to_owned(),
        _ => block.source.name.clone(),
    }
}

impl<'p> Rig<'p> {
    /// Whether a fly rides on the surface: because it says so, or because its method has it there and nothing is
    /// known to sink it. Of `dry` that is every fly, of `dry-dropper` the uppermost.
    pub fn rides_afloat(&self, fly: usize) -> bool {
        let on = &self.layout.flies[fly];
        let sunk = on.fly.is_weighted() || on.fly.mass.is_some() || on.fly.sinks.is_some();
        let above = fly == 0 && on.at != FlyAt::Point;
        let meant = self.settings.is_for("dry") || self.settings.is_for("dry-dropper") && above;
        on.fly.floats.is_some() || meant && !sunk
    }

    fn take(&mut self, fitting: &Fitting<'_, 'p>, line: LineRef<'p>, broken: &mut bool) {
        match &*line.line.form {
            Form::Bind(bind) if &*bind.key.folded == "let" => self.lets.push((line, bind)),
            Form::Claim(claim) if &*claim.key.folded == "expect" => self.expects.push((line, claim)),
            Form::Change(_) => {}
            Form::Plain(plain) if edits::is_for_parts(&plain.key.folded) => {}
            _ if self.may_be_of_another_kind()
                && keywords::row(BlockKind::Rig, line_key(line).0).is_none() =>
            {
                *broken = true;
                self.holes = true;
            }
            _ => match blocks::fit_line(fitting, BlockKind::Rig, line) {
                Some(given) if given.row.key == "allow" => self.allows.push(given),
                Some(given) => self.settings.take(fitting, &given),
                None => {
                    *broken = true;
                    self.holes |= keywords::row(BlockKind::Rig, line_key(line).0).is_none();
                }
            },
        }
    }

    /// Whether the head of its block could not be read, so that its lines may be those of a rod or a rule.
    fn may_be_of_another_kind(&self) -> bool {
        self.block.head().is_none() && self.block.block.broken
    }

    /// A let or label named like a measure or a role would make expressions mean two things.
    fn check_names(&self, faults: &Faults) {
        let lets: Vec<_> = self.lets.iter().map(|(line, bind)| (*line, &bind.name)).collect();
        let labels: Vec<_> = self.layout.labels().collect();
        for (line, word) in lets.iter().chain(&labels) {
            if measure::of_rig(&word.folded).is_some() || keywords::is_part(&word.folded) {
                faults.report(layout::name_taken(*line, word));
            }
        }
        for (at, (line, word)) in labels.iter().enumerate() {
            let earlier = lets.iter().chain(&labels[..at]);
            if earlier.into_iter().any(|(_, other)| other.folded == word.folded) {
                faults.report(layout::name_twice(*line, word));
            }
        }
    }

    /// Where its name stands.
    pub fn place(&self) -> snell_text::Place {
        self.block.name_place()
    }

    /// Whether a line stands in its own block, and not in one that it is made from.
    pub fn owns(&self, line: LineRef<'_>) -> bool {
        let own = self.block.block.body.iter();
        line.file == self.block.id.file
            && own
                .into_iter()
                .any(|own| own.offset == line.line.offset && line.start == self.block.start)
    }

    /// Whether a place lies on a line of its own block.
    pub fn owns_place(&self, place: snell_text::Place) -> bool {
        self.block
            .lines()
            .any(|line| line.text_id() == place.text && line.whole().span.holds(place.span))
    }

    /// Its title for people.
    pub fn title(&self) -> Option<&'p str> {
        self.block.title()
    }
}

/// The names of lets and labels in a chain, known before any line is sorted.
fn value_names<'p>(chain: &Chain<'p>) -> FxHashSet<&'p str> {
    let mut names = FxHashSet::default();
    for line in chain.iter().flat_map(|block| block.lines()) {
        match &*line.line.form {
            Form::Bind(bind) if line_key(line).0 == "let" => {
                names.insert(&*bind.name.folded);
            }
            Form::Plain(plain) => {
                let labels = plain
                    .clauses
                    .iter()
                    .filter(|clause| clause.joint == snell_syntax::Joint::As);
                for item in labels.filter_map(|clause| clause.items.first()) {
                    if let ExprKind::Path(words) = &item.kind {
                        names.insert(&*words[0].folded);
                    }
                }
            }
            _ => {}
        }
    }
    names
}
