//! Writes what each target of `tests/fuzz` starts from: `fuzz-seeds FOLDER`.

use snell_tests::laws::{LAWS, write_seeds};
use std::path::PathBuf;
use std::{env, io};

fn main() -> io::Result<()> {
    let folder = env::args_os()
        .nth(1)
        .map(PathBuf::from)
        .ok_or_else(|| io::Error::other("usage: fuzz-seeds FOLDER"))?;
    for law in &LAWS {
        let count = write_seeds(law.name, &folder.join(law.name))?;
        println!("{}: {count}", law.name);
    }
    Ok(())
}
