//! The rigs that a page's markers may name: its own, then those of the files
//! that it uses. It knows no marker.

use snell_analysis::rigs;
use snell_rig::World;
use snell_rig::project::{BlockRef, FileId};
use snell_text::TextId;
use std::collections::{HashMap, HashSet};

/// What a page sees, by folded names.
pub(super) struct Sight<'p> {
    own: HashMap<String, BlockRef<'p>>,
    /// The first of a name, and the first of another file.
    used: HashMap<String, (BlockRef<'p>, Option<BlockRef<'p>>)>,
}

/// What a name was found to mean.
pub(super) enum Named<'p> {
    Rig(BlockRef<'p>),
    /// Two used files have a rig of this name.
    Twice(BlockRef<'p>, BlockRef<'p>),
    /// None has; the nearest name, if one is near.
    Missing(Option<String>),
}

impl<'p> Sight<'p> {
    /// What the page `text` sees. Rigs of fences that see only themselves come last among its own.
    pub fn of(world: &World<'p>, text: TextId) -> Self {
        let project = world.project;
        let is_own = |file: FileId| !project.ships(file) && project.source(file).file.text == text;
        let used: HashSet<FileId> = project
            .files()
            .filter(|file| is_own(*file))
            .flat_map(|file| project.source(file).uses.iter().map(|(used, _)| *used))
            .collect();
        let (mut own, mut seen) = (HashMap::new(), HashMap::new());
        for block in rigs(world) {
            let name = snell_syntax::fold(&snell_rig::rig::name(block)).into_owned();
            if is_own(block.id.file) {
                own.entry(name).or_insert(block);
            } else if used.contains(&block.id.file) {
                let (first, second) = seen.entry(name).or_insert((block, None::<BlockRef<'p>>));
                if first.id.file != block.id.file {
                    second.get_or_insert(block);
                }
            }
        }
        Self { own, used: seen }
    }

    /// What a name means here.
    pub fn find(&self, name: &str) -> Named<'p> {
        let name = snell_syntax::fold(name);
        if let Some(own) = self.own.get(&*name) {
            return Named::Rig(*own);
        }
        match self.used.get(&*name) {
            Some((first, None)) => Named::Rig(*first),
            Some((first, Some(second))) => Named::Twice(*first, *second),
            None => {
                let mut known: Vec<&str> = self
                    .own
                    .keys()
                    .chain(self.used.keys())
                    .map(String::as_str)
                    .collect();
                known.sort_unstable();
                Named::Missing(snell_units::nearest(&name, known).map(str::to_owned))
            }
        }
    }
}
