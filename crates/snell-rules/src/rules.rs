//! Every rule of a project, each read when it is first needed.

use crate::rule::Rule;
use rustc_hash::FxHashMap;
use snell_finding::{Code, Finding, Fix};
use snell_rig::faults::Faults;
use snell_rig::project::{FileId, LineRef};
use snell_rig::{BlockId, Lookup, Project, World};
use snell_syntax::{BlockKind, Word};
use std::sync::{Arc, LazyLock, OnceLock};

/// The rules of a project by their blocks.
#[derive(Debug)]
pub(crate) struct Rules<'w, 'p> {
    pub(crate) world: &'w World<'p>,
    own: FxHashMap<BlockId, OnceLock<Read<'p>>>,
}

/// A rule as it was read, if it is whole, and what it was read by.
#[derive(Debug)]
struct Read<'p> {
    rule: Option<Arc<Rule<'p>>>,
    faults: Vec<Finding>,
    by: Vec<Lookup>,
}

/// The rules that ship, each read once a process: they see nothing but one another.
fn shipped(id: BlockId) -> Option<Arc<Rule<'static>>> {
    type Cell = OnceLock<Option<Arc<Rule<'static>>>>;
    static PROJECT: LazyLock<Project> = LazyLock::new(crate::book::project);
    static RULES: LazyLock<FxHashMap<BlockId, Cell>> = LazyLock::new(|| {
        let shipped = PROJECT.files().filter(|file| PROJECT.ships(*file));
        let rules = shipped.flat_map(|file| rules_of(&PROJECT, file));
        rules.map(|id| (id, Cell::default())).collect()
    });
    let read = || {
        let world = World::new(&PROJECT);
        Rule::read(&world, PROJECT.block(id), &Faults::default()).map(Arc::new)
    };
    RULES.get(&id)?.get_or_init(read).clone()
}

/// The blocks of a file that are rules.
fn rules_of(project: &Project, file: FileId) -> impl Iterator<Item = BlockId> {
    let blocks = project.source(file).file.blocks.iter().zip(0..);
    let rules = blocks.filter(|(placed, _)| {
        let opens = placed.block.opens.as_ref();
        opens.is_some_and(|(kind, _)| *kind == BlockKind::Rule)
    });
    rules.map(move |(_, index)| BlockId { file, index })
}

impl<'w, 'p> Rules<'w, 'p> {
    pub(crate) fn new(world: &'w World<'p>) -> Self {
        let project = world.project;
        let own = project.own_files().flat_map(|file| rules_of(project, file));
        Self {
            world,
            own: own.map(|id| (id, OnceLock::new())).collect(),
        }
    }

    /// A rule, if the block is one and is whole.
    pub(crate) fn rule(&self, world: &World<'p>, id: BlockId) -> Option<Arc<Rule<'p>>> {
        if self.world.project.ships(id.file) {
            return shipped(id);
        }
        let read = self.read(id)?;
        world.note(&read.by);
        read.rule.clone()
    }

    fn read(&self, id: BlockId) -> Option<&Read<'p>> {
        let cell = self.own.get(&id)?;
        Some(cell.get_or_init(|| {
            let (noting, faults) = (self.world.noting(), Faults::default());
            let rule = Rule::read(&noting, self.world.project.block(id), &faults).map(Arc::new);
            Read {
                rule,
                faults: faults.into_inner(),
                by: noting.noted(),
            }
        }))
    }

    /// What is wrong with a rule of the project's own.
    pub(crate) fn faults(&self, world: &World<'p>, id: BlockId) -> &[Finding] {
        let Some(read) = self.read(id) else { return &[] };
        world.note(&read.by);
        &read.faults
    }

    /// Every rule that a file sees by a name.
    pub(crate) fn find(&self, world: &World<'p>, file: FileId, word: &Word) -> Option<Arc<Rule<'p>>> {
        let id = world.find(file, BlockKind::Rule, &word.folded).block()?;
        self.rule(world, id)
    }

    /// A rule's name that means nothing.
    pub(crate) fn unknown(&self, world: &World<'p>, line: LineRef<'_>, word: &Word, file: FileId) -> Finding {
        let place = line.place(word.span);
        let written = line.spelled(word);
        let message = format!("there is no rule `{written}` in sight");
        let finding = Finding::fault(Code::RuleUnknown, place, message);
        match world.names.nearest(file, BlockKind::Rule, &word.folded) {
            Some(near) => finding.here(format!("did you mean `{near}`?")).fix(Fix::offered(
                format!("write `{near}`"),
                place,
                &*near,
            )),
            None => {
                finding.help("the rules that ship are listed in the reference; `snell why RULE` explains one")
            }
        }
    }
}
