//! Makes the generated pages of `grammar/` anew.

use std::path::Path;
use std::{fs, io};

fn main() -> io::Result<()> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../grammar");
    let reference = folder.join("reference.md");
    let page = fs::read_to_string(&reference)?;
    fs::write(
        &reference,
        snell_tests::reference::filled(&page).map_err(io::Error::other)?,
    )?;
    fs::write(folder.join("editor.md"), snell_tests::editor_page())?;
    fs::write(folder.join("rules.md"), snell_tests::rules_page())
}
