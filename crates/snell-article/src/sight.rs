//! The rigs that a page's markers may name: its own, then those of the files
//! that it uses. It knows no marker.

use snell_analysis::rigs;
use snell_rig::World;
use snell_rig::project::{BlockRef, FileId};
use snell_text::TextId;

/// What a page sees.
pub(super) struct Sight<'p> {
    own: Vec<(String, BlockRef<'p>)>,
    used: Vec<(String, BlockRef<'p>)>,
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
        let used: Vec<FileId> = project
            .files()
            .filter(|file| is_own(*file))
            .flat_map(|file| project.source(file).uses.iter().map(|(used, _)| *used))
            .collect();
        let named = |block: &BlockRef<'p>| (snell_syntax::fold(&snell_rig::rig::name(*block)), *block);
        let all = rigs(world);
        let of = |wanted: &dyn Fn(FileId) -> bool| {
            let those = all.iter().filter(|block| wanted(block.id.file));
            those.map(named).collect::<Vec<_>>()
        };
        Self {
            own: of(&is_own),
            used: of(&|file| used.contains(&file)),
        }
    }

    /// What a name means here.
    pub fn find(&self, name: &str) -> Named<'p> {
        let name = snell_syntax::fold(name);
        let of = |all: &[(String, BlockRef<'p>)]| {
            let those = all.iter().filter(|(known, _)| *known == name);
            those.map(|(_, block)| *block).collect::<Vec<_>>()
        };
        if let Some(own) = of(&self.own).first() {
            return Named::Rig(*own);
        }
        let used = of(&self.used);
        let Some(first) = used.first() else {
            let known = self.own.iter().chain(&self.used).map(|(name, _)| name.as_str());
            return Named::Missing(snell_units::nearest(&name, known).map(str::to_owned));
        };
        match used.iter().find(|other| other.id.file != first.id.file) {
            Some(second) => Named::Twice(*first, *second),
            None => Named::Rig(*first),
        }
    }
}
