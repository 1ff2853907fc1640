//! The rigs of a notebook by file and name.

use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_rig::World;
use snell_rig::project::BlockRef;

/// The name and file of every rig, in order.
pub fn names(notebook: &Notebook) -> Vec<(String, String)> {
    let world = World::new(notebook.project());
    rigs(&world)
        .into_iter()
        .map(|block| (snell_rig::rig::name(block), file_of(notebook, block)))
        .collect()
}

pub fn file_of(notebook: &Notebook, block: BlockRef<'_>) -> String {
    let document = notebook.document(block.source.file.text);
    document
        .map(|document| document.path.display().to_string())
        .unwrap_or_default()
}
