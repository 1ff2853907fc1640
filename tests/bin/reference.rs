//! Makes the tables of `grammar/reference.md` anew.

use std::path::Path;
use std::{fs, io};

fn main() -> io::Result<()> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../grammar/reference.md");
    let page = fs::read_to_string(&path)?;
    let filled = snell_tests::reference::filled(&page).map_err(io::Error::other)?;
    if filled != page {
        fs::write(&path, filled)?;
        println!("{} made anew", path.display());
    }
    Ok(())
}
