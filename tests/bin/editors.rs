//! Makes the editors' lists of words anew: `cargo run -p snell-tests --bin editors`.

use std::{fs, io};

fn main() -> io::Result<()> {
    for page in snell_tests::vocabulary::pages() {
        fs::write(snell_tests::top().join(page.path), page.text)?;
    }
    Ok(())
}
