//! Reads the files that are named, and says how many blocks and faults they have:
//! reading alone, as a whole process, to be timed.

use snell_text::TextId;
use std::{env, fs, io};

fn main() -> io::Result<()> {
    for path in env::args().skip(1) {
        let text = fs::read_to_string(&path)?;
        let file = snell_syntax::read(&text, TextId(0), &snell_syntax::whole(&text));
        println!(
            "{path}: {} blocks, {} faults",
            file.blocks.len(),
            file.findings.len()
        );
    }
    Ok(())
}
