//! Writes every file that is made by a program anew: `cargo refresh`.

use snell_tests::{made, top};
use std::{fs, io};

fn main() -> io::Result<()> {
    for page in made::pages()? {
        let path = top().join(&page.path);
        let there = fs::read_to_string(&path).ok();
        if there.as_deref() != Some(&page.text) {
            fs::write(&path, &page.text)?;
            println!("wrote {}", page.path);
        }
    }
    Ok(())
}
