//! A rig put together out of its block and those that it is made from.

use crate::blocks::{fit_line, is_edit, line_key, lineage, merged};
use crate::faults::Faults;
use crate::fit::Fitting;
use crate::keywords::{Key, OwnKey, PartKind, RigKey, Setting};
use crate::measure;
use crate::project::{BlockRef, LineRef};
use crate::rig::Settings;
use crate::rig::edits;
use crate::rig::lay_out::lay_out;
use crate::rig::{Rig, name};
use crate::world::World;
use rustc_hash::FxHashSet;
use snell_finding::{Code, Finding};
use snell_syntax::{Form, Joint, Word};

/// The blocks that a rig is put together from: its bases and itself; of an outing, its rig's, and the outing.
fn blocks_of<'p>(world: &World<'p>, block: BlockRef<'p>) -> Result<Vec<BlockRef<'p>>, Option<Box<Finding>>> {
    let Some(outing) = world.read(block.id).outing() else {
        return lineage(&world.names, block);
    };
    // That an outing names no rig is told where it is read.
    let rig = outing.rig.ok_or(None)?;
    let mut all = lineage(&world.names, world.project.block(rig))?;
    all.push(block);
    Ok(all)
}

/// Puts a rig together, or the rig of an outing as it was fished. Where its base cannot be had, what it says
/// itself is still read.
pub fn read<'p>(world: &World<'p>, block: BlockRef<'p>, faults: &Faults) -> Rig<'p> {
    let (bases, whole) = match blocks_of(world, block) {
        Ok(bases) => (bases, true),
        Err(finding) => {
            finding.into_iter().for_each(|finding| faults.report(*finding));
            (vec![block], false)
        }
    };
    let values = value_names(&bases);
    // Without its base, any word may be a value that the base names.
    let is_value = |word: &str| !whole || measure::of_rig(word).is_some() || values.contains(word);
    let fitting = Fitting {
        names: &world.names,
        is_value: &is_value,
        faults,
        partial: false,
    };
    let mut broken = !whole;
    let parts = edits::parts(&fitting, &bases, &mut broken);
    let has_unknown = bases.iter().flat_map(|base| base.lines()).any(is_unknown);
    let chain = lay_out(world, faults, parts, has_unknown, &mut broken);
    let rig = Rig {
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
        chain,
        broken,
        holes: broken,
    };
    let mut reader = Reader {
        world,
        fitting: &fitting,
        rig,
    };
    let is_outing = world.read(block.id).outing().is_some();
    for line in merged(&bases, faults) {
        if !is_outing || reader.is_fished(line) {
            reader.take(line);
        }
    }
    check_names(&reader.rig, faults);
    reader.rig
}

/// Whether no line of a rig opens with a line's word.
fn is_unknown(line: LineRef<'_>) -> bool {
    match &*line.line.form {
        Form::Plain(plain) => {
            !is_edit(line)
                && RigKey::of(&plain.key.folded).is_none()
                && OwnKey::of(&plain.key.folded).is_none()
        }
        Form::Use(_) | Form::Block(_) | Form::Change(_) | Form::Bind(_) | Form::Claim(_) => false,
    }
}

/// Reads the lines of a rig but for its parts.
struct Reader<'a, 'f, 'p> {
    world: &'a World<'p>,
    fitting: &'a Fitting<'f, 'p>,
    rig: Rig<'p>,
}

impl<'p> Reader<'_, '_, 'p> {
    /// Whether a line tells how the rig of an outing was fished. The outing says of a rig only what edits it, and
    /// the water. What the rig claims is not held against what was done at the bank.
    fn is_fished(&self, line: LineRef<'p>) -> bool {
        let key = line_key(line).0;
        let claim = OwnKey::of(key) == Some(OwnKey::Expect) || RigKey::of(key) == Some(RigKey::Allow);
        let water = RigKey::of(key) == Some(RigKey::Setting(Setting::Water));
        !claim && (water || !self.rig.owns(line))
    }

    fn take(&mut self, line: LineRef<'p>) {
        match &*line.line.form {
            Form::Bind(bind) if OwnKey::of(&bind.key.folded) == Some(OwnKey::Let) => {
                return self.rig.lets.push((line, bind));
            }
            Form::Claim(claim) if OwnKey::of(&claim.key.folded) == Some(OwnKey::Expect) => {
                return self.rig.expects.push((line, claim));
            }
            Form::Plain(plain) if PartKind::of(&plain.key.folded).is_some() => return,
            Form::Use(_)
            | Form::Block(_)
            | Form::Change(_)
            | Form::Bind(_)
            | Form::Claim(_)
            | Form::Plain(_) => {}
        }
        if is_edit(line) {
            return;
        }
        let is_known = RigKey::of(line_key(line).0).is_some();
        let fitted = if is_known || !self.may_be_of_another_kind() {
            fit_line(self.fitting, line)
        } else {
            None
        };
        match fitted {
            Some((RigKey::Allow, given)) => self.rig.allows.push(given),
            Some((RigKey::Setting(setting), given)) => {
                let settings = &mut self.rig.settings;
                settings.take(self.world, self.fitting.faults, setting, &given);
            }
            // Parts and their edits are read before.
            Some((RigKey::Part(_) | RigKey::Remove | RigKey::Add, _)) => {}
            None => {
                self.rig.broken = true;
                self.rig.holes |= !is_known;
            }
        }
    }

    /// Whether the head of its block could not be read, so that its lines may be those of a rod or a rule.
    fn may_be_of_another_kind(&self) -> bool {
        self.rig.block.head().is_none() && self.rig.block.block.broken
    }
}

/// A let or label named like a measure or a role would make expressions mean two things.
fn check_names(rig: &Rig<'_>, faults: &Faults) {
    let lets: Vec<_> = rig.lets.iter().map(|(line, bind)| (*line, &bind.name)).collect();
    let labels: Vec<_> = rig.chain.labels().collect();
    for (line, word) in lets.iter().chain(&labels) {
        if measure::of_rig(&word.folded).is_some() || PartKind::of(&word.folded).is_some() {
            faults.report(name_taken(*line, word));
        }
    }
    for (at, (line, word)) in labels.iter().enumerate() {
        let earlier = lets.iter().chain(&labels[..at]);
        if earlier.into_iter().any(|(_, other)| other.folded == word.folded) {
            faults.report(name_twice(*line, word));
        }
    }
}

/// A let or label with a name that an expression would read as something else.
fn name_taken(line: LineRef<'_>, word: &Word) -> Finding {
    let message = format!(
        "`{}` is the name of a measure or of a kind of part",
        line.spelled(word)
    );
    Finding::fault(Code::NameTaken, line.place(word.span), message).help("choose another name")
}

/// A let or label with the name of another.
fn name_twice(line: LineRef<'_>, word: &Word) -> Finding {
    let message = format!("this rig has two things called `{}`", line.spelled(word));
    Finding::fault(Code::NameTwice, line.place(word.span), message)
        .help("choose another name for one of them")
}

/// The names of lets and labels in some blocks, known before any line is sorted.
fn value_names<'p>(bases: &[BlockRef<'p>]) -> FxHashSet<&'p str> {
    let mut names = FxHashSet::default();
    for line in bases.iter().flat_map(|block| block.lines()) {
        match &*line.line.form {
            Form::Bind(bind) if OwnKey::of(&bind.key.folded) == Some(OwnKey::Let) => {
                names.insert(&*bind.name.folded);
            }
            Form::Plain(plain) => {
                let labels = plain.clauses.iter().filter(|clause| clause.joint == Joint::As);
                let paths = labels.filter_map(|clause| clause.items.first()?.path());
                names.extend(paths.map(|path| &*path[0].folded));
            }
            Form::Use(_) | Form::Block(_) | Form::Change(_) | Form::Bind(_) | Form::Claim(_) => {}
        }
    }
    names
}
